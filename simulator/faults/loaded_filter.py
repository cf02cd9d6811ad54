"""Dust multiplies the resistance of the filter.

References
----------
.. [1] ASHRAE Standard 52.2: filter resistance rises with dust load; the range is common
   practice, no source.
"""

from dataclasses import replace

from simulator.faults._base import FaultKind, Severity
from simulator.plant.installation import Installation


def apply(installation: Installation, severity: Severity) -> Installation:
    """See ``FaultKind``."""
    ducts = installation.ducts
    loaded = replace(ducts, filter_loading=ducts.filter_loading + severity)
    return replace(installation, ducts=loaded)


FAULT = FaultKind(
    id="loaded_filter",
    title="Loaded or too restrictive filter",
    family="Indoor air",
    why=(
        "The drop across the filter takes the blower's pressure, so less air crosses the coil "
        "and the drops across everything else fall."
    ),
    apply=apply,
    measure="resistance added, in clean filters",
    kind="ratio",
    counted_in="clean filters",
    high=12.0,
    typical=8.0,
    modes=("cooling", "heating"),
    prior=1.0,
    evidence={
        "look_filter": ("seen", 0.6),
        "static_before_filter": ("up", 0.3),
        "static_after_filter": ("down", 0.3),
        "coil_airflow": ("down", 0.3),
    },
    repairs=("replace_filter",),
)
