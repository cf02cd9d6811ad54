"""The stand's unit in its house, with a blower set to the airflow asked for."""

from functools import lru_cache

import numpy as np

from simulator.plant import air_path, catalogue, sizing
from simulator.plant.conditions import from_wet_bulb
from simulator.plant.installation import Installation
from simulator.quantities.entered import BadEntry

REFERENCE = from_wet_bulb(outdoor=308.15, return_temperature=299.817, return_wet_bulb=292.594)
WITHIN = 0.01  # of the airflow asked for


@lru_cache(maxsize=64)
def built(
    unit: str,
    metering: str | None,
    motor: str | None,
    place: tuple[str, str | None],
    airflow: float,
) -> Installation:
    """The unit in its house, moving the airflow asked for.

    Parameters
    ----------
    unit : str
        Equipment file, by name or path.
    metering, motor : str, optional
        Else what the unit has.
    place : tuple
        House, by name or path, and the space around its ducts; None is the house's own.
    airflow : float
        Of rated, for healthy ducts at sea level. [-]

    Returns
    -------
    Installation
        Floats, healthy.

    Raises
    ------
    BadEntry
        Where the blower does not reach it.
    """
    house, zone = place
    asked = {"metering": metering, "motor": motor}
    installation = catalogue.load_installation(
        unit=unit,
        house=house,
        zone=zone,
        **{key: word for key, word in asked.items() if word is not None},
    )
    moved = sizing.at_airflow(installation, REFERENCE, airflow)
    # Near the speed of its field a motor would need a winding without end.
    if abs(_share_of_rated(moved) / airflow - 1.0) < WITHIN:
        return moved
    most = _share_of_rated(installation)
    if airflow == 1.0:
        return installation  # its own strongest tap, that these ducts ask too much of
    raise BadEntry(
        f"The blower of {moved.unit.name} moves {most:.2f} of rated airflow at most; ask for less."
    )


def _share_of_rated(installation: Installation) -> float:
    moved = float(np.asarray(air_path.settle(installation, REFERENCE).airflow))
    return moved / float(np.asarray(installation.unit.rated_airflow))
