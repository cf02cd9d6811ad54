"""A unit as its data sheet states it, read and turned into SI."""

from simulator.components.compressor_map import CompressorMap
from simulator.plant import published_checks as checks
from simulator.plant.data_sheet import (
    BAROMETER,
    DEVICES,
    MOTORS,
    RULES,
    BlowerTable,
    PublishedUnit,
    RatedPoint,
)
from simulator.plant.parameter_file import ParameterFileError, Table, short
from simulator.properties.refrigerant import known
from simulator.quantities.shown import from_display

KIND = "published"
# Kind of quantity of each unit a sheet is written in.
_KINDS = {
    "Btu/h": "heat_rate",
    "cfm": "airflow",
    "in wc": "static_pressure",
    "psig": "gauge_pressure",
    "A": "current",
    "W": "power",
    "kW": "electric_load",
    "delta °F": "temperature_difference",
    "lb/h": "condensate_rate",
}
# What a file of published data holds, all of it needed but ``heating``: a straight air
# conditioner has none.
TABLES = (
    *("plate", "cooling", "heating", "blower"),
    *("compressor", "outdoor_fan", "charge", "metering"),
)


def need_whole(file: Table) -> None:
    """Refuse a file that lacks a table or holds what no unit file has.

    Parameters
    ----------
    file : Table
        As read.

    Raises
    ------
    ParameterFileError
        Naming what is missing, what is too much and what is allowed.
    """
    if file.rows.get("kind") != KIND and "rating" in file.rows:
        raise ParameterFileError(
            f"{file.name} describes parts, not published data: its kind must be {KIND!r}."
        )
    lacking = [f"[{name}]" for name in TABLES if not _is_there(file, name)]
    if file.rows.get("kind") != KIND:
        lacking.insert(0, f'kind = "{KIND}"')
    strange = [short(name) for name in file.rows if name not in ("kind", *TABLES)]
    wrong = [f"lacks {', '.join(lacking)}"] if lacking else []
    wrong += [f"has {', '.join(strange[:3])}, which no unit file has"] if strange else []
    if wrong:
        raise ParameterFileError(
            f"{file.name} {' and '.join(wrong)}; needed and allowed are "
            f'kind = "{KIND}" and the tables {", ".join(TABLES)} (heating only of a '
            "heat pump)."
        )


def _is_there(file: Table, name: str) -> bool:
    if name == "heating" and name not in file.rows:
        return True
    return isinstance(file.rows.get(name), dict)


def published(file: Table) -> PublishedUnit:
    """Read a file of published data.

    Parameters
    ----------
    file : Table
        Of the kind ``published``.

    Returns
    -------
    PublishedUnit
        Checked for nonsense.

    Raises
    ------
    ParameterFileError
        For the first thing that is missing or makes no sense, in one sentence.
    """
    plate, air, charge = file.table("plate"), file.table("blower"), file.table("charge")
    cooling = file.table("cooling")
    heating = file.table("heating") if "heating" in file.rows else None
    fan = file.table("outdoor_fan")
    motor = _one_of(air, "motor", MOTORS)
    efficiencies, compressor_map = _compressor(file.table("compressor"))
    unit = PublishedUnit(
        name=plate.word("name"),
        refrigerant=_one_of(plate, "refrigerant", known()),
        tons=checks.within(plate, "nominal_tons", plate.number("nominal_tons", "ton")),
        points=_points(cooling, heating),
        sensible_heat_ratio=_within(cooling, "sensible_heat_ratio", "-"),
        airflow=_si(cooling, "airflow", "cfm"),
        external_static=_within(cooling, "external_static", "in wc"),
        motor=motor,
        synchronous_speed=_synchronous_speed(air, motor),
        blower=_blower_table(air),
        blower_power_factor=_within(air, "power_factor", "-"),
        efficiencies=efficiencies,
        compressor_map=compressor_map,
        fan_power=_si(fan, "power", "W"),
        fan_airflow=_si(fan, "airflow", "cfm"),
        charge_rule=_one_of(charge, "rule", RULES),
        superheat=_within(charge, "superheat", "delta °F"),
        subcooling=_within(charge, "subcooling", "delta °F"),
        metering=_metering(file.table("metering"), heats=heating is not None),
        high_cut_out=_si(plate, "high_cut_out", "psig") + BAROMETER,
        low_cut_out=_si(plate, "low_cut_out", "psig") + BAROMETER,
        rated_load_current=_si(plate, "compressor_rated_load", "A"),
        circuit_ampacity=_si(plate, "circuit_ampacity", "A"),
        fan_current=_si(plate, "fan_full_load", "A"),
        power_factor=_within(plate, "power_factor", "-"),
        strip_power=_within(plate, "strips", "kW"),
        strip_voltage=_within(plate, "strip_voltage", "V"),
    )
    complaint = checks.complaint(unit)
    if complaint:
        raise ParameterFileError(f"{file.name}: {complaint}")
    return unit


def _si(table: Table, key: str, unit: str) -> float:
    value = table.number(key, unit)
    return float(from_display(value, _KINDS[unit])) if unit in _KINDS else value


def _within(table: Table, key: str, unit: str) -> float:
    """In SI, after a look at the number as it stands."""
    checks.within(table, key, table.number(key, unit))
    return _si(table, key, unit)


def _column(table: Table, key: str, unit: str) -> tuple[float, ...]:
    return tuple(float(from_display(one, _KINDS[unit])) for one in table.column(key, unit))


def _one_of(table: Table, key: str, words: tuple[str, ...]) -> str:
    word = table.word(key)
    if word not in words:
        raise ParameterFileError(f"{table.name}: {key} must be {_listed(words)}, not {word}.")
    return word


def _listed(words: tuple[str, ...]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"


def _blower_table(table: Table) -> BlowerTable:
    return BlowerTable(
        external_static=_column(table, "external_static", "in wc"),
        airflow=_column(table, "airflow", "cfm"),
        power=_column(table, "power", "W"),
    )


def _synchronous_speed(table: Table, motor: str) -> float:
    if motor != "psc":
        return 0.0
    return checks.synchronous_speed(table, table.number("poles", "-"))


def _metering(table: Table, *, heats: bool) -> tuple[str, str]:
    device = _one_of(table, "cooling", DEVICES)
    if heats:
        return device, _one_of(table, "heating", DEVICES)
    if "heating" in table.rows:
        raise ParameterFileError(
            f"{table.name}: a device for heating is named and there is no table [heating]; state "
            "both for a heat pump, neither for a straight air conditioner."
        )
    return device, device


def _points(cooling: Table, heating: Table | None) -> tuple[RatedPoint, ...]:
    """AHRI 210/240 A and B, H1 and H3; B may be left out, a straight air conditioner has no H."""
    rows = [("95", "75", "capacity", "eer")]
    if "mild_capacity" in cooling.rows or "mild_eer" in cooling.rows:
        rows.append(("82", "65", "mild_capacity", "mild_eer"))
    found = [
        _point(
            cooling, "cooling", (dry, wet), (size, _within(cooling, ratio, "Btu/(W h)") / 3.412142)
        )
        for dry, wet, size, ratio in rows
    ]
    if heating is None:
        return tuple(found)
    for dry, wet in (("47", "43"), ("17", "15")):
        cop = _within(heating, f"cop_{dry}", "-")
        found.append(_point(heating, "heating", (dry, wet), (f"capacity_{dry}", cop)))
    return tuple(found)


def _point(
    table: Table, mode: str, bulbs: tuple[str, str], stated: tuple[str, float]
) -> RatedPoint:
    dry, wet = (float(from_display(float(bulb), "temperature")) for bulb in bulbs)
    return RatedPoint(
        name=f"{mode} at {bulbs[0]} °F",
        mode=mode,
        outdoor=dry,
        outdoor_wet_bulb=wet,
        capacity=_si(table, stated[0], "Btu/h"),
        efficiency=stated[1],
    )


def _compressor(table: Table) -> tuple[dict[str, float], CompressorMap | None]:
    if _one_of(table, "stated_as", ("efficiencies", "ten_coefficients")) == "efficiencies":
        keys = (
            "volumetric_efficiency",
            "volumetric_slope",
            "best_efficiency",
            "best_pressure_ratio",
            "efficiency_curvature",
        )
        return {key: _within(table, key, "-") for key in keys}, None
    flow, power = table.column("mass_flow", "lb/h"), table.column("power", "W")
    if len(flow) != 10 or len(power) != 10:
        raise ParameterFileError(
            f"{table.name}: AHRI 540 has ten coefficients for each of mass_flow and power, not "
            f"{len(flow)} and {len(power)}."
        )
    return {}, CompressorMap(
        mass_flow=flow, power=power, superheat=_within(table, "superheat", "delta °F")
    )
