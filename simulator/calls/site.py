"""The site of a visit: what stands there, what it is doing, what a tool shows of it."""

from dataclasses import dataclass, field, replace

import numpy as np

from simulator.calls.call_file import CallFile
from simulator.calls.events import Started, Stopped
from simulator.calls.sealed import Sealed
from simulator.calls.sound_units import sound_unit
from simulator.calls.traces import FILTER_OUT, acts_along, traced
from simulator.calls.visit import Visit
from simulator.instruments.reading import Reading
from simulator.instruments.session import HOSES, Session
from simulator.instruments.take import Hands, take
from simulator.instruments.validity import charge_test_problems
from simulator.plant import energy, standing, timeline
from simulator.plant.conditions import Conditions
from simulator.plant.installation import Installation
from simulator.plant.operating_point import OperatingPoint
from simulator.plant.timeline import Moment
from simulator.repairs import _catalogue as repairs

# No two units leave the works or the installer's hands alike.
CHARGE_SCATTER = 0.02  # either way [-]
AIRFLOW_SCATTER = 0.03  # either way [-]
SETTLED = 3600.0  # nothing changes any more after this [s]
KEPT = 16  # solved states: a visit looks at now, before and healthy, over and over [-]
CHARGE_PRESSURES = ("suction_pressure", "liquid_pressure")

LYING_BESIDE = ("look_filter", FILTER_OUT)

Acts = tuple[tuple[str, float | None], ...]


def acts_of(visit: Visit) -> Acts:
    """The repairs of a visit and what carelessness left, as a site needs them.

    Parameters
    ----------
    visit : Visit

    Returns
    -------
    tuple
        Code and amount, oldest first.
    """
    return acts_along(visit.events)


@dataclass(slots=True, eq=False, repr=False)
class Site:
    """One site with its sealed truth. What it has solved it keeps, and nothing else.

    Parameters
    ----------
    call : CallFile
        The public part.
    key : Sealed
        The rest.
    seed : int
        Of the visit's chance.
    """

    call: CallFile
    key: Sealed
    seed: int
    _solved: dict[tuple[object, ...], OperatingPoint] = field(default_factory=dict, init=False)
    _standing: dict[Acts, Installation] = field(default_factory=dict, init=False)
    _sound: Installation | None = field(default=None, init=False)

    def _chance(self, *branch: int) -> np.random.Generator:
        """A generator that depends on what it is for, not on what was drawn before."""
        return np.random.default_rng(np.random.SeedSequence(self.seed, spawn_key=branch))

    def healthy(self) -> Installation:
        """The very unit without anything wrong.

        Returns
        -------
        Installation
            With the scatter every unit has.
        """
        if self._sound is None:
            self._sound = self._scattered()
        return self._sound

    def _scattered(self) -> Installation:
        """A unit as it left the works and the installer's hands."""
        call = self.call
        fresh = sound_unit(call.unit, call.metering, call.house)
        charge, airflow = self._chance(0).uniform(-1.0, 1.0, size=2)
        unit, blower = fresh.unit, fresh.unit.blower
        # Flow against a given duct goes with the root of the torque.
        torque = blower.set_torque * (1.0 + AIRFLOW_SCATTER * float(airflow)) ** 2
        return replace(
            fresh,
            unit=replace(
                unit,
                charge=unit.charge * (1.0 + CHARGE_SCATTER * float(charge)),
                blower=replace(blower, set_torque=torque),
            ),
        )

    def installation(self, acts: Acts = ()) -> Installation:
        """What stands there.

        Parameters
        ----------
        acts : tuple
            Repairs carried out so far, oldest first.

        Returns
        -------
        Installation
        """
        if acts not in self._standing:
            if not acts:
                made = self.healthy()
                for fault in self.key.opened().faults:
                    made = fault.applied_to(made)
            else:
                made = self._acted(*acts[-1], self.installation(acts[:-1]))
            self._standing[acts] = made
        return self._standing[acts]

    def _acted(self, code: str, amount: float | None, stood: Installation) -> Installation:
        made = traced(code, stood, Session.of_visit(self.seed).draws[HOSES])
        return repairs.discover()[code](amount or 0.0).applied_to(stood) if made is None else made

    def conditions(self, minute: float) -> Conditions:
        """Weather, rooms and supply; the rooms are held, a visit is short for them.

        Parameters
        ----------
        minute : float
            In minutes after arrival.

        Returns
        -------
        Conditions
        """
        call = self.call
        hour = np.asarray(call.arrival_hour + minute / 60.0)
        return Conditions(
            outdoor_temperature=float(energy.outdoor_temperature(call.weather, hour)),
            outdoor_humidity_ratio=call.weather.humidity_ratio,
            indoor_temperature=call.room_temperature,
            indoor_humidity_ratio=call.room_humidity_ratio,
            solar=float(energy.sun(call.weather, hour)),
            voltage=call.voltage,
            mode=call.mode,
        )

    def point(
        self, acts: Acts, minute: float, *, is_running: bool, seconds: float
    ) -> OperatingPoint:
        """What it is doing.

        Parameters
        ----------
        acts : tuple
            Repairs so far.
        minute : float
            In minutes after arrival.
        is_running : bool
            Whether it is called on.
        seconds : float
            Since the start or the last change of charge. [s]

        Returns
        -------
        OperatingPoint
        """
        settling = round(min(seconds, SETTLED)) if is_running else 0
        wanted = (acts, round(minute, 2), is_running, settling)
        if wanted not in self._solved:
            installation, conditions = self.installation(acts), self.conditions(minute)
            if len(self._solved) >= KEPT:
                del self._solved[next(iter(self._solved))]
            self._solved[wanted] = (
                timeline.quasi_steady(installation, conditions, float(settling))
                if is_running
                else standing.at_rest(installation, conditions)
            )
        return self._solved[wanted]

    def moment(self, visit: Visit, minute: float) -> Moment:
        """What surrounds a tool at one minute.

        Parameters
        ----------
        visit : Visit
            As it stands.
        minute : float
            At or after its last event, in minutes after arrival.

        Returns
        -------
        Moment
        """
        acts = acts_of(visit)
        settling = 60.0 * (minute - max(visit.switched_at, visit.charge_changed_at))
        now = self.point(acts, minute, is_running=visit.is_running, seconds=settling)
        seconds = 60.0 * (minute - visit.changed_at)
        if seconds >= SETTLED:
            return Moment(now=now, before=now, seconds=seconds)
        return Moment(now=now, before=self._before(visit), seconds=seconds)

    def _before(self, visit: Visit) -> OperatingPoint:
        """The state just before the last start, stop, repair or trace of carelessness."""
        acts, ran = acts_of(visit), visit.is_running
        for place in reversed(range(len(visit.events))):
            event = visit.events[place]
            if isinstance(event, Started | Stopped):
                ran = isinstance(event, Stopped)
                break
            if event.minute != visit.changed_at:
                continue
            if (earlier := acts_along(visit.events[:place])) != acts:
                acts = earlier
                break
        return self.point(acts, visit.changed_at, is_running=ran, seconds=SETTLED)

    def reading(self, visit: Visit, measurement: str, technique: str, minute: float) -> Reading:
        """What a tool shows.

        Parameters
        ----------
        visit : Visit
            As it stands.
        measurement, technique : str
            What is taken and how.
        minute : float
            When it is done, in minutes after arrival.

        Returns
        -------
        Reading
        """
        return take(
            measurement,
            technique,
            moment=self.moment(visit, minute),
            # A filter that stands beside its slot is looked at as it is.
            installation=self.installation(
                tuple(act for act in acts_of(visit) if (measurement, act[0]) != LYING_BESIDE)
            ),
            hands=Hands(
                prepared=visit.prepared,
                session=Session.of_visit(self.seed),
                texts=self.call.answers,
            ),
            chance=self._chance(2, visit.next_seq),
        )

    def charge_problems(self, visit: Visit, measurement: str, minute: float) -> tuple[str, ...]:
        """Why a charge test resting on this reading would not count.

        Parameters
        ----------
        visit : Visit
            As it stands.
        measurement : str
            What is taken.
        minute : float
            In minutes after arrival.

        Returns
        -------
        tuple
            One sentence each; empty for other readings.
        """
        if measurement not in CHARGE_PRESSURES:
            return ()
        acts = repairs.discover()
        opened = [event for event in visit.repairs if acts[event.repair].disturbs_charge]
        return tuple(
            charge_test_problems(
                [event.reading for event in visit.readings],
                rated_airflow=float(np.asarray(self.healthy().unit.rated_airflow)),
                seconds_since_start=(
                    60.0 * (minute - visit.switched_at) if visit.is_running else None
                ),
                seconds_since_charge=60.0 * (minute - opened[-1].minute) if opened else None,
            )
        )
