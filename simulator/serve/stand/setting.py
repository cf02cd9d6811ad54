"""What the test stand can be set to: completed, checked, and made into weather and a plant."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from simulator.faults import _catalogue as faults
from simulator.plant import catalogue
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.parameter_file import ParameterFileError
from simulator.properties import moist_air
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import from_display
from simulator.serve.stand.built import built
from simulator.serve.stand.entry_units import degrees, need_entry
from simulator.serve.stand.fault_fit import need_heat_pump, need_no_opposites, unfit, zones_of
from simulator.serve.stand.given import need_faults, need_word
from simulator.serve.stand.limits import (
    FOOT,
    HOUSES,
    MODES,
    MOST_AIRFLOW,
    MOST_FAULTS,
    MOTORS,
    REFRIGERANTS,
    STRIPS,
    SUMMER_HUMIDITY,
    USUAL,
    ZONE_CALLS,
    ZONES,
    limits_of,
)
from simulator.serve.stand.outdoor_air import humidity_of, winter_humidity
from simulator.serve.stand.own_files import need_offered, source_of

EMERGENCY = STRIPS[-1]
FILE = re.compile(r"\S+\.toml\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the stand is set to, in the technician's units; None stands for what is usual.

    Parameters
    ----------
    mode : str
        ``cooling`` or ``heating``.
    unit : str
        Equipment file, shipped or one's own.
    refrigerant : str, optional
        In the circuit, one of ``REFRIGERANTS``; else the plate's. Nothing is resized for it.
    metering : str, optional
        ``txv`` or ``orifice``; else what the unit has.
    motor : str, optional
        Of the blower, one of ``MOTORS``; else what the unit has.
    zone : str, optional
        Around the ducts, one of ``ZONES``; else what the house has.
    outdoor, return_db, return_wb : float, optional
        In °F, the last two held at the return grille; else the mode's rating point.
    outdoor_wb : float, optional
        In °F; else 40 % relative humidity in summer, and that of 47 and 43 °F in winter.
    airflow : float
        Of rated, for healthy ducts at sea level; at 1 a blower too weak for that runs as it
        is built. [-]
    altitude : float
        In feet, standard atmosphere.
    house : str
        Site file, shipped or one's own.
    strips : str
        ``off``; ``called``, all of them with the call for heat; ``emergency``, them alone.
    zone_call : str
        Of a house of two zones: ``both``, or only the ``first`` or the ``second`` calls.
    gauges : str, optional
        Refrigerant that the gauges are set to; else what is in the circuit.
    faults : mapping
        Severity by fault name, each in the fault's own unit.
    """

    mode: str = "cooling"
    unit: str = "quail_36"
    refrigerant: str | None = None
    metering: str | None = None
    motor: str | None = None
    zone: str | None = None
    outdoor: float | None = None
    outdoor_wb: float | None = None
    return_db: float | None = None
    return_wb: float | None = None
    airflow: float = 1.0
    altitude: float = 0.0
    house: str = HOUSES[0]
    strips: str = STRIPS[0]
    zone_call: str = ZONE_CALLS[0]
    gauges: str | None = None
    faults: Mapping[str, float] = field(default_factory=dict)


def completed(setting: Setting) -> Setting:
    """The same setting with its mode's rating point where nothing was said.

    Parameters
    ----------
    setting : Setting
        As asked for, of a known mode.

    Returns
    -------
    Setting
        The outdoor wet bulb may still be None.
    """
    usual: dict[str, Any] = USUAL[setting.mode]
    return replace(setting, **{key: usual[key] for key in usual if getattr(setting, key) is None})


def checked(setting: Setting, system: str = "us", *, paths_too: bool = False) -> Setting:
    """The same setting completed, or one sentence on what is wrong with it.

    Parameters
    ----------
    setting : Setting
        As asked for.
    system : str
        ``us`` or ``si``: in whose units the sentence speaks.
    paths_too : bool
        Whether unit and house may be paths of files.

    Returns
    -------
    Setting
        As ``completed``, without the faults that mean nothing here.

    Raises
    ------
    BadEntry
        Naming what was wrong and what is allowed.
    """
    _check_words(setting, paths_too)
    setting = completed(setting)
    most_airflow = MOST_AIRFLOW[_own_motor(setting)]
    for key, (low, high, unit, name) in limits_of(setting.mode).items():
        if key == "outdoor_wb" and setting.outdoor_wb is None:
            continue
        most = most_airflow if key == "airflow" else high
        need_entry(getattr(setting, key), name, (low, min(high, most), unit), system)
    _check_wet_bulbs(setting, system)
    need_faults(setting.faults, MOST_FAULTS)
    need_no_opposites(setting.faults)
    healthy = healthy_installation(setting)
    need_heat_pump(healthy, setting.mode, setting.strips)
    if setting.zone_call != ZONE_CALLS[0] and zones_of(healthy) == 1:
        raise BadEntry("One zone can call alone only in the house of two zones.")
    out = unfit(healthy, setting.mode, setting.faults)
    return replace(setting, faults={k: v for k, v in setting.faults.items() if k not in out})


def _own_motor(setting: Setting) -> str:
    """What turns the blower; and whether there is such a unit at all."""
    try:
        blower = healthy_installation(replace(setting, airflow=1.0)).unit.blower
    except ParameterFileError as problem:
        text = str(problem).rstrip(".")
        begun = f"The file {text}" if FILE.match(text) else f"{text[:1].upper()}{text[1:]}"
        raise BadEntry(f"{begun}.") from problem
    return "psc" if blower.synchronous_speed > 0.0 else "constant_torque"


def _check_words(setting: Setting, paths_too: bool) -> None:
    need_word(setting.mode, "the mode", MODES)
    need_offered("unit", setting.unit, paths_too=paths_too)
    need_offered("house", setting.house, paths_too=paths_too)
    need_word(setting.strips, "the strip call", STRIPS)
    need_word(setting.zone_call, "the zone that calls", ZONE_CALLS)
    if setting.strips != STRIPS[0] and setting.mode != "heating":
        raise BadEntry("Strips are called for with heat; set the thermostat to heating.")
    for word, name, allowed in (
        (setting.zone, "the zone", ZONES),
        (setting.refrigerant, "the refrigerant", REFRIGERANTS),
        (setting.gauges, "the refrigerant of the gauges", REFRIGERANTS),
        (setting.metering, "the metering device", catalogue.METERING),
        (setting.motor, "the motor", MOTORS),
    ):
        if word is not None:
            need_word(word, name, allowed)


def _check_wet_bulbs(setting: Setting, system: str) -> None:
    """Two thermometers in one air: neither saturated beyond measure nor drier than dry."""
    for place, dry, wet in (
        ("return", setting.return_db, setting.return_wb),
        ("outdoor", setting.outdoor, setting.outdoor_wb),
    ):
        if dry is None or wet is None:
            continue
        if wet > dry:
            low, high = degrees(dry, system), degrees(wet, system)
            raise BadEntry(
                f"The return wet bulb ({high}) cannot be above the return dry bulb ({low})."
                if place == "return"
                else f"The outdoor wet bulb ({high}) cannot be above the outdoor dry bulb ({low})."
            )
        if humidity_of(_kelvin(dry), _kelvin(wet), _barometer(setting)) <= 0.0:
            raise BadEntry(
                f"Air of {degrees(dry, system)} cannot have a wet bulb as low as "
                f"{degrees(wet, system)}."
            )


def conditions_of(setting: Setting) -> Conditions:
    """Weather and rooms of a setting.

    Parameters
    ----------
    setting : Setting
        In the technician's units.

    Returns
    -------
    Conditions
        In SI.
    """
    setting = completed(setting)
    pressure = _barometer(setting)
    outdoor, inside, wet = (
        _kelvin(number or 0.0) for number in (setting.outdoor, setting.return_db, setting.return_wb)
    )
    heating = setting.mode == "heating"
    if setting.outdoor_wb is not None:
        water = humidity_of(outdoor, _kelvin(setting.outdoor_wb), pressure)
    else:
        relative = winter_humidity() if heating else SUMMER_HUMIDITY
        water = float(moist_air.humidity_ratio(outdoor, relative, pressure))
    return Conditions(
        outdoor_temperature=outdoor,
        outdoor_humidity_ratio=water,
        indoor_temperature=inside,
        indoor_humidity_ratio=humidity_of(inside, wet, pressure),
        pressure=pressure,
        mode=setting.mode,
        auxiliary_call=float(setting.strips != STRIPS[0]),
        compressor_call=float(setting.strips != EMERGENCY),
        zone_call=float(ZONE_CALLS.index(setting.zone_call)),
        # A rating test knows no sun; strong sun is what a summer's attic stands under.
        **({"solar": 0.0} if heating else {}),
    )


def _barometer(setting: Setting) -> float:
    return float(moist_air.standard_pressure(setting.altitude * FOOT))


def _kelvin(number: float) -> float:
    return float(from_display(number, "temperature", "us"))


def installation_of(setting: Setting) -> Installation:
    """The unit on the reference site with the setting's airflow and faults.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    Installation
        Floats.
    """
    installation = healthy_installation(setting)
    for name, amount in setting.faults.items():
        installation = faults.named(name, amount).applied_to(installation)
    return installation


def healthy_installation(setting: Setting) -> Installation:
    """The unit on the reference site with the setting's airflow and no fault.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    Installation
        Floats; holds the refrigerant asked for, sized for the plate's.
    """
    healthy = built(
        source_of("unit", setting.unit),
        setting.metering,
        setting.motor,
        (source_of("house", setting.house), setting.zone),
        float(setting.airflow),
    )
    if setting.strips == EMERGENCY:
        healthy = replace(healthy, controls=replace(healthy.controls, emergency_heat=1.0))
    if setting.refrigerant is None:
        return healthy
    return replace(healthy, unit=replace(healthy.unit, refrigerant=setting.refrigerant))
