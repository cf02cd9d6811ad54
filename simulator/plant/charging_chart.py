"""The charging chart of a fixed orifice: its rule, and where it has no entry."""

LOWEST_TARGET = 5.0 / 1.8  # dashes below, California Title 24 RA3.2-2 (2008 text) [delta K]
CHART_WET_BULB = (283.15, 297.59)  # 50 and 76 °F, where its columns begin and end [K]
CHART_OUTDOOR = (285.92, 319.27)  # 55 and 115 °F, where its rows do [K]
BY_A_HAIR = 0.01  # so that a number which is on a limit as it is typed is inside [K]


def target_superheat(wet_bulb: float, outdoor: float) -> float:
    """Charging rule of a fixed orifice: (3 WB - 80 - DB) / 2 in °F.

    Parameters
    ----------
    wet_bulb : float
        At the return grille. [K]
    outdoor : float
        Dry bulb. [K]

    Returns
    -------
    float
        [delta K]

    References
    ----------
    .. [1] Common practice rule; California Title 24 RA3.2 tabulates the target.

    Examples
    --------
    >>> round(target_superheat((62 + 459.67) / 1.8, (75 + 459.67) / 1.8) * 1.8, 1)
    15.5
    """
    wet, dry = wet_bulb * 1.8 - 459.67, outdoor * 1.8 - 459.67
    return (3.0 * wet - 80.0 - dry) / 2.0 / 1.8


def has_entry(wet_bulb: float, outdoor: float) -> bool:
    """Whether the chart gives a target at all.

    Parameters
    ----------
    wet_bulb : float
        At the return grille. [K]
    outdoor : float
        Dry bulb. [K]

    Returns
    -------
    bool
        Not for air beyond its columns and rows, nor where the target would be below 5 °F.

    References
    ----------
    .. [1] California Title 24 RA3.2, table RA3.2-2 (2008 text).

    Examples
    --------
    >>> has_entry((67 + 459.67) / 1.8, (95 + 459.67) / 1.8)
    True
    >>> has_entry((58 + 459.67) / 1.8, (115 + 459.67) / 1.8)
    False
    """
    return (
        is_within(wet_bulb, CHART_WET_BULB)
        and is_within(outdoor, CHART_OUTDOOR)
        and float(target_superheat(wet_bulb, outdoor)) >= LOWEST_TARGET - BY_A_HAIR
    )


def is_within(value: float, limits: tuple[float, float]) -> bool:
    """Whether a temperature lies between two others, both included.

    Parameters
    ----------
    value : float
        [K]
    limits : tuple
        Lowest and highest. [K]

    Returns
    -------
    bool
    """
    low, high = limits
    return low - BY_A_HAIR <= value <= high + BY_A_HAIR
