"""What every repair is."""

from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from typing import ClassVar

from simulator.components.metering_device import MeteringDevice
from simulator.plant import catalogue, parameter_file
from simulator.plant.installation import Ducts, Installation, Unit
from simulator.quantities.values import Values


@dataclass(frozen=True, slots=True)
class Repair:
    """One service act.

    Parameters
    ----------
    amount : float
        In SI, for acts that have one; 0 otherwise.
    """

    amount: float = 0.0

    title: ClassVar[str]
    minutes: ClassVar[float]
    # Opens the circuit, costs most of a day or a contractor: asks for odds of 30 to 1, not 10.
    is_costly: ClassVar[bool]
    caution: ClassVar[str | None] = None
    # What the act costs or cannot undo, said before it is done.
    consequence: ClassVar[str]
    # Name and kind of the amount, smallest and largest in SI; None where there is none.
    amount_name: ClassVar[str | None] = None
    amount_kind: ClassVar[str] = "mass"
    low: ClassVar[float] = 0.0
    high: ClassVar[float] = 0.0
    # Steady readings of the refrigerant side are only to be had again after this.
    disturbs_charge: ClassVar[bool] = False

    def applied_to(self, installation: Installation) -> Installation:
        """The installation after the act.

        Parameters
        ----------
        installation : Installation
            Left as it is.

        Returns
        -------
        Installation
            Better, worse or the same: the plant decides.
        """
        raise TypeError(f"{type(self).__name__} does not say what it does")


def recharged(unit: Unit) -> Unit:
    """A circuit that was opened, evacuated and filled by the plate.

    Parameters
    ----------
    unit : Unit
        Whatever is in it is recovered first.

    Returns
    -------
    Unit
        The plate's refrigerant, the plate's mass of it, and nothing else.
    """
    return replace(
        unit, refrigerant=unit.plate_refrigerant, charge=unit.plate_charge, foreign_gas=0.0
    )


def as_sold(unit: Unit) -> Unit:
    """The same model with the parts its papers name, for the sizes of devices and pipes.

    Parameters
    ----------
    unit : Unit
        As it stands.

    Returns
    -------
    Unit
        New, with the same kind of metering device.

    Raises
    ------
    LookupError
        For a model of which there are no papers.
    """
    return _new(unit.name, "txv" if unit.metering.is_thermostatic else "orifice")


def outdoor_device_as_sold(unit: Unit) -> MeteringDevice:
    """What meters while heating, new: of the kind that is there, of the size the papers name.

    Parameters
    ----------
    unit : Unit
        As it stands.

    Returns
    -------
    MeteringDevice

    Raises
    ------
    LookupError
        For a model of which there are no papers.
    """
    kind = "txv" if unit.heating_metering.is_thermostatic else "orifice"
    return _new(unit.name, kind).heating_metering


def as_drawn(installation: Installation) -> Installation:
    """House and ducts as the drawings of the same house have them.

    Parameters
    ----------
    installation : Installation
        As it stands.

    Returns
    -------
    Installation
        Its unit is that of the drawings; only house and ducts are of use.

    Raises
    ------
    LookupError
        For a house of which there are no drawings.
    """
    return _drawn(_layout(installation))


def reconnected(ducts: Ducts) -> Ducts:
    """Ducts with a run that had come off back on its collar.

    Parameters
    ----------
    ducts : Ducts
        With at most one run off; the shares of the others tell how much it carried.

    Returns
    -------
    Ducts
        The same where none is off.
    """
    if 0.0 not in ducts.room_shares:
        return ducts
    off = 1.0 - sum(ducts.room_shares)
    shares = tuple(share or off for share in ducts.room_shares)
    leak = max(1.0 - (1.0 - ducts.supply_leak) / (1.0 - off), ducts.built_supply_leak)
    return replace(ducts, room_shares=shares, supply_leak=leak)


def _layout(installation: Installation) -> tuple[Values, ...]:
    """What neither wear nor weather changes of a house."""
    house = installation.house
    return (house.volume, house.heat_capacity, *installation.ducts.room_runs)


@lru_cache
def _drawn(layout: tuple[Values, ...]) -> Installation:
    folder = resources.files("simulator.plant") / "sites"
    for entry in sorted(item.name for item in folder.iterdir()):
        file = entry.removesuffix(".toml")
        if entry != file and _layout(found := catalogue.load_installation(house=file)) == layout:
            return found
    raise LookupError("There are no drawings of this house.")


@lru_cache
def _new(model: str, metering: str) -> Unit:
    folder = resources.files("simulator.plant") / "equipment"
    for entry in sorted(item.name for item in folder.iterdir()):
        file = entry.removesuffix(".toml")
        if (
            entry != file
            and parameter_file.read("equipment", file).table("plate").rows["name"] == model
        ):
            return catalogue.load_installation(unit=file, metering=metering).unit
    raise LookupError(f"There are no papers for the model {model}.")
