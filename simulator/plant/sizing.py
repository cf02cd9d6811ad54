"""Charge, device area, rated flow and blower torque from one rating point."""

from dataclasses import dataclass, replace

import numpy as np

from simulator.components import metering_device
from simulator.components.metering_device import MeteringDevice
from simulator.plant import air_path, balance, newton, steady
from simulator.plant.case import Case, prepared
from simulator.plant.conditions import Conditions, from_wet_bulb
from simulator.plant.installation import Ducts, Installation
from simulator.quantities.values import Array, Index


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
    """

    outdoor_temperature: float
    indoor_temperature: float
    indoor_wet_bulb: float
    external_static: float
    superheat: float
    subcooling: float


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
    installation = _tight(installation, rating)
    installation = at_airflow(installation, conditions, 1.0)
    for _ in range(4):
        case = prepared(installation, conditions)
        box = steady.search_box(case)

        def residual(unknowns: Array, columns: Index, held: Case = case) -> Array:
            del columns
            return balance.sizing_residuals(unknowns, held, rating.superheat, rating.subcooling)

        outcome = newton.solve(residual, steady.first_guess(case, 1), box, tolerance=1e-10)
        if not outcome.converged.all():
            raise SizingError(
                f"{installation.unit.name} cannot run at its rating point: the largest "
                f"imbalance left is {float(outcome.error[0]):.2g}."
            )
        now = balance.evaluate(outcome.unknowns[:, 0], case).circuit
        unit = installation.unit
        area = float(unit.metering.open_area * now.flow / now.metered_flow)
        unit = replace(
            unit,
            rated_flow=float(now.flow),
            charge=float(now.charge),
            plate_charge=float(now.charge),
            rated_pressure_difference=float(now.liquid_pressure - np.exp(outcome.unknowns[0, 0])),
            metering=replace(unit.metering, open_area=area),
        )
        installation = replace(installation, unit=unit)
    return installation


def _tight(installation: Installation, rating: Rating) -> Installation:
    """Rating ducts: tight, uninsulated walls of no effect, external static as rated."""
    ducts = installation.ducts
    rest = rating.external_static - ducts.return_drop - ducts.clean_filter_drop
    tight: Ducts = replace(
        ducts,
        return_leak=0.0,
        supply_leak=0.0,
        return_conductance=0.0,
        supply_conductance=0.0,
        supply_drop=rest,
    )
    return replace(installation, ducts=tight)


def fitted(installation: Installation, device: MeteringDevice) -> Installation:
    """Put a metering device of the unit's rated flow into an installation.

    Parameters
    ----------
    installation : Installation
        Sized with the thermostatic valve.
    device : MeteringDevice
        Valve or orifice; its open area is that of the wide-open valve.

    Returns
    -------
    Installation
        The orifice has the area the valve uses at the rating point.
    """
    unit = installation.unit
    if not device.is_thermostatic:
        used = metering_device.opening(unit.metering, unit.metering.rated_superheat)
        device = replace(device, open_area=float(device.open_area * used))
    return replace(installation, unit=replace(unit, metering=device))


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
        Within 1e-6 of the airflow asked for.
    """
    blower = installation.unit.blower
    wanted = np.log(fraction * installation.unit.rated_airflow)
    scale, gain = 1.0, 2.0
    previous: tuple[float, float] | None = None
    for _ in range(40):
        changed = replace(
            blower, set_torque=blower.set_torque * scale, slip_torque=blower.slip_torque * scale
        )
        trial = replace(installation, unit=replace(installation.unit, blower=changed))
        reached = float(np.log(air_path.settle(trial, conditions).airflow))
        if abs(reached - wanted) < 1e-7:
            break
        at = float(np.log(scale))
        if previous is not None and abs(reached - previous[1]) > 1e-12:
            gain = float(np.clip((at - previous[0]) / (reached - previous[1]), 1.0, 12.0))
        previous = (at, reached)
        scale = float(np.exp(at + gain * (wanted - reached)))
    return trial
