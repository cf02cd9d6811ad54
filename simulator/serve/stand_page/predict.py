"""What a class foresaw of a fault, beside what the plant did."""

from typing import Any

from simulator.quantities.entered import BadEntry
from simulator.serve.stand.given import need_word
from simulator.serve.stand_page.scales import scales_of

SIGNS = ("up", "same", "down")
WENT = {"up": "went up", "down": "went down", "same": "stayed the same"}
MOST_HANDS = 999
# Asked first; the class may choose others.
USUAL = {
    "cooling": (
        *("suction_pressure", "superheat", "subcooling"),
        *("liquid_pressure", "temperature_split", "airflow"),
    ),
    "heating": (
        *("suction_pressure", "superheat", "subcooling"),
        *("vapour_line_pressure", "temperature_rise", "airflow"),
    ),
}


def predictable(mode: str) -> dict[str, Any]:
    """What can be foretold, and what is asked unless chosen otherwise.

    Parameters
    ----------
    mode : str
        Called for.

    Returns
    -------
    dict
        ``usual`` names, and all ``names``.
    """
    return {"usual": USUAL[mode], "names": list(scales_of(mode))}


def verdicts(message: dict[str, Any], rows: list[dict[str, Any]]) -> dict[str, Any]:
    """Each prediction beside what the plant did, in words.

    Parameters
    ----------
    message : dict
        ``marks``: up, same or down by reading; ``hands``: how many said so, by reading and sign.
    rows : list
        The readings as painted.

    Returns
    -------
    dict
        ``rows``, each with its sentence, and a ``summary``.

    Raises
    ------
    BadEntry
        For a reading or a sign there is not, and for hands that cannot be counted.
    """
    marks, hands = message.get("marks"), message.get("hands") or {}
    if not isinstance(marks, dict) or not isinstance(hands, dict) or not marks:
        raise BadEntry("Mark at least one reading: up, same or down.")
    known = {row["name"]: row for row in rows}
    found = []
    for name, sign in marks.items():
        if name not in known:
            raise BadEntry("A reading was foretold that the stand does not show.")
        need_word(sign, "a prediction", SIGNS)
        found.append(_verdict(known[name], str(sign), _counted(hands.get(name))))
    right = sum(row["agrees"] for row in found)
    return {
        "rows": found,
        "summary": f"{right} of {len(found)} readings went as the class said.",
    }


def _counted(asked: Any) -> dict[str, int]:
    if asked is None:
        return {}
    if not isinstance(asked, dict) or not set(asked) <= set(SIGNS):
        raise BadEntry("Hands are counted for up, same and down.")
    counted = {}
    for sign, text in asked.items():
        digits = str(text).strip()
        if not digits:
            continue
        if not (digits.isascii() and digits.isdigit()) or int(digits[:9]) > MOST_HANDS:
            raise BadEntry(f"Hands are a whole number up to {MOST_HANDS}.")
        counted[sign] = int(digits)
    return counted


def _verdict(row: dict[str, Any], sign: str, hands: dict[str, int]) -> dict[str, Any]:
    did = row["goes"]
    unit = f"\N{NO-BREAK SPACE}{row['unit']}" if row["unit"] else ""
    now = f"{row['now']}{unit}"
    values = f"{row['healthy']} to {now}"
    size = f" {row['size']}" if row["size"] else ""
    voters = sum(hands.values())
    right = hands.get(did, 0)
    agrees = sign == did
    does = f"{WENT[did]}{size}, {values}"
    if did == "same":
        does = f"{WENT[did]}, {now}: within {row['within']} of healthy"
    text = f"As you said: it {does}." if agrees else f"It {does}."
    if voters and agrees:
        text = f"As you said ({right} of {voters} hands): it {does}."
    elif voters:
        text = f"It {does} ({right} of {voters} hands)."
    return {
        "name": row["name"],
        "label": row["label"],
        "said": sign,
        "did": did,
        "agrees": agrees,
        "text": text,
    }
