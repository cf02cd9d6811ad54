"""Formulas of the trade, each over readings as shown."""

from collections.abc import Callable
from dataclasses import dataclass

from simulator.plant.charging_chart import target_superheat
from simulator.properties import refrigerant
from simulator.properties.moist_air import STANDARD_PRESSURE
from simulator.properties.refrigerant import Refrigerant

DIFFERENCE = "temperature_difference"
LEAST_CONTRAST = 2.0  # below this a mixing fraction by temperature says nothing [K]

LEAST_TRACER = 400e-6  # the same for carbon dioxide; common practice, no source [-]


@dataclass(frozen=True, slots=True)
class Formula:
    """How one value is worked out.

    Parameters
    ----------
    id, name : str
        For the wire; for people.
    kind : str
        Of quantity.
    needs : tuple
        Measurements, in the order the formula takes them.
    words : str
        The formula, for people.
    worked : callable
        Takes the readings in SI; none where they cannot carry it.
    """

    id: str
    name: str
    kind: str
    needs: tuple[str, ...]
    words: str
    worked: Callable[..., float | None]


Row = tuple[str, str, tuple[str, ...], str, Callable[..., float | None]]


def _less(first: float, second: float) -> float:
    return first - second


def _share(part: float, whole: float) -> float | None:
    return part / whole if whole > 0.0 else None


def _mixing(entering: float, grille: float, zone: float) -> float | None:
    if abs(zone - grille) < LEAST_CONTRAST:
        return None
    return (entering - grille) / (zone - grille)


def _tracer_mixing(entering: float, grille: float, zone: float) -> float | None:
    if abs(zone - grille) < LEAST_TRACER:
        return None
    return (entering - grille) / (zone - grille)


def _refrigerant_formulas(fluid: Refrigerant) -> tuple[Formula, ...]:
    """Gauge tables assume the standard barometer, as printed ones do."""

    def dew(gauge: float) -> float:
        return float(fluid.dew_temperature(gauge + STANDARD_PRESSURE))

    def bubble(gauge: float) -> float:
        return float(fluid.bubble_temperature(gauge + STANDARD_PRESSURE))

    rows: tuple[Row, ...] = (
        ("superheat", "Superheat", ("suction_line_temperature", "suction_pressure"),
         "suction line temperature − dew temperature at suction pressure",
         lambda pipe, gauge: pipe - dew(gauge)),
        ("subcooling", "Subcooling", ("liquid_pressure", "liquid_line_temperature"),
         "bubble temperature at liquid pressure − liquid line temperature",
         lambda gauge, pipe: bubble(gauge) - pipe),
        ("condensing_over_ambient", "Condensing over outdoor air",
         ("liquid_pressure", "outdoor_temperature"),
         "bubble temperature at liquid pressure − outdoor dry bulb",
         lambda gauge, air: bubble(gauge) - air),
        ("approach", "Liquid line approach", ("liquid_line_temperature", "outdoor_temperature"),
         "liquid line temperature − outdoor dry bulb", _less),
        ("standing_over_ambient", "Standing saturation over outdoor air",
         ("standing_pressure", "outdoor_temperature"),
         "dew temperature at standing pressure − outdoor dry bulb",
         lambda gauge, air: dew(gauge) - air),
        ("vapour_line_superheat", "Superheat of the large pipe",
         ("vapour_line_temperature", "vapour_port_pressure"),
         "large pipe temperature − dew temperature at its port's pressure",
         lambda pipe, gauge: pipe - dew(gauge)),
        ("liquid_line_drop", "Temperature drop along the liquid line",
         ("liquid_line_temperature", "liquid_after_drier_temperature"),
         "liquid line at the service valve − liquid line after the drier", _less),
    )  # fmt: skip
    return tuple(Formula(row[0], row[1], DIFFERENCE, *row[2:]) for row in rows)


def _air_formulas() -> tuple[Formula, ...]:
    static, share = "static_pressure", "fraction"
    rows = (
        ("temperature_split", "Temperature split at the air handler", DIFFERENCE,
         ("return_dry_bulb", "supply_dry_bulb"), "return dry bulb − supply dry bulb", _less),
        ("grille_split", "Grille to nearest register", DIFFERENCE,
         ("grille_dry_bulb", "near_register_temperature"),
         "return dry bulb at the grille − nearest register", _less),
        ("return_gain", "Return gain", DIFFERENCE, ("return_dry_bulb", "grille_dry_bulb"),
         "return dry bulb at the air handler − return dry bulb at the grille", _less),
        ("total_external_static", "Total external static", static,
         ("static_supply", "static_after_filter"),
         "static in the supply plenum − static after the filter", _less),
        ("filter_drop", "Filter drop", static, ("static_before_filter", "static_after_filter"),
         "static before the filter − static after the filter", _less),
        ("coil_drop", "Coil drop", static, ("static_after_filter", "static_after_coil"),
         "static after the filter − static after the coil", _less),
        ("register_share", "Register sum over airflow", share, ("register_sum", "coil_airflow"),
         "flow of all registers ÷ airflow by traverse", _share),
        ("return_share", "Return leak by temperature", share,
         ("return_dry_bulb", "grille_dry_bulb", "return_zone_temperature"),
         "(air handler return − grille) ÷ (air around the return − grille)", _mixing),
        ("tracer_share", "Return leak by tracer", share,
         ("tracer_return", "tracer_grille", "tracer_zone"),
         "(air handler return − grille) ÷ (air around the return − grille), carbon dioxide",
         _tracer_mixing),
    )  # fmt: skip
    return tuple(Formula(*row) for row in rows)


def formulas(fluid_name: str, metering: str) -> tuple[Formula, ...]:
    """All formulas that serve one system.

    Parameters
    ----------
    fluid_name : str
        Whose table the gauges use.
    metering : str
        ``txv`` or ``orifice``; only an orifice has a target superheat.

    Returns
    -------
    tuple
        In the order of the sheet.

    References
    ----------
    .. [1] California Title 24 RA3.2: superheat, subcooling, target superheat, temperature split.
    """
    target = Formula(
        "target_superheat",
        "Target superheat, fixed orifice",
        DIFFERENCE,
        ("grille_wet_bulb", "outdoor_temperature"),
        "(3 × return wet bulb − 80 − outdoor dry bulb) ÷ 2, in °F",
        target_superheat,
    )
    extra = (target,) if metering == "orifice" else ()
    return extra + _refrigerant_formulas(refrigerant.load(fluid_name)) + _air_formulas()
