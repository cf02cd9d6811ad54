"""Renew the translators' files: ``python -m simulator.words``."""

from pathlib import Path

from simulator.words import po
from simulator.words.gathering.source_tree import messages

FOLDER = Path(__file__).parent / "catalogues"
TEMPLATE = FOLDER / "messages.pot"
FIELDS = {"MIME-Version": "1.0", "Content-Type": "text/plain; charset=UTF-8"}


def template() -> str:
    """The file from which a translation starts.

    Returns
    -------
    str
        Every message, none translated.
    """
    return po.written(FIELDS, messages(), {})


def renewed(text: str) -> str:
    """A translation with the messages that there are now.

    Parameters
    ----------
    text : str
        Of its file.

    Returns
    -------
    str
        What was translated is kept as long as its message stands in the source.
    """
    return po.written(po.header(text), messages(), po.read(text))


def main() -> None:
    """Write the template anew, and every catalogue with it."""
    TEMPLATE.write_text(template(), encoding="utf-8")
    for path in sorted(FOLDER.glob("*.po")):
        path.write_text(renewed(path.read_text(encoding="utf-8")), encoding="utf-8")


if __name__ == "__main__":
    main()
