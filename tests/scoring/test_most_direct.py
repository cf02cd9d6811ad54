"""What would have told most is said as it was: before the repair, only after it, or never.

No outside source: whether and when a reading was taken stands in the visit itself.
"""

import pytest

from simulator.calls import call_file
from simulator.calls.events import Closed, Event, Opened, Repaired
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.visit import fold
from simulator.diagnosis.evidence import weights
from simulator.scoring.most_direct import turning_point
from tests.scoring.made import measured

MOST = max(weights()["return_leak"], key=lambda name: weights()["return_leak"][name])


@pytest.mark.parametrize(
    ("order", "begins"),
    [
        ("mr", "At minute 30: "),
        ("rm", "It was taken only after the repair, at minute 60: "),
        ("r", "It was not taken: "),
        ("mrm", "At minute 30: "),
    ],
)
def test_it_is_told_when_it_was_taken(order: str, begins: str) -> None:
    events: list[Event] = [Opened(seq=0, minute=0.0, is_running=True)]
    for letter in order:
        seq, minute = len(events), 30.0 * len(events)
        if letter == "m":
            events.append(measured(seq, MOST, minute))
        else:
            events.append(
                Repaired(seq=seq, minute=minute, repair="seal_return", amount=None, minutes=30.0)
            )
    events.append(Closed(seq=len(events), minute=200.0))
    site = Site(call_file.load("lundgaard"), sealed("lundgaard"), 5)
    told = turning_point(fold(events), {"return_leak"}, {"seal_return"}, site)
    assert told.startswith(begins)
