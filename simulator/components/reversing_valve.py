"""Four-way valve that swaps the coils."""

from dataclasses import dataclass

from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True, kw_only=True)
class ReversingValve:
    """How well the slide seals and where it sits.

    Parameters
    ----------
    leak_fraction : float
        Part of the compressor's flow that slips from discharge to suction. [-]
    is_stuck : float
        1 where the slide stays opposite to what is called for. [-]
    is_fitted : float
        0 in a straight air conditioner, which has no such valve. [-]
    """

    leak_fraction: Values
    is_stuck: Values
    is_fitted: Values = 1.0
