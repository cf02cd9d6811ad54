"""What the test stand can be set to: completed, checked, and made into weather and a plant."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

import numpy as np

from simulator.faults import _catalogue as faults
from simulator.plant import air_path, catalogue, sizing
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Installation
from simulator.plant.parameter_file import ParameterFileError
from simulator.properties import moist_air
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import from_display
from simulator.serve.bench_limits import (
    FOOT,
    MODES,
    MOST_AIRFLOW,
    MOST_FAULTS,
    MOTORS,
    REFRIGERANTS,
    SUMMER_HUMIDITY,
    UNITS,
    USUAL,
    ZONES,
    limits_of,
)
from simulator.serve.entry_units import degrees, need_entry
from simulator.serve.given import need_faults, need_word
from simulator.serve.outdoor_air import humidity_of, winter_humidity

REFERENCE = from_wet_bulb(outdoor=308.15, return_temperature=299.817, return_wet_bulb=292.594)
WITHIN = 0.01  # of the airflow asked for
STRONGEST = 10.0  # winding, over the one that is built in: chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the stand is set to, in the technician's units; None stands for what is usual.

    Parameters
    ----------
    mode : str
        ``cooling`` or ``heating``.
    unit : str
        Equipment file, one of ``UNITS``.
    refrigerant : str, optional
        In the circuit, one of ``REFRIGERANTS``; else the plate's. Nothing is resized for it.
    metering : str, optional
        ``txv`` or ``orifice``; else what the unit has.
    motor : str, optional
        Of the blower, one of ``MOTORS``; else what the unit has.
    zone : str
        Around the ducts, one of ``ZONES``.
    outdoor, return_db, return_wb : float, optional
        In °F, the last two held at the return grille; else the mode's rating point.
    outdoor_wb : float, optional
        In °F; else 40 % relative humidity in summer, and that of 47 and 43 °F in winter.
    airflow : float
        Of rated, for healthy ducts at sea level; at 1 a blower too weak for that runs as it
        is built. [-]
    altitude : float
        In feet, standard atmosphere.
    faults : mapping
        Severity by fault name, each in the fault's own unit.
    """

    mode: str = "cooling"
    unit: str = "quail_36"
    refrigerant: str | None = None
    metering: str | None = None
    motor: str | None = None
    zone: str = "attic"
    outdoor: float | None = None
    outdoor_wb: float | None = None
    return_db: float | None = None
    return_wb: float | None = None
    airflow: float = 1.0
    altitude: float = 0.0
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


def checked(setting: Setting, system: str = "us") -> Setting:
    """The same setting completed, or one sentence on what is wrong with it.

    Parameters
    ----------
    setting : Setting
        As asked for.
    system : str
        ``us`` or ``si``: in whose units the sentence speaks.

    Returns
    -------
    Setting
        As ``completed``.

    Raises
    ------
    BadEntry
        Naming what was wrong and what is allowed.
    """
    _check_words(setting)
    setting = completed(setting)
    most_airflow = MOST_AIRFLOW[_own_motor(setting)]
    for key, (low, high, unit, name) in limits_of(setting.mode).items():
        if key == "outdoor_wb" and setting.outdoor_wb is None:
            continue
        most = most_airflow if key == "airflow" else high
        need_entry(getattr(setting, key), name, (low, min(high, most), unit), system)
    _check_wet_bulbs(setting, system)
    need_faults(setting.faults, MOST_FAULTS)
    healthy_installation(setting)  # the blower may not reach what is asked for
    return setting


def _own_motor(setting: Setting) -> str:
    """What turns the blower; and whether there is such a unit at all."""
    try:
        blower = healthy_installation(replace(setting, airflow=1.0)).unit.blower
    except ParameterFileError as problem:
        text = str(problem).rstrip(".")
        raise BadEntry(f"{text[:1].upper()}{text[1:]}.") from problem
    return "psc" if blower.synchronous_speed > 0.0 else "constant_torque"


def _check_words(setting: Setting) -> None:
    need_word(setting.mode, "the mode", MODES)
    need_word(setting.unit, "the unit", UNITS)
    need_word(setting.zone, "the zone", ZONES)
    for word, name, allowed in (
        (setting.refrigerant, "the refrigerant", REFRIGERANTS),
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
            kind = "dry bulb" if place == "return" else "temperature"
            raise BadEntry(
                f"The {place} wet bulb ({degrees(wet, system)}) cannot be above the {place} "
                f"{kind} ({degrees(dry, system)})."
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
    built = _built(
        setting.unit, setting.metering, setting.motor, setting.zone, float(setting.airflow)
    )
    if setting.refrigerant is None:
        return built
    return replace(built, unit=replace(built.unit, refrigerant=setting.refrigerant))


@lru_cache(maxsize=64)
def _built(
    unit: str, metering: str | None, motor: str | None, zone: str, airflow: float
) -> Installation:
    asked = {"metering": metering, "motor": motor}
    installation = catalogue.load_installation(
        unit=unit, zone=zone, **{key: word for key, word in asked.items() if word is not None}
    )
    before = installation.unit.blower.slip_torque
    with np.errstate(all="ignore"):
        built = sizing.at_airflow(installation, REFERENCE, airflow)
        share = _share_of_rated(built)
    # Near the speed of its field a motor would need a winding without end.
    if built.unit.blower.slip_torque <= STRONGEST * before and abs(share / airflow - 1.0) < WITHIN:
        return built
    most = _share_of_rated(installation)
    if airflow == 1.0:
        return installation  # its own strongest tap, that these ducts ask too much of
    raise BadEntry(
        f"The blower of {built.unit.name} moves {most:.2f} of rated airflow at most; ask for less."
    )


def _share_of_rated(installation: Installation) -> float:
    moved = float(np.asarray(air_path.settle(installation, REFERENCE).airflow))
    return moved / float(np.asarray(installation.unit.rated_airflow))
