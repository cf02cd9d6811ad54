"""Kinds of quantity that only special tools are marked in.

They join the one table of kinds when the tools are loaded, so that a reading is shown like any
other.
"""

from simulator.quantities.kinds import KINDS, Display, Kind


def _same(si: str, display: Display) -> Kind:
    return Kind(si, display, display)


TOOL_KINDS: dict[str, Kind] = {
    "voltage_drop": _same("V", Display("mV", 0.001, decimals=0)),
    "resistance": _same("ohm", Display("Ω", 1.0, decimals=1)),
    "capacitance": _same("F", Display("µF", 1e-6, decimals=1)),
    "concentration": _same("-", Display("ppm", 1e-6, decimals=0)),
}
KINDS.update(TOOL_KINDS)
