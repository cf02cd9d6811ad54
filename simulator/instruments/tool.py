"""What a tool is: resolution, error and lag."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """One tool.

    Parameters
    ----------
    name : str
        For people.
    kind : str
        Of quantity, for the units it is marked in.
    decimals : int
        Digits after the point on its own scale, in the customary units of the trade.
    bias : float
        Standard deviation of an error that stays for the whole visit, in SI. [-]
    relative_bias : float
        The same in proportion to the reading. [-]
    noise : float
        Standard deviation between two takes, in SI. [-]
    lag : float
        Time constant towards a new value. [s]
    source : str
        Where its accuracy class comes from.
    is_quiet_at_zero : bool
        Whether it shows a plain zero where nothing is there.
    has_meter_battery : bool
        Whether it drifts with the meters' battery.
    """

    name: str
    kind: str
    decimals: int
    bias: float
    noise: float
    lag: float
    source: str
    relative_bias: float = 0.0
    is_quiet_at_zero: bool = True
    has_meter_battery: bool = False


PRACTICE = "common practice, no source"
