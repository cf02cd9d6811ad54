"""Translators' files: gettext's PO format, as much of it as the bench uses.

References
----------
.. [1] GNU gettext manual, "The Format of PO Files".
"""

import re
from collections.abc import Iterable, Iterator, Mapping

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
    return {message: said for message, said, is_sure in _entries(text) if said and is_sure}


def _entries(text: str) -> Iterator[tuple[str, str, bool]]:
    """Message, what is said, and whether no one doubts it; line by line, as this is quick."""
    message, said, is_sure, in_said = "", "", True, False
    for line in text.splitlines():
        if line.startswith('"'):
            if in_said:
                said += _plain(line)
            else:
                message += _plain(line)
        elif line.startswith("msgid "):
            message = _plain(line[6:])
            in_said = False
        elif line.startswith("msgstr "):
            said, in_said = _plain(line[7:]), True
        elif in_said:
            yield message, said, is_sure
            in_said, is_sure = False, True
        if line.startswith("#,"):
            is_sure = "fuzzy" not in line
    if in_said:
        yield message, said, is_sure


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
    message, said, _ = next(_entries(text), ("none", "", True))
    lines = (line.partition(": ") for line in said.splitlines() if not message)
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
    text = quoted.strip()[1:-1]
    if "\\" not in text:
        return text
    return _ESCAPED.sub(lambda sign: _MEANT.get(sign[1], sign[1]), text)
