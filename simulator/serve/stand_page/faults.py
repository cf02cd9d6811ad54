"""The faults as the stand offers them: all there are, each where it shows."""

from functools import lru_cache
from typing import Any

from simulator.faults._catalogue import discover
from simulator.serve.stand_page.find import words_for

# What the setting must hold before anything would show them.
NEEDS = {"open_strip_element": "strips", "stuck_zone_damper": "two_zones"}


@lru_cache
def fault_choices() -> tuple[dict[str, Any], ...]:
    """Faults as the stand offers them; shares in percent.

    Returns
    -------
    tuple
        One entry a fault; ``needs`` names what must be set first, or nothing.
    """
    rows = []
    for name, kind in discover().items():
        scale = 100.0 if kind.unit == "-" else 1.0
        high = kind.high * scale
        rows.append(
            {
                "name": name,
                "title": kind.title,
                "family": kind.family,
                "words": words_for(name),
                "modes": kind.modes,
                "metering": kind.metering,
                "needs": NEEDS.get(name, ""),
                "measure": kind.measure,
                "unit": "%" if kind.unit == "-" else kind.unit,
                "whole": kind.is_all_or_nothing,
                "low": 0,
                "high": high,
                "typical": kind.typical * scale,
                "step": 1 if high >= 20 else 0.1,
            }
        )
    return tuple(sorted(rows, key=lambda row: (row["family"], row["title"])))
