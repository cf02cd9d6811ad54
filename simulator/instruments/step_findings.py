"""What a preparation tells: the tools' own differences, and what a look round shows.

Words on hazards are common practice, no source; none of them depends on what is wrong.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from simulator.instruments.session import BATTERY, Session, battery_drift
from simulator.instruments.steps import LONG_HOSES
from simulator.instruments.take import ANY_TAP, UNMATCHED
from simulator.instruments.techniques import UNZEROED, Felt
from simulator.plant.operating_point import OperatingPoint
from simulator.quantities.shown import show

COMPARED = ("return_dry_bulb", "supply_dry_bulb")
FUEL_WORDS = ("fuel", "gas", "flue")
DONE = "Done; nothing out of the ordinary."


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What a preparation can find.

    Parameters
    ----------
    session : Session
        The visit's tools.
    point : OperatingPoint
        What the system is doing.
    equipment : sequence
        Lines of the work order.
    refrigerant : str
        As on the nameplate.
    """

    session: Session
    point: OperatingPoint
    equipment: Sequence[str]
    refrigerant: str


def found(step: str, around: Surroundings) -> str:
    """What a preparation brought to light.

    Parameters
    ----------
    step : str
        Its id.
    around : Surroundings
        Tools and site.

    Returns
    -------
    str
        Plain sentences.
    """
    said = _FOUND.get(step)
    return DONE if said is None else said(around)


def probe_difference(session: Session) -> float:
    """How far two probes that were never compared differ in the same air.

    Parameters
    ----------
    session : Session
        The visit's tools.

    Returns
    -------
    float
        The first of the compared less the second. [delta K]
    """
    first, second = (session.draws[name] for name in COMPARED)
    return 2.0 * UNMATCHED * (first - second)


def _both(value: float, kind: str) -> str:
    """In the trade's units and in SI: the words are stored once."""
    return f"{show(value, kind, 'us')} ({show(value, kind, 'si')})"


def _probes(around: Surroundings) -> str:
    apart = _both(abs(probe_difference(around.session)), "temperature_difference")
    return (
        f"The two air probes differ by {apart} in the same air. The difference is noted and taken "
        "off from now on; readings taken before still carry it."
    )


def _manometer(around: Surroundings) -> str:
    drawn = Felt(0.0, around.point, around.session.draws[ANY_TAP])
    shown = _both(UNZEROED(drawn), "static_pressure")
    return (
        f"With both ports open to the air it showed {shown}. It shows zero now; readings taken "
        "before still carry it."
    )


def _batteries(around: Surroundings) -> str:
    drift = battery_drift(around.session.draws[BATTERY]) - 1.0
    if drift == 0.0:
        return "Batteries good, calibration in date."
    return (
        f"The meters' battery was low: on the known source they showed {100.0 * drift:.1f} % too "
        "much. A fresh one is in; readings taken before still carry it."
    )


def _air_handler(around: Surroundings) -> str:
    lines = [x for x in around.equipment if any(word in x.lower() for word in FUEL_WORDS)]
    near = f" On appliances, the work order: {lines[0]}." if lines else ""
    return (
        f"Nothing hazardous in sight: no burn marks outside, no gas smell, dry floor.{near} Usual "
        "here: live parts and a moving wheel behind the panels, sharp sheet metal."
    )


def _outdoor(around: Surroundings) -> str:
    return (
        "Nothing hazardous in sight: disconnect whole, no scorched wiring. The label says "
        f"{around.refrigerant}. Oil on a joint is for a leak search to judge. Usual here: live "
        "terminals, charged capacitor, hot discharge pipe."
    )


_FOUND: dict[str, Callable[[Surroundings], str]] = {
    "consent": lambda _: (
        "Agreed. They know where you will be and that the system may be off for a while; children "
        "and pets stay clear of open panels. Nothing else was mentioned."
    ),
    "hazard_look_air_handler": _air_handler,
    "hazard_look_zone": lambda _: (
        "Nothing hazardous in sight: footing holds, no bare wiring within reach, no vermin; "
        "someone knows where you are. Usual here: poor light, nails and sharp metal, heat or damp. "
        "Keep the minutes short."
    ),
    "hazard_look_outdoor": _outdoor,
    "prove_meter": lambda _: (
        "The meter shows the known source right; gloves and face shield are on. Usual here: the "
        "line side stays live whatever is switched off."
    ),
    "drill_test_holes": lambda _: (
        "Four holes, nothing hit: before and after the filter, after the coil, in the supply "
        "plenum. A plug for each."
    ),
    "drill_return_trunk": lambda _: (
        "One hole in a straight run between the grille and the air handler, nothing hit. A plug "
        "for it."
    ),
    "drill_supply_trunk": lambda _: (
        "One hole in a straight run, just before the first branches leave, nothing hit. A plug "
        "for it."
    ),
    "zero_manometer": _manometer,
    "check_batteries": _batteries,
    "isolate_unit": lambda _: (
        "Disconnect out and locked, meter proven before and after, no voltage on any terminal, "
        "capacitor discharged. It goes back in before the next start."
    ),
    "lock_out_air_handler": lambda _: (
        "Breaker off, locked and tagged, meter proven before and after, no voltage at the strips, "
        "the blower or the board. It goes back on before the next start."
    ),
    "release_tracer": lambda _: (
        "The rooms stand near 1600 ppm and the fan has stirred them. The probe goes from place to "
        "place, the same one everywhere."
    ),
    "match_probes": _probes,
    LONG_HOSES: lambda _: (
        "Manifold on both ports. The hoses have filled with refrigerant from the circuit; it stays "
        "in them."
    ),
    "connect_gauges": lambda _: "Hoses purged, probes on both ports, no hiss. Caps in the pocket.",
}
