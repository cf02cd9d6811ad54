"""Which units the checks run on, in which conditions."""

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib.resources import files

from simulator.faults._catalogue import named
from simulator.plant import air_path, catalogue, sizing, steady
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from tests.plant.stand import weather, winter

REFERENCE = "quail_36"
Faults = tuple[tuple[str, float], ...]


def units() -> list[str]:
    """Every equipment file there is, the reference first."""
    folder = files("simulator.plant") / "equipment"
    found = sorted(item.name[:-5] for item in folder.iterdir() if item.name.endswith(".toml"))
    return [REFERENCE, *(name for name in found if name != REFERENCE)]


def claimed_class(unit: str) -> int | None:
    """The SEER that an equipment file gives its unit, in words."""
    text = (files("simulator.plant") / "equipment" / f"{unit}.toml").read_text(encoding="utf-8")
    found = re.search(r"about (\d+) SEER", text)
    return int(found.group(1)) if found else None


@dataclass(frozen=True, slots=True)
class Bench:
    """One unit with one metering device in the reference house."""

    unit: str = REFERENCE
    metering: str = "txv"

    @property
    def label(self) -> str:
        """For tables."""
        return f"{self.unit} {'valve' if self.metering == 'txv' else 'orifice'}"

    def installed(self, airflow: float = 1.0, faults: Faults = (), motor: str = "") -> Installation:
        """The installation with its blower set and faults in their own units."""
        built = _at_airflow(self.unit, self.metering, airflow, motor or None)
        for name, amount in faults:
            built = named(name, amount).applied_to(built)
        return built

    def at(
        self,
        outdoor: float = 95.0,
        wet: float = 67.0,
        dry: float = 80.0,
        airflow: float = 1.0,
        faults: Faults = (),
    ) -> OperatingPoint:
        """Settled while cooling, weather in °F."""
        return _settled(self, airflow, faults, weather(outdoor, dry=dry, wet=wet))

    def heating(
        self,
        outdoor: float = 47.0,
        airflow: float = 1.0,
        humidity: float = 0.7,
        faults: Faults = (),
    ) -> OperatingPoint:
        """Settled while heating, weather in °F."""
        return _settled(self, airflow, faults, winter(outdoor, humidity=humidity))


@lru_cache
def _at_airflow(unit: str, metering: str, airflow: float, motor: str | None) -> Installation:
    built = catalogue.load_installation(unit=unit, metering=metering, motor=motor)
    if unit != REFERENCE:
        # An induction motor may fall short of rated flow in these ducts: shares are of its own.
        own = float(air_path.settle(built, weather()).airflow / built.unit.rated_airflow)
        if airflow == 1.0:
            return built
        airflow = airflow * min(own, 1.0)
    return sizing.at_airflow(built, weather(), airflow)


@lru_cache(maxsize=4096)
def _settled(bench: Bench, airflow: float, faults: Faults, around: Conditions) -> OperatingPoint:
    return steady.solve(bench.installed(airflow, faults), around)


def with_tight_ducts(built: Installation) -> Installation:
    """Ducts as a rating laboratory has them: no leak, no heat through the walls."""
    ducts = replace(
        built.ducts,
        return_leak=0.0,
        supply_leak=0.0,
        return_conductance=0.0,
        supply_conductance=0.0,
    )
    return replace(built, ducts=ducts)
