"""Charge, device area, rated flow and blower torque from one rating point."""

from dataclasses import dataclass, replace

import numpy as np

from simulator.components import metering_device
from simulator.components.metering_device import MeteringDevice
from simulator.plant import air_path, balance, newton, steady
from simulator.plant.case import prepared
from simulator.plant.circuit import CircuitState
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Ducts, Installation
from simulator.properties import moist_air
from simulator.quantities.values import Array, Index

STRONGEST = 10.0  # winding of an induction motor, over the one that is built in: chosen


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """Where a unit is sized.

    Parameters
    ----------
    outdoor_temperature, indoor_temperature, indoor_wet_bulb : float
        [K]
    external_static : float
        At rated airflow. [Pa]
    superheat : float
        At the coil outlet. [delta K]
    subcooling : float
        At the liquid port. [delta K]
    heating_outdoor_temperature, heating_outdoor_wet_bulb : float
        [K]
    heating_indoor_temperature : float
        [K]
    heating_superheat, heating_subcooling : float
        As above, while heating. [delta K]
    """

    outdoor_temperature: float
    indoor_temperature: float
    indoor_wet_bulb: float
    external_static: float
    superheat: float
    subcooling: float
    heating_outdoor_temperature: float
    heating_outdoor_wet_bulb: float
    heating_indoor_temperature: float
    heating_superheat: float
    heating_subcooling: float


class SizingError(ValueError):
    """A unit that cannot run at its own rating point, in one sentence."""


def sized(installation: Installation, rating: Rating) -> Installation:
    """Size what follows from the rating point.

    The circuit is solved with superheat and subcooling given; the flow area that this
    needs, and the charge that this holds, are then the unit's own.

    Parameters
    ----------
    installation : Installation
        With guesses for charge, area, flow and torque.
    rating : Rating
        The point.

    Returns
    -------
    Installation
        Consistent with the point for either metering device.

    Raises
    ------
    SizingError
        If the point has no solution.
    """
    conditions = from_wet_bulb(
        outdoor=rating.outdoor_temperature,
        return_temperature=rating.indoor_temperature,
        return_wet_bulb=rating.indoor_wet_bulb,
    )
    installation = tight(installation, rating)
    installation = at_airflow(installation, conditions, 1.0)
    for _ in range(4):
        now, low_pressure = _held(installation, conditions, rating.superheat, rating.subcooling)
        unit = installation.unit
        area = float(unit.metering.open_area * now.flow / now.metered_flow)
        unit = replace(
            unit,
            rated_flow=float(now.flow),
            charge=float(now.charge),
            plate_charge=float(now.charge),
            rated_pressure_difference=float(now.liquid_pressure - low_pressure),
            metering=replace(unit.metering, open_area=area),
        )
        installation = replace(installation, unit=unit)
    return _sized_for_heating(installation, rating)


def _held(
    installation: Installation, conditions: Conditions, superheat: float, subcooling: float
) -> tuple[CircuitState, float]:
    """The circuit with superheat and subcooling held, and its evaporating pressure."""
    case = prepared(installation, conditions)
    box = steady.search_box(case)

    def residual(unknowns: Array, columns: Index) -> Array:
        del columns
        return balance.sizing_residuals(unknowns, case, superheat, subcooling)

    outcome = newton.solve(residual, steady.first_guess(case, 1), box, tolerance=1e-10)
    if not outcome.converged.all():
        raise SizingError(
            f"{installation.unit.name} cannot run at its rating point for {conditions.mode}: the "
            f"largest imbalance left is {float(outcome.error[0]):.2g}."
        )
    found = balance.evaluate(outcome.unknowns[:, 0], case).circuit
    return found, float(np.exp(outcome.unknowns[0, 0]))


def _sized_for_heating(installation: Installation, rating: Rating) -> Installation:
    """Device of the outdoor coil, and the vessel that holds what heating does not need."""
    pressure = 101325.0
    outdoor = rating.heating_outdoor_temperature
    conditions = Conditions(
        outdoor_temperature=outdoor,
        outdoor_humidity_ratio=float(
            moist_air.humidity_ratio_from_wet_bulb(
                outdoor, rating.heating_outdoor_wet_bulb, pressure
            )
        ),
        indoor_temperature=rating.heating_indoor_temperature,
        indoor_humidity_ratio=0.006,
        solar=0.0,
        mode="heating",
    )
    now, _ = _held(installation, conditions, rating.heating_superheat, rating.heating_subcooling)
    unit = installation.unit
    area = float(unit.heating_metering.open_area * now.flow / now.metered_flow)
    spare = max(float(unit.charge - now.charge), 0.0)
    unit = replace(
        unit,
        heating_metering=replace(unit.heating_metering, open_area=area),
        lines=replace(unit.lines, compensator_volume=spare / float(now.liquid.density)),
    )
    return replace(installation, unit=unit)


def tight(installation: Installation, rating: Rating) -> Installation:
    """Put rating ducts around a unit.

    Parameters
    ----------
    installation : Installation
        With ducts of its own.
    rating : Rating
        Tells the external static.

    Returns
    -------
    Installation
        Ducts tight, their walls of no effect, external static as rated.
    """
    ducts = installation.ducts
    rest = rating.external_static - ducts.return_drop - ducts.clean_filter_drop
    tight: Ducts = replace(
        ducts,
        return_leak=0.0,
        supply_leak=0.0,
        return_conductance=0.0,
        supply_conductance=0.0,
        supply_drop=rest,
        supply_branch_drop=rest * ducts.supply_branch_drop / ducts.supply_drop,
    )
    return replace(installation, ducts=tight)


def fitted(
    installation: Installation, *, is_thermostatic: bool, heating_thermostatic: bool
) -> Installation:
    """Fit a thermostatic valve or a fixed orifice of the unit's rated flow for each mode.

    Parameters
    ----------
    installation : Installation
        Sized with thermostatic valves.
    is_thermostatic, heating_thermostatic : bool
        A valve rather than an orifice while cooling; while heating.

    Returns
    -------
    Installation
        An orifice has the area the valve uses at the rating point.
    """
    unit = installation.unit

    def orifice(valve: MeteringDevice) -> MeteringDevice:
        used = metering_device.opening(valve, valve.rated_superheat)
        return replace(valve, is_thermostatic=0.0, open_area=float(valve.open_area * used))

    fixed = replace(
        unit,
        metering=unit.metering if is_thermostatic else orifice(unit.metering),
        heating_metering=(
            unit.heating_metering if heating_thermostatic else orifice(unit.heating_metering)
        ),
    )
    return replace(installation, unit=fixed)


def at_airflow(installation: Installation, conditions: Conditions, fraction: float) -> Installation:
    """Set the blower so that these ducts get a fraction of rated airflow.

    Parameters
    ----------
    installation : Installation
        Healthy ducts.
    conditions : Conditions
        Where it is set.
    fraction : float
        Of rated airflow. [-]

    Returns
    -------
    Installation
        Within 1e-6 of the airflow asked for; or, near the speed of an induction motor's
        field, as near as its strongest winding comes.
    """
    blower = installation.unit.blower
    if blower.set_airflow > 0.0:
        # Against the same ducts, torque goes with the square of what is held.
        held = fraction * installation.unit.rated_airflow
        share = held / blower.set_airflow
        set_to = replace(blower, set_airflow=held, set_torque=blower.set_torque * share**2)
        return replace(installation, unit=replace(installation.unit, blower=set_to))
    wanted = np.log(fraction * installation.unit.rated_airflow)
    scale, gain = 1.0, 2.0
    strongest = STRONGEST if blower.slip_torque > 0.0 else np.inf
    previous: tuple[float, float] | None = None
    for _ in range(40):
        changed = replace(
            blower, set_torque=blower.set_torque * scale, slip_torque=blower.slip_torque * scale
        )
        trial = replace(installation, unit=replace(installation.unit, blower=changed))
        reached = float(np.log(air_path.settle(trial, conditions).airflow))
        if abs(reached - wanted) < 1e-7 or (scale == strongest and reached < wanted):
            break
        at = float(np.log(scale))
        if previous is not None and abs(reached - previous[1]) > 1e-12:
            gain = float(np.clip((at - previous[0]) / (reached - previous[1]), 1.0, 12.0))
        previous = (at, reached)
        scale = min(float(np.exp(at + gain * (wanted - reached))), strongest)
    return trial
