"""``python -m tests.truth [--quick] [--misses] [--out FILE.html]``: the whole report."""

import argparse
import sys
from pathlib import Path

from tests.truth import by_name, report


def main() -> int:
    """Write the page and say it in short."""
    options = argparse.ArgumentParser(prog="python -m tests.truth", description=__doc__)
    options.add_argument("--quick", action="store_true", help="a sample of grid and scenarios")
    options.add_argument("--out", type=Path, default=Path("truth.html"), metavar="FILE.html")
    options.add_argument("--misses", action="store_true", help="print misses alone, as Markdown")
    chosen = options.parse_args()
    found = report.parts(quick=chosen.quick)
    chosen.out.write_text(report.page(found), encoding="utf-8")
    told = by_name.misses(found) if chosen.misses else report.summary(found)
    sys.stdout.write(f"{told}\n\nThe whole report: {chosen.out}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
