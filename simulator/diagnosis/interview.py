"""How what is told shifts what is likely, before anything is measured.

Each cue is a manner of speaking and the causes it makes likelier or less likely, by a factor.
Factors are kept small: people tell what they noticed, not what is true. Common practice, no
source.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

ASKED = ("ask_when", "ask_changed", "ask_touched", "ask_rooms", "read_bill", "read_history")
SAME_BILL, GROWN_BILL = 1.02, 1.08  # of the same month the year before [-]


class Cue(NamedTuple):
    """A pattern, the causes it bears on, and by what factor."""

    pattern: str
    causes: tuple[str, ...]
    factor: float


REFRIGERANT = ("undercharge", "overcharge")
DUCTS = ("supply_leak", "disconnected_run", "return_leak", "missing_duct_insulation")
CUES = (
    Cue(r"filter", ("loaded_filter", "open_filter_slot"), 2.0),
    Cue(
        r"(less|not much|hardly any|weak(er)?|no) air|hardly blow|barely blow",
        ("loaded_filter", "dirty_indoor_coil", "weak_blower", "restricted_return_duct",
         "restricted_supply_duct", "iced_indoor_coil", "closed_registers"),
        2.5,
    ),
    Cue(r"\b(attic|crawl|wall|plumber|duct|ceiling|drywall)", DUCTS, 1.8),
    Cue(r"stuff|dust|smell|damp|clammy|sticky|humid", ("return_leak", "open_filter_slot"), 1.7),
    Cue(r"(one|back|far|end|last) (bed)?rooms?|that room|upstairs",
        ("disconnected_run", "supply_leak", "stuck_zone_damper", "closed_registers"), 1.8),
    Cue(r"hedge|lint|dryer|fence|cottonwood|leaves|mulch", ("dirty_outdoor_coil",), 3.0),
    Cue(r"(stops|gives up|trips|cuts out)[^.]*(hot|three|afternoon)|hot(test)? days",
        ("dirty_outdoor_coil", "slow_outdoor_fan", "overcharge", "non_condensables",
         "weak_run_capacitor", "loose_lug"), 1.6),
    Cue(r"hum(s|med|ming)? |click|starts? (hard|slow)|dims?|flicker",
        ("weak_run_capacitor", "loose_lug", "low_voltage"), 2.5),
    Cue(r"block of ice|ices? up|steam", ("no_defrost",), 3.0),
    Cue(r"\bice\b|frozen pipe on", ("iced_indoor_coil", "undercharge", "loaded_filter"), 1.3),
    Cue(r"breaker|no heat|heat failed|warm smell|burn", ("strips_on", "open_strip_element"), 2.5),
    Cue(r"new (thermostat|stat)|thermostat (was )?(new|changed|replaced)",
        ("misplaced_staging", "thermostat_offset", "cold_thermostat", "fan_always_on",
         "stuck_reversing_valve"), 3.0),
    Cue(r"added? |topped|put in|gas was|ounces|more gas",
        ("overcharge", "non_condensables"), 1.8),
    Cue(r"weighed in to the plate|without loss|no leak found", REFRIGERANT, 0.4),
    Cue(r"compressor (was |is )?(new|replaced|changed)|opened the (circuit|system)",
        ("non_condensables", "wrong_refrigerant", "overcharge", "undercharge",
         "liquid_line_restriction"), 2.0),
    Cue(r"new coil|coil (was )?(changed|replaced)",
        ("undersized_orifice", "oversized_orifice", "undercharge"), 2.5),
    Cue(r"water (on|under|over)|drain|wet floor|drip", ("blocked_drain",), 4.0),
    Cue(r"guests|new (glass|roof|windows|kitchen)|sun ?room|extension|more people|computers",
        ("heavy_load",), 2.5),
    Cue(r"fan (always|never stops|runs all)", ("fan_always_on",), 3.0),
    Cue(r"never started|nothing is wrong|cools when i ask", ("no_fault",), 4.0),
)  # fmt: skip


@lru_cache(maxsize=256)
def factors(told: tuple[str, ...]) -> Mapping[str, float]:
    """What the sayings together do to each cause; a cue counts once however often it falls.

    Parameters
    ----------
    told : tuple
        Complaint, history and answers.

    Returns
    -------
    dict
        By cause; causes that nothing bears on are left out. [-]
    """
    whole = " ".join(told).lower()
    found: dict[str, float] = {}
    for cue in CUES:
        if re.search(cue.pattern, whole):
            for cause in cue.causes:
                found[cause] = found.get(cause, 1.0) * cue.factor
    for cause, factor in bill_factors(whole).items():
        found[cause] = found.get(cause, 1.0) * factor
    return {cause: min(max(factor, 0.2), 6.0) for cause, factor in found.items()}


def bill_factors(told: str) -> Mapping[str, float]:
    """What two bills of the same month say about there being anything at all.

    Parameters
    ----------
    told : str
        With two figures in kWh, last year's first.

    Returns
    -------
    mapping
        For no fault. [-]
    """
    used = [float(x.replace(",", "")) for x in re.findall(r"([\d,]+(?:\.\d+)?) kwh", told)]
    if len(used) < 2 or used[0] <= 0.0:
        return {}
    grown = used[1] / used[0]
    if grown < SAME_BILL:
        return {"no_fault": 4.0}
    return {"no_fault": 0.25} if grown > GROWN_BILL else {}
