"""Whether a write-up promises what nobody can keep: a few plain phrases, in both languages.

Common practice, no source: an honest range is owed, a certainty is not to be had. What is denied
("I cannot promise") is no promise.
"""

import re

LOST = 2.0  # points of the record, trade practice [-]
PHRASES = re.compile(
    r"\b(?:(?:i|we|you have my) (?:guarantee|promise)|guaranteed|never again|no more problems"
    r"|once and for all|(?:will never|won't ever|will not ever) (?:fail|break|happen|come back)"
    r"|last forever|(?:le |les |se )?garantiz(?:o|amos|ado)|(?:le |les |se )?prometo|prometemos"
    r"|nunca más|para siempre|no (?:volverá|va a volver) a (?:fallar|pasar|ocurrir))\b",
    re.IGNORECASE,
)
DENIED = re.compile(
    r"\b(?:not|nothing is|nobody|cannot|can't|no one|nor|nadie|nada está|ni|no)\W+(?:\w+\W+)?$",
    re.IGNORECASE,
)


def promised(text: str) -> str | None:
    """The first promise of a write-up that nobody can keep.

    Parameters
    ----------
    text : str
        As written to the customer.

    Returns
    -------
    str or None
        Its words.
    """
    for found in PHRASES.finditer(text):
        if not DENIED.search(text[: found.start()]):
            return found[0]
    return None
