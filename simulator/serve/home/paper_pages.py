"""Pages for paper that anyone may print: a blank sheet, and one's own completion record."""

import hashlib
import json
from typing import Any

from tornado.web import HTTPError

from simulator.calls import call_file
from simulator.calls.call_table import CallFileError
from simulator.calls.event_storage import kind, payload
from simulator.calls.visit import fold
from simulator.instruments.formulas import formulas
from simulator.instruments.measurements import MEASUREMENTS
from simulator.quantities.kinds import KINDS
from simulator.records.visit_records import RecordsError
from simulator.scoring.debrief import what_you_found
from simulator.serve.classes.dealing import worked
from simulator.serve.classes.files import overrides
from simulator.serve.classes.rules import HELD, is_held
from simulator.serve.instructor import class_board
from simulator.serve.kernels.session import is_token
from simulator.serve.visits import grading, visits
from simulator.serve.visits.closed_visits import closed_card
from simulator.serve.web.handlers import OwnPage

GROUPS = ("house", "air", "static", "low side", "high side", "electrical")
FINGERPRINT = 16  # signs of a SHA-256 that stand on paper


class Worksheet(OwnPage):
    """A blank reading sheet."""

    def get(self) -> None:
        """Show it."""
        numbered = [item for item in MEASUREMENTS.values() if item.way == "measure"]
        groups = [
            (
                group.capitalize(),
                [
                    {"name": item.name, "unit": KINDS[item.kind].us.unit}
                    for item in numbered
                    if item.group == group
                ],
            )
            for group in GROUPS
        ]
        rules = {rule.name: rule.words for rule in formulas("R-410A", "orifice")}
        self.finish(self.rendered("worksheet.html", groups=groups, formulas=list(rules.items())))


class Record(OwnPage):
    """What a closed visit of this browser was worth, to print or to keep."""

    async def get(self) -> None:
        """Show it, once its points are worked out.

        Raises
        ------
        HTTPError
            404 for a visit that is another's, open, or not there.
        """
        token = self.get_query_argument("visit", "")
        if not is_token(token):
            raise HTTPError(404)
        try:
            found = record_of(token, self.trainee())
        except (RecordsError, CallFileError) as problem:
            raise HTTPError(404) from problem
        if found is None:
            raise HTTPError(404)
        self.set_header("Cache-Control", "no-store")
        if is_held(token):
            self.finish(self.rendered("problem.html", title=found["title"], advice=HELD))
            return
        if not found["is_final"]:
            await grading.worked_out([token])
            found = record_of(token, self.trainee())
            if found is None:
                raise HTTPError(404)
        self.finish(self.rendered("record.html", **found))


def record_of(token: str, trainee: str) -> dict[str, Any] | None:
    """A closed visit as its record tells it.

    Parameters
    ----------
    token : str
        Of the visit.
    trainee : str
        Who asks.

    Returns
    -------
    dict or None
        None where the visit is another's or still open.
    """
    record = visits.records().record(token)
    card = closed_card(token)
    if card is None or record.trainee != trainee:
        return None
    events = visits.records().events(token)
    visit = fold(events)
    order = call_file.load(worked(record))
    return {
        "title": order.title,
        "customer": order.customer,
        "number": record.number,
        "name": class_board.name_at(token, trainee),
        "points": f"{card.total:g}",
        "overrides": overrides().of(token),
        "minutes": round(visit.minute),
        "day": visits.records().last_day(token),
        "parts": [part for part in card.parts if part.of],
        "is_capped": card.is_capped,
        "is_final": card.is_final,
        "finding": what_you_found(visit),
        "version": record.engine_version,
        "rubric": card.version,
        "fingerprint": fingerprint(
            [[event.seq, kind(event), event.minute, payload(event)] for event in events]
        ),
    }


def fingerprint(entries: list[list[Any]]) -> str:
    """A short mark that changes with any entry.

    Parameters
    ----------
    entries : list
        Plain data, in order.

    Returns
    -------
    str
        The beginning of a SHA-256, in fours.
    """
    text = json.dumps(entries, ensure_ascii=False, sort_keys=True, allow_nan=False)
    mark = hashlib.sha256(text.encode()).hexdigest()[:FINGERPRINT]
    return " ".join(mark[start : start + 4] for start in range(0, FINGERPRINT, 4))
