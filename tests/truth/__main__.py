"""``python -m tests.truth [--quick] [--out FILE.html]``: the whole report, misses included."""

import argparse
import sys
from pathlib import Path

from tests.truth import report


def main() -> int:
    """Write the page and say it in short."""
    options = argparse.ArgumentParser(prog="python -m tests.truth", description=__doc__)
    options.add_argument("--quick", action="store_true", help="a sample of grid and scenarios")
    options.add_argument("--out", type=Path, default=Path("truth.html"), metavar="FILE.html")
    chosen = options.parse_args()
    found = report.parts(quick=chosen.quick)
    chosen.out.write_text(report.page(found), encoding="utf-8")
    sys.stdout.write(f"{report.summary(found)}\n\nThe whole report: {chosen.out}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
