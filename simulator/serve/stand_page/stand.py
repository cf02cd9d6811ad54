"""The test stand: settings as typed in, readings beside their healthy ghosts out."""

from collections.abc import Callable
from typing import Any, TypeVar

from simulator.faults._catalogue import discover
from simulator.plant import stacking, steady
from simulator.plant.motors import motors
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.parameter_file import ParameterFileError
from simulator.quantities.entered import BadEntry
from simulator.serve.stand.fault_fit import unfit, zones_of
from simulator.serve.stand.limits import (
    MODES,
    MOTORS,
    REFRIGERANTS,
    STRIPS,
    ZONE_CALLS,
    ZONES,
)
from simulator.serve.stand.notes import beside
from simulator.serve.stand.own_files import offered, source_of
from simulator.serve.stand.setting import (
    Setting,
    checked,
    conditions_of,
    healthy_installation,
    installation_of,
)
from simulator.serve.stand_page.charge_said import charge_said
from simulator.serve.stand_page.charts import air_chart, fan_chart
from simulator.serve.stand_page.cycle_points import chart
from simulator.serve.stand_page.delivery import delivery_chart
from simulator.serve.stand_page.entry import dials, setting_of, system_of, usual
from simulator.serve.stand_page.faults import fault_choices
from simulator.serve.stand_page.link import QUICK, charts_of, link_of, opened
from simulator.serve.stand_page.predict import predictable, verdicts
from simulator.serve.stand_page.rows import rows_of
from simulator.serve.stand_page.sealed import faults_behind, seal
from simulator.serve.stand_page.trends import slow_chart
from simulator.serve.stand_page.words import meaning, state_text, unit_said

ASKED = ("set", "open", "slow", "predict", "seal")
Message = dict[str, Any]
T = TypeVar("T")


def answer(message: Message) -> dict[str, Any]:
    """Answer one message of the test stand.

    Parameters
    ----------
    message : dict
        ``do`` is one of ``ASKED``; numbers as typed; ``listed`` where the page has the lists
        that never change.

    Returns
    -------
    dict
        ``stand``, ``slow``, ``predicted`` or ``sealed``, or ``problem`` with one sentence;
        where a link was opened, ``opened`` with its words.
    """
    if message.get("do") not in ASKED:
        return {"problem": "The test stand only knows how to be set."}
    try:
        if message["do"] == "open":
            words = opened(message.get("link", ""))
            if "predict" in words:
                faults_behind(words["predict"])  # there is one; which, is not told
            return {"opened": words, "stand": _asked(words, lambda s, u: stand(s, u, words))}
        if message["do"] == "predict":
            if "sealed" in message:
                message = {**message, "faults": faults_behind(message["sealed"])}
            drawn = _asked(message, lambda s, u: stand(s, u, message))
            predicted = verdicts(message, drawn["readings"])
            return {"predicted": predicted, "faults": message.get("faults", []), "stand": drawn}
        if message["do"] == "seal":
            return {"sealed": _asked(message, lambda s, _: seal(s))}
        # A day takes longer than a slider may: the page asks for it once the slider rests.
        if message["do"] == "slow":
            name, part = str(message.get("chart", "")), message.get("part", 0)
            if not isinstance(part, int):
                raise BadEntry("The part of a chart is a whole number.")
            return {"slow": _asked(message, lambda s, u: slow_chart(s, name, part, u))}
        return {"stand": _asked(message, lambda s, u: stand(s, u, message))}
    except BadEntry as problem:
        return {"problem": str(problem)}


def _asked(message: Message, drawn: Callable[[Setting, str], T]) -> T:
    system = system_of(message)
    return drawn(checked(setting_of(message), system), system)


def solved(setting: Setting) -> tuple[OperatingPoint, OperatingPoint]:
    """As it is, and healthy.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    tuple of OperatingPoint
        One and the same where there is no fault.
    """
    conditions = conditions_of(setting)
    healthy = healthy_installation(setting)
    if not setting.faults:
        ghost = steady.solve(healthy, conditions)
        return ghost, ghost
    faulty = installation_of(setting)
    both = steady.solve_many([healthy, faulty], [conditions, conditions])
    return stacking.chosen(both, 1), stacking.chosen(both, 0)


def stand(setting: Setting, system: str, asked: Message) -> dict[str, Any]:
    """Everything the page paints.

    Parameters
    ----------
    setting : Setting
        Checked.
    system : str
        ``us`` or ``si``.
    asked : dict
        The message, which names the charts that are shown.

    Returns
    -------
    dict
        Plain data.
    """
    points = solved(setting)
    now, ghost = points
    charts = charts_of(asked)
    healthy, built = healthy_installation(setting), installation_of(setting)
    return {
        "state": now.state,
        "state_text": state_text(now, setting.mode),
        "readings": rows_of(points, setting.mode, system, setting.gauges),
        "charge_test": charge_said(built, now, setting.gauges, system),
        "meaning": [
            *meaning(now, ghost, setting.mode, system),
            *beside(setting, built, now, system),
        ],
        "why": [
            {"title": discover()[name].title, "text": discover()[name].why}
            for name in setting.faults
        ],
        "charts": {name: _quick(name, points, setting, system) for name in charts if name in QUICK},
        "limits": dials(setting.mode, system),
        "usual": usual(system),
        "predictable": predictable(setting.mode),
        "unfit": unfit(healthy, setting.mode, setting.faults),
        "zones": zones_of(healthy),
        "link": link_of(setting, system, charts),
        **({} if asked.get("listed") is True else lists()),
    }


def lists() -> dict[str, Any]:
    """What never changes while a page is open, and is half of an answer.

    Returns
    -------
    dict
        Words that can be chosen, and all faults.
    """
    return {"choices": choices(), "faults": list(fault_choices())}


def _quick(
    name: str, points: tuple[OperatingPoint, OperatingPoint], setting: Setting, system: str
) -> dict[str, Any]:
    healthy = healthy_installation(setting)
    faulty = installation_of(setting) if setting.faults else healthy
    if name == "cycle":
        return chart(points, (faulty.unit.refrigerant, healthy.unit.refrigerant), system)
    if name == "air":
        return air_chart(points, system)
    if name == "fan":
        return fan_chart(points, (faulty, healthy), system)
    return delivery_chart(points, system)


def _motors(unit: str) -> tuple[str, ...]:
    try:
        return motors(source_of("unit", unit))
    except ParameterFileError:
        return MOTORS  # one's own, which says what is wrong with it when it is chosen


def choices() -> dict[str, Any]:
    """Words that can be chosen.

    Returns
    -------
    dict
        By name of the setting, motors by unit; ``unit_names`` says what each unit is.
    """
    units = offered("unit")
    return {
        "unit_names": {unit: unit_said(unit) for unit in units},
        "mode": MODES,
        "unit": units,
        "refrigerant": REFRIGERANTS,
        "gauges": REFRIGERANTS,
        "motor": {unit: _motors(unit) for unit in units},
        "zone": ZONES,
        "house": offered("house"),
        "strips": STRIPS,
        "zone_call": ZONE_CALLS,
    }
