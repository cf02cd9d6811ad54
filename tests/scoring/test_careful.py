"""The path that is shown to learners keeps to what the page says of safety."""

import numpy as np
import pytest

from simulator.calls import call_file
from simulator.calls.events import Event, Measured
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import Visit, advanced
from simulator.diagnosis.playing import played
from simulator.diagnosis.trainees import reference
from simulator.instruments.measurements import MEASUREMENTS
from simulator.instruments.special_measurements import OFF
from simulator.scoring.careful import LOCK_OUT_AT, carefully

SEED = 20
HANDS_IN = [name for name, item in MEASUREMENTS.items() if item.caution == OFF]


def site_of(call: str) -> Site:
    """The same unit and tools for both players."""
    return Site(call_file.load(call), sealed(call), SEED)


def careless(visit: Visit) -> list[Event]:
    """Looks with hands among live or moving parts."""
    found, then = [], Visit()
    for event in visit.events:
        if isinstance(event, Measured) and event.reading.measurement in HANDS_IN:
            lock_out = LOCK_OUT_AT[MEASUREMENTS[event.reading.measurement].place]
            if then.is_running or lock_out not in then.prepared:
                found.append(event)
        then = advanced(then, event)
    return found


def test_each_look_that_asks_for_power_off_has_its_lock_out() -> None:
    assert "look_indoor_coil" in HANDS_IN
    assert {MEASUREMENTS[name].place for name in HANDS_IN} <= set(LOCK_OUT_AT)


@pytest.mark.parametrize("call", ["achterberg", "mallorn"])
def test_hands_go_in_with_the_power_off(call: str) -> None:
    site = site_of(call)
    shown = played(site, carefully, np.random.default_rng(0))
    assert careless(shown) == []
    assert shown.finding is not None
    assert set(shown.finding.causes) == set(sealed(call).opened().causes)


def test_the_trainee_it_comes_from_does_look_while_it_runs() -> None:
    """Else nothing above were shown; the simulated trainee, and so its scores, stay as they are."""
    assert careless(played(site_of("achterberg"), reference, np.random.default_rng(0)))
