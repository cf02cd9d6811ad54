"""A compressor that leaks inside."""

from dataclasses import replace
from typing import ClassVar

from simulator.faults._base import Fault
from simulator.plant.installation import Installation


class LeakingCompressor(Fault):
    """Hot gas blows back from discharge to suction.

    References
    ----------
    .. [1] Domanski, Henderson and Payne, NIST Technical Note 1848, 2014: compressor valve
       leakage as a share of refrigerant flow.
    """

    title: ClassVar[str] = "Compressor leaking inside"
    family: ClassVar[str] = "Refrigerant"
    why: ClassVar[str] = (
        "Less gas is moved: suction rises, head falls, amps fall, and the gas that is squeezed "
        "twice leaves hotter."
    )
    measure: ClassVar[str] = "share of the volume flow that blows back"
    high: ClassVar[float] = 0.6
    typical: ClassVar[float] = 0.25

    def applied_to(self, installation: Installation) -> Installation:
        """See ``Fault``."""
        unit = installation.unit
        kept = (1 - unit.compressor.leak_fraction) * (1 - self.severity)
        compressor = replace(unit.compressor, leak_fraction=1 - kept)
        return replace(installation, unit=replace(unit, compressor=compressor))
