"""Values worked out from readings as shown, never from truth."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from simulator.instruments.reading import Reading
from simulator.properties import refrigerant
from simulator.properties.moist_air import STANDARD_PRESSURE

LOWEST_TARGET = 5.0 / 1.8  # below this a fixed-orifice charging table has no entry [delta K]


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """One worked-out value.

    Parameters
    ----------
    id, name : str
        For the wire; for people.
    kind : str
        Of quantity.
    value : float
        In SI. [-]
    formula : str
        In words, for people.
    from_seqs : tuple
        Numbers of the readings it used.
    note : str
        What to mind; may be empty.
    """

    id: str
    name: str
    kind: str
    value: float
    formula: str
    from_seqs: tuple[int, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """How a value is worked out."""

    id: str
    name: str
    kind: str
    needs: tuple[str, ...]
    formula: str
    worked: Callable[..., float | None]


def _gauge_to_absolute(gauge: float) -> float:
    """Tables for gauges assume the standard barometer, as printed ones do."""
    return gauge + STANDARD_PRESSURE


def rules(fluid_name: str, metering: str) -> tuple[Rule, ...]:
    """All rules for one system.

    Parameters
    ----------
    fluid_name : str
        Whose table the gauges use.
    metering : str
        ``txv`` or ``orifice``.

    Returns
    -------
    tuple
        In the order of the sheet.

    References
    ----------
    .. [1] California Title 24 RA3.2: superheat, subcooling, target superheat, temperature split.
    """
    fluid = refrigerant.load(fluid_name)

    def dew(gauge: float) -> float:
        return float(fluid.dew_temperature(_gauge_to_absolute(gauge)))

    def bubble(gauge: float) -> float:
        return float(fluid.bubble_temperature(_gauge_to_absolute(gauge)))

    def target(wet_bulb: float, outdoor: float) -> float:
        wet, dry = wet_bulb * 1.8 - 459.67, outdoor * 1.8 - 459.67
        return (3.0 * wet - 80.0 - dry) / 2.0 / 1.8

    def share(entering: float, grille: float, zone: float) -> float | None:
        return None if abs(zone - grille) < 2.0 else (entering - grille) / (zone - grille)

    difference = "temperature_difference"
    found = [
        Rule(
            "superheat",
            "Superheat",
            difference,
            ("suction_line_temperature", "suction_pressure"),
            "suction line temperature − dew temperature at suction pressure",
            lambda pipe, gauge: pipe - dew(gauge),
        ),
        Rule(
            "subcooling",
            "Subcooling",
            difference,
            ("liquid_pressure", "liquid_line_temperature"),
            "bubble temperature at liquid pressure − liquid line temperature",
            lambda gauge, pipe: bubble(gauge) - pipe,
        ),
        Rule(
            "condensing_over_ambient",
            "Condensing over outdoor air",
            difference,
            ("liquid_pressure", "outdoor_temperature"),
            "bubble temperature at liquid pressure − outdoor dry bulb",
            lambda gauge, air: bubble(gauge) - air,
        ),
        Rule(
            "approach",
            "Liquid line approach",
            difference,
            ("liquid_line_temperature", "outdoor_temperature"),
            "liquid line temperature − outdoor dry bulb",
            lambda pipe, air: pipe - air,
        ),
        Rule(
            "liquid_line_drop",
            "Temperature drop along the liquid line",
            difference,
            ("liquid_line_temperature", "liquid_after_drier_temperature"),
            "liquid line at the service valve − liquid line after the drier",
            lambda first, last: first - last,
        ),
        Rule(
            "temperature_split",
            "Temperature split at the air handler",
            difference,
            ("return_dry_bulb", "supply_dry_bulb"),
            "return dry bulb − supply dry bulb",
            lambda back, out: back - out,
        ),
        Rule(
            "grille_split",
            "Grille to nearest register",
            difference,
            ("grille_dry_bulb", "near_register_temperature"),
            "return dry bulb at the grille − nearest register",
            lambda back, out: back - out,
        ),
        Rule(
            "return_gain",
            "Return gain",
            difference,
            ("return_dry_bulb", "grille_dry_bulb"),
            "return dry bulb at the air handler − return dry bulb at the grille",
            lambda inner, outer: inner - outer,
        ),
        Rule(
            "total_external_static",
            "Total external static",
            "static_pressure",
            ("static_supply", "static_after_filter"),
            "static in the supply plenum − static after the filter",
            lambda out, back: out - back,
        ),
        Rule(
            "filter_drop",
            "Filter drop",
            "static_pressure",
            ("static_before_filter", "static_after_filter"),
            "static before the filter − static after the filter",
            lambda a, b: a - b,
        ),
        Rule(
            "coil_drop",
            "Coil drop",
            "static_pressure",
            ("static_after_filter", "static_after_coil"),
            "static after the filter − static after the coil",
            lambda a, b: a - b,
        ),
        Rule(
            "register_share",
            "Register sum over airflow",
            "fraction",
            ("register_sum", "plate_airflow"),
            "flow of all registers ÷ airflow by flow plate",
            lambda registers, plate: registers / plate if plate > 0 else None,
        ),
        Rule(
            "return_share",
            "Return leak by temperature",
            "fraction",
            ("return_dry_bulb", "grille_dry_bulb", "return_zone_temperature"),
            "(air handler return − grille) ÷ (air around the return − grille)",
            share,
        ),
    ]
    if metering == "orifice":
        found.insert(
            1,
            Rule(
                "target_superheat",
                "Target superheat, fixed orifice",
                difference,
                ("grille_wet_bulb", "outdoor_temperature"),
                "(3 × return wet bulb − 80 − outdoor dry bulb) ÷ 2, in °F",
                target,
            ),
        )
    return tuple(found)


def work_out(
    readings: Sequence[tuple[int, Reading]], metering: str, fluid_name: str
) -> list[WorkedOut]:
    """Everything the readings allow.

    Parameters
    ----------
    readings : sequence
        Numbered, oldest first; the newest of each measurement is used.
    metering : str
        ``txv`` or ``orifice``.
    fluid_name : str
        Whose table the gauges use.

    Returns
    -------
    list
        In the order of the rules.
    """
    newest = {
        reading.measurement: (seq, reading.value)
        for seq, reading in readings
        if reading.value is not None
    }
    found = []
    for rule in rules(fluid_name, metering):
        if any(need not in newest for need in rule.needs):
            continue
        value = rule.worked(*(newest[need][1] for need in rule.needs))
        if value is None:
            continue
        seqs = tuple(newest[need][0] for need in rule.needs)
        note = ""
        if rule.id == "target_superheat" and value < LOWEST_TARGET:
            note = "Below 5 °F the table has no entry: no valid charge test today."
        found.append(
            WorkedOut(
                id=rule.id,
                name=rule.name,
                kind=rule.kind,
                value=value,
                formula=rule.formula,
                from_seqs=seqs,
                note=note,
            )
        )
    return found
