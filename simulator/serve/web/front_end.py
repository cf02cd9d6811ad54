"""Which scripts the front end will ask for, so that a page can ask for them at once.

The front end names its pieces in its first script and asks for them only once that has
run. A page that names them in its head lets the browser fetch them while the kernel starts.
"""

import re
from collections.abc import Iterable
from pathlib import Path

FIRST = "voila.js"
_PIECE = re.compile(r"\.e\((\d+)\)")


def first_scripts(folders: Iterable[str]) -> list[str]:
    """Scripts that every page loads.

    Parameters
    ----------
    folders : iterable of str
        Where static files are looked up, in that order.

    Returns
    -------
    list of str
        File names; empty when the front end is built in another way than is known here.
    """
    found = next((Path(folder) for folder in folders if (Path(folder) / FIRST).is_file()), None)
    if found is None:
        return []
    numbers = _PIECE.findall((found / FIRST).read_text(encoding="utf-8"))
    pieces = dict.fromkeys(f"{number}.{FIRST}" for number in numbers)
    return [FIRST, *(piece for piece in pieces if (found / piece).is_file())]
