"""When a charge test means anything."""

from collections.abc import Sequence

from simulator.instruments.reading import Reading
from simulator.plant.charge_test import COLDEST, ENOUGH_AIR
from simulator.plant.timeline import SETTLED_AFTER

__all__ = [
    "AIRFLOW_PROOF",
    "COLDEST",
    "ENOUGH_AIR",
    "HOOD",
    "UNPROVEN",
    "airflow_known",
    "charge_test_problems",
]

# Each gives the airflow itself; the hood's sum only a lower bound, for ducts may leak before it.
AIRFLOW_PROOF = ("coil_airflow", "table_airflow", "plate_airflow", "strip_rise_airflow")
HOOD = "register_sum"
UNPROVEN = "Airflow was not proven first."


def airflow_known(readings: Sequence[Reading], *, enough: float = 0.0) -> float | None:
    """The airflow as last measured, in whichever way proves it.

    Parameters
    ----------
    readings : sequence
        All taken so far, oldest first.
    enough : float
        What a sum of the registers must reach to say anything. [m³/s]

    Returns
    -------
    float or None
        None where nothing taken proves it. [m³/s]
    """
    # A take that came to nothing leaves an earlier one standing.
    taken = [(r.measurement, r.value) for r in readings if r.value is not None]
    sums = [value for name, value in taken if name == HOOD]
    if sums and sums[-1] >= enough:
        return sums[-1]
    flows = [value for name, value in taken if name in AIRFLOW_PROOF]
    return flows[-1] if flows else None


def charge_test_problems(
    readings_before: Sequence[Reading],
    *,
    rated_airflow: float,
    seconds_since_start: float | None,
    seconds_since_charge: float | None,
) -> list[str]:
    """What makes a charge test invalid at this minute.

    Parameters
    ----------
    readings_before : sequence
        All taken so far, oldest first.
    rated_airflow : float
        At 400 cfm per ton. [m³/s]
    seconds_since_start : float, optional
        Of running; none while off. [s]
    seconds_since_charge : float, optional
        Since refrigerant was last added or removed; none if never. [s]

    Returns
    -------
    list
        One plain sentence a problem; empty for a valid test.

    References
    ----------
    .. [1] California Title 24 RA3.2: airflow first, outdoor air of 55 °F or more, 15 minutes
       after start and after every change of charge.
    """
    problems = []
    enough = ENOUGH_AIR * rated_airflow
    proven = airflow_known(readings_before, enough=enough)
    if proven is None:
        problems.append(UNPROVEN)
    elif proven < enough:
        problems.append("Airflow was below 350 cfm per ton.")
    air = [r.value for r in readings_before if r.measurement == "outdoor_temperature"]
    if not air or air[-1] is None:
        problems.append("The outdoor temperature was not known.")
    elif air[-1] < COLDEST:
        problems.append("It was colder than 55 °F outdoors.")
    if seconds_since_start is None:
        problems.append("The system was not running.")
    elif seconds_since_start < SETTLED_AFTER:
        problems.append("The system had not run for 15 minutes.")
    if seconds_since_charge is not None and seconds_since_charge < SETTLED_AFTER:
        problems.append("The charge had been changed less than 15 minutes before.")
    return problems
