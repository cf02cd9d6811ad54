"""The grid that the smell tests walk over: faults, severities, weather, devices, units."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from simulator.faults._catalogue import discover, named
from simulator.plant import catalogue, steady
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.values import Array
from tests.faults.signs import signs
from tests.plant.stand import weather
from tests.truth.benches import REFERENCE, units

Key = tuple[str, str, str, float, int]  # unit, device, fault, share of its range, weather


@dataclass(frozen=True)
class Field:
    """Cooling over a grid; ``Field.sample()`` for every push, ``Field.whole()`` on demand."""

    units: tuple[str, ...]
    shares: tuple[float, ...]
    skies: tuple[tuple[float, float], ...]  # outdoor and return wet bulb in °F, return at 80

    @staticmethod
    def sample() -> "Field":
        """The reference unit."""
        return Field((REFERENCE,), (0.5, 1.0), ((70.0, 63.0), (95.0, 67.0), (105.0, 55.0)))

    @staticmethod
    def whole() -> "Field":
        """Every unit there is."""
        skies = tuple(
            (outdoor, wet)
            for outdoor in (65.0, 75.0, 85.0, 95.0, 105.0, 115.0)
            for wet in (55.0, 61.0, 67.0, 72.0)
        )
        return Field(tuple(units()), (0.25, 0.5, 0.75, 1.0), skies)

    @cached_property
    def keys(self) -> list[Key]:
        """Every cell; the healthy one of each weather first, with no share of any fault."""
        shown = {row["fault"] for row in signs() if row["mode"] == "cooling"}
        found: list[Key] = []
        for unit in self.units:
            for metering in catalogue.METERING:
                kinds = [k for k in discover().values() if metering in k.metering and k.id in shown]
                for sky in range(len(self.skies)):
                    found.append((unit, metering, "", 0.0, sky))
                    found += [(unit, metering, k.id, s, sky) for k in kinds for s in self.shares]
        return found

    @cached_property
    def point(self) -> OperatingPoint:
        """All cells settled, arrays of shape (n,)."""
        built, around = [], []
        for unit, metering, fault, share, sky in self.keys:
            one = catalogue.load_installation(unit=unit, metering=metering)
            if fault:
                one = named(fault, share * discover()[fault].high).applied_to(one)
            built.append(one)
            outdoor, wet = self.skies[sky]
            around.append(weather(outdoor, wet=wet))
        return steady.solve_many(built, around)

    @cached_property
    def running(self) -> Array:
        """Which cells run while cooling; a stuck valve may have turned one to heating."""
        return (np.asarray(self.point.state) == "running") & (
            np.asarray(self.point.mode) == "cooling"
        )

    @cached_property
    def healthy(self) -> Array:
        """For each cell the number of the healthy cell in the same weather."""
        first = {(u, m, sky): i for i, (u, m, f, _, sky) in enumerate(self.keys) if not f}
        return np.array([first[u, m, sky] for u, m, _, _, sky in self.keys])

    @cached_property
    def nominal(self) -> Array:
        """Nominal capacity of each cell's unit. [W]"""
        size = {
            unit: float(catalogue.load_installation(unit=unit).unit.nominal_capacity)
            for unit in self.units
        }
        return np.array([size[key[0]] for key in self.keys])

    def of(self, name: str) -> Array:
        """One reading of all cells, in SI."""
        return np.asarray(getattr(self.point, name), dtype=float)

    def change(self, name: str) -> Array:
        """A reading less that of the healthy unit in the same weather."""
        return self.of(name) - self.of(name)[self.healthy]

    def are(self, **wanted: object) -> Array:
        """Which cells are of a unit, metering, fault, or share."""
        places = {"unit": 0, "metering": 1, "fault": 2, "share": 3, "sky": 4}
        return np.array(
            [all(key[places[name]] == value for name, value in wanted.items()) for key in self.keys]
        )

    def named(self, index: int) -> str:
        """A cell in words."""
        unit, metering, fault, share, sky = self.keys[index]
        outdoor, wet = self.skies[sky]
        size = f" at {share:.0%} of its range" if fault else ""
        return f"{unit} {metering}, {fault or 'healthy'}{size}, {outdoor:g} °F out, {wet:g} °F WB"
