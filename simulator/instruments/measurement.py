"""What a measurement is, and how the true values behind it are reached."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from simulator.instruments import techniques as how
from simulator.instruments.techniques import Technique
from simulator.instruments.tools import TOOLS
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air
from simulator.quantities.values import Values

Truth = Callable[[OperatingPoint], Values]
Fitted = Callable[[Installation, OperatingPoint], Values]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What words can follow from.

    Parameters
    ----------
    installation : Installation
        As it stands.
    point : OperatingPoint
        What it is doing.
    technique : str
        How it is looked at.
    draw : float
        The visit's own, from 0 to 1. [-]
    """

    installation: Installation
    point: OperatingPoint
    technique: str = "careful"
    draw: float = 0.5


Told = Callable[[Seen], str]
Hindrance = Callable[[OperatingPoint], str | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """One thing that can be measured, looked at, felt or asked.

    Parameters
    ----------
    id : str
        On the wire.
    name : str
        For people.
    place : str
        Where it is taken.
    tool_id : str
        Which tool.
    way : str
        measure, look, feel or ask.
    minutes : float
        Site time it takes, in minutes.
    group : str
        Where it stands on the reading sheet.
    truth : callable, optional
        The true value in an operating point, in SI; none where words come back.
    fitted : callable, optional
        The true value where it takes the parts as fitted too; instead of ``truth``.
    told : callable, optional
        What is seen, where words come back and the call has none of its own.
    unfit : callable, optional
        Why it cannot be taken while the plant does what it does; none where it can.
    needs : tuple
        Steps that must come first.
    techniques : tuple
        Ways to take it, the careful one first.
    caution : str, optional
        One line.
    """

    id: str
    name: str
    place: str
    tool_id: str
    way: str
    minutes: float
    group: str
    truth: Truth | None = None
    fitted: Fitted | None = None
    told: Told | None = None
    unfit: Hindrance | None = None
    needs: tuple[str, ...] = ()
    techniques: tuple[Technique, ...] = how.PLAIN
    caution: str | None = None

    @property
    def said(self) -> str:
        """Its name inside a sentence.

        Returns
        -------
        str
            Letters of terminals stay large.
        """
        return self.name[:1].lower() + self.name[1:]

    @property
    def kind(self) -> str:
        """Kind of quantity.

        Returns
        -------
        str
            The tool's own.
        """
        return TOOLS[self.tool_id].kind

    @property
    def has_number(self) -> bool:
        """Whether a number comes back.

        Returns
        -------
        bool
        """
        return self.truth is not None or self.fitted is not None

    def true_value(self, installation: Installation, point: OperatingPoint) -> float:
        """The true value.

        Parameters
        ----------
        installation : Installation
            As it stands.
        point : OperatingPoint
            What it is doing.

        Returns
        -------
        float
            In SI; zero where words come back. [-]
        """
        if self.fitted is not None:
            return float(self.fitted(installation, point))
        return 0.0 if self.truth is None else float(self.truth(point))

    def minutes_by(self, technique: str) -> float:
        """Site time by one way of taking it.

        Parameters
        ----------
        technique : str
            Its id.

        Returns
        -------
        float
            In minutes.
        """
        way = next(item for item in self.techniques if item.id == technique)
        return self.minutes if way.minutes is None else way.minutes

    @property
    def tool(self) -> str:
        """The tool's name for people.

        Returns
        -------
        str
        """
        return TOOLS[self.tool_id].name


def field(name: str) -> Truth:
    """A field as it stands."""

    def read(point: OperatingPoint) -> Values:
        value: Values = getattr(point, name)
        return value

    return read


def gauge(name: str) -> Truth:
    """A pressure against the barometer."""
    return lambda point: getattr(point, name) - np.asarray(point.pressure)


def wet(place: str) -> Truth:
    """Wet bulb of an air state."""
    return lambda point: moist_air.wet_bulb(
        getattr(point, f"{place}_temperature"),
        getattr(point, f"{place}_humidity_ratio"),
        point.pressure,
    )


def damp(place: str) -> Truth:
    """Relative humidity of an air state."""
    return lambda point: moist_air.relative_humidity(
        getattr(point, f"{place}_temperature"),
        getattr(point, f"{place}_humidity_ratio"),
        point.pressure,
    )
