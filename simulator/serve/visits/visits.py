"""Visits from the outside: opened, worked, taken up again, debriefed."""

import secrets
import time
from functools import lru_cache
from typing import Any

from simulator.calls import call_file, events, versions
from simulator.calls.call_table import CallFileError
from simulator.calls.decide import Refused, decide
from simulator.calls.sealed import sealed
from simulator.calls.site import Site
from simulator.calls.view import view
from simulator.calls.visit import advanced, fold
from simulator.diagnosis.causes import causes, codes
from simulator.quantities.entered import BadEntry
from simulator.quantities.shown import SYSTEMS
from simulator.records.class_visits import Standing
from simulator.records.visit_records import MovedOn, RecordsError, VisitRecord, VisitRecords
from simulator.serve.classes.dealing import worked
from simulator.serve.classes.files import class_visits, dealt_versions
from simulator.serve.classes.rules import coach_refusal, refusal, terms, too_long
from simulator.serve.paths import RECORDS_FILE, data_directory
from simulator.serve.visits import coaching, wire
from simulator.serve.visits.closed_desk import ClosedDesk
from simulator.serve.visits.engine_version import engine_version


@lru_cache(maxsize=1)
def records() -> VisitRecords:
    """The records of this installation.

    Returns
    -------
    VisitRecords
        One connection pool a process.
    """
    return VisitRecords(data_directory() / RECORDS_FILE)


def list_calls() -> list[dict[str, Any]]:
    """All calls that can be taken; a damaged one is left out.

    Returns
    -------
    list
        For the home page, the easiest first.
    """
    found = []
    for name in call_file.names():
        try:
            call, hours = call_file.load(name), sealed(name).about_hours()
        except CallFileError:
            continue
        found.append(
            {
                **{"id": name, "title": call.title, "customer": call.customer},
                **{"complaint": call.complaint, "level": call.level, "mode": call.mode},
                "about": f"about {hours:g} h",
            }
        )
    return sorted(found, key=lambda call: call["level"])


def start_visit(call_id: str, trainee: str, version: int = 0) -> str:
    """Open a visit.

    Parameters
    ----------
    call_id : str
        Which call.
    trainee : str
        The browser's own name.
    version : int
        Of the call; 0 for the call itself. [-]

    Returns
    -------
    str
        Token for the page's address.

    Raises
    ------
    CallFileError
        If there is no such call.
    """
    call = call_file.load(versions.named(call_id, version))
    token = secrets.token_urlsafe(16)
    record = VisitRecord(
        token=token,
        number="",
        call=call_id,
        seed=secrets.randbits(120),
        trainee=trainee,
        is_served=True,
        engine_version=engine_version(),
    )
    arrived = events.Opened(seq=0, minute=0.0, is_running=call.is_running)
    records().add(record, arrived, opened_at=time.time())
    dealt_versions().note(token, version)
    return token


def open_visits(trainee: str) -> list[dict[str, Any]]:
    """All visits of one browser.

    Parameters
    ----------
    trainee : str
        The browser's own name.

    Returns
    -------
    list
        Newest first.
    """
    found = []
    for record in records().of_trainee(trainee):
        try:
            visit = fold(records().events(record.token))
            title = call_file.load(record.call).title
        except (RecordsError, CallFileError):
            continue
        found.append(
            {
                "token": record.token,
                "number": record.number,
                "title": title,
                "phase": "closed" if visit.is_closed else "open",
                "minutes": round(visit.minute),
            }
        )
    return found


def open_desk(token: str) -> "CallDesk":
    """Take up a visit where it stands.

    Parameters
    ----------
    token : str
        From the page's address.

    Returns
    -------
    CallDesk

    Raises
    ------
    RecordsError, CallFileError
        In one sentence.
    """
    return CallDesk(records().record(token))


class CallDesk(ClosedDesk):
    """One visit being worked.

    Parameters
    ----------
    record : VisitRecord
        As stored.
    """

    def __init__(self, record: VisitRecord) -> None:
        name = worked(record)
        site = Site(call_file.load(name), sealed(name), record.seed)
        super().__init__(record, site, fold(records().events(record.token)))
        self._coach = coaching.Coach(site.call)

    def view(self, system: str) -> dict[str, Any]:
        """Everything the call page shows.

        Parameters
        ----------
        system : str
            Units, ``us`` or ``si``.

        Returns
        -------
        dict
            Plain data.
        """
        return self._view(system, class_visits().standing(self._record.token))

    def act(self, message: dict[str, Any]) -> dict[str, Any]:
        """Do what a message asks; it is stored before this returns.

        Parameters
        ----------
        message : dict
            From the browser; anything at all.

        Returns
        -------
        dict
            ``view``, and ``problem`` where it could not be done; ``coach`` or ``terms`` where
            that was asked.
        """
        do = message.get("do")
        units = message.get("system") if do == "units" else message.get("units")
        system = str(units) if units in SYSTEMS else "us"
        asked = class_visits().standing(self._record.token)  # once an act
        if do == "terms":
            return {"terms": terms(asked, self._visit.minute), "is_paused": asked.is_frozen}
        if do == "coach":
            return self._asked_coach(message.get("seen"), system, asked)
        problem = None
        if do not in ("look_around", "units"):
            problem = refusal(asked, self._visit.minute, do) or self._done(message, system, asked)
        told = {"view": self._view(system, asked)}
        return told if problem is None else {"problem": problem, **told}

    def _done(self, message: dict[str, Any], system: str, asked: Standing) -> str | None:
        """Do and store it, or say why not."""
        try:
            wanted = wire.action(message, system)
            added = decide(self._visit, wanted, site=self._site, causes=codes())
        except (Refused, BadEntry) as problem:
            return str(problem)
        now, end = self._visit.minute, added[-1].minute
        return too_long(asked, now, end, message.get("do")) or self._kept(added)

    def _kept(self, added: list[events.Event]) -> str | None:
        """Store it, or say why not."""
        try:
            records().append(self._record.token, added)
        except RecordsError as problem:
            if isinstance(problem, MovedOn):
                self._visit = fold(records().events(self._record.token))
            return str(problem)
        for event in added:
            self._visit = advanced(self._visit, event)
        return None

    def _asked_coach(self, seen: object, system: str, asked: Standing) -> dict[str, Any]:
        """The next hint, stored before it is told."""
        if (no := coach_refusal(asked, self._visit)) is not None:
            return {"problem": no}
        told = self._coach.asked(self._visit, seen)
        if told is not None and told.is_new:
            no = self._kept([coaching.event(told, self._visit)])
        return {"problem": no} if no else coaching.answer(told, asked, self._visit, system)

    def _view(self, system: str, asked: Standing) -> dict[str, Any]:
        told = view(
            self._visit,
            number=self._record.number,
            site=self._site,
            causes=causes(),
            system=system,
        )
        return {
            **told,
            "terms": terms(asked, self._visit.minute),
            "in_class": asked.is_in_class,
            "is_paused": asked.is_frozen,
            "coach": coaching.coached(asked, self._visit, system),
        }
