"""Translators' files: gettext's PO format, as much of it as the bench uses.

References
----------
.. [1] GNU gettext manual, "The Format of PO Files".
"""

import re
from collections.abc import Iterable, Mapping

_QUOTED = r'"(?:[^"\\\n]|\\.)*"'
_TEXT = rf"{_QUOTED}(?:\s*\n{_QUOTED})*"
_ENTRY = re.compile(
    rf"(?P<flags>(?:^#,.*\n)*)^msgid (?P<id>{_TEXT})\s*\nmsgstr (?P<said>{_TEXT})", re.MULTILINE
)
_PIECE = re.compile(_QUOTED)
_ESCAPED = re.compile(r"\\(.)")
_MEANT = {"n": "\n", "t": "\t"}


def read(text: str) -> dict[str, str]:
    """What a file says for each message.

    Parameters
    ----------
    text : str
        Of the file.

    Returns
    -------
    dict
        English to the other language, the header under the empty text; what is not translated
        yet, or marked as fuzzy, is left out.
    """
    found = {}
    for entry in _ENTRY.finditer(text):
        said = _plain(entry["said"])
        if said and "fuzzy" not in entry["flags"]:
            found[_plain(entry["id"])] = said
    return found


def header(text: str) -> dict[str, str]:
    """The fields in front of the messages.

    Parameters
    ----------
    text : str
        Of the file, or its beginning.

    Returns
    -------
    dict
        Field to what stands in it.
    """
    first = _ENTRY.search(text)
    if first is None or _plain(first["id"]):
        return {}
    lines = (line.partition(": ") for line in _plain(first["said"]).splitlines())
    return {name: value for name, _, value in lines}


def written(
    fields: Mapping[str, str],
    found_in: Mapping[str, Iterable[str]],
    said: Mapping[str, str],
) -> str:
    """A file for translators.

    Parameters
    ----------
    fields : mapping
        Of the header.
    found_in : mapping
        Files in which each message stands, in the order of the messages.
    said : mapping
        What is translated already.

    Returns
    -------
    str
        Its text.
    """
    top = "".join(f"{name}: {value}\n" for name, value in fields.items())
    blocks = [f'msgid ""\nmsgstr ""\n{_lines(top)}\n']
    for message, files in found_in.items():
        where = "".join(f"#: {file}\n" for file in sorted(files))
        blocks.append(f"{where}msgid {_quoted(message)}\nmsgstr {_quoted(said.get(message, ''))}\n")
    return "\n".join(blocks)


def _lines(text: str) -> str:
    return "\n".join(_quoted(line) for line in text.splitlines(keepends=True))


def _quoted(text: str) -> str:
    safe = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{safe}"'


def _plain(quoted: str) -> str:
    text = "".join(piece[1:-1] for piece in _PIECE.findall(quoted))
    if "\\" not in text:
        return text
    return _ESCAPED.sub(lambda sign: _MEANT.get(sign[1], sign[1]), text)
