"""Which motors a unit's blower may have."""

from simulator.plant import data_sheet, parameter_file, published_unit
from simulator.plant.parameter_file import ParameterFileError

DESCRIBED = ("constant_torque", "psc")  # of a unit described part by part; the first is usual


def motors(unit: str) -> tuple[str, ...]:
    """Motors that a unit can be built with.

    Parameters
    ----------
    unit : str
        Equipment file shipped, or the path of one's own.

    Returns
    -------
    tuple of str
        Of ``data_sheet.MOTORS``; that of its sheet alone where it has one.

    Raises
    ------
    ParameterFileError
        For a file that cannot be read, or whose sheet names no known motor.
    """
    file = parameter_file.read("equipment", unit)
    if file.rows.get("kind") != published_unit.KIND:
        return DESCRIBED
    motor = file.table("blower").word("motor")
    if motor not in data_sheet.MOTORS:
        raise ParameterFileError(f"{file.name}: there is no such motor: {motor}.")
    return (motor,)


def need_motor(asked: str, allowed: tuple[str, ...], name: str) -> None:
    """Refuse a motor that a unit does not have.

    Parameters
    ----------
    asked : str
        Motor asked for.
    allowed : tuple of str
        Motors it can have.
    name : str
        Of the unit, as its plate has it.

    Raises
    ------
    ParameterFileError
        Naming what is allowed.
    """
    if asked not in allowed:
        raise ParameterFileError(
            f"{name} has no {asked} blower; what it can have: {', '.join(allowed)}."
        )
