"""The rubric's evidence, efficiency and re-test, on visits and belief made by hand.

Bands of 0.5, 1 and 1.5, the shares of luck and bad luck, and regret of 0.2 and 0.7 are the
rubric's own; so is the 3 K between two readings of a pair.
"""

from dataclasses import replace

import pytest

from simulator.calls import call_file
from simulator.calls.choice import NO_FAULT
from simulator.calls.events import Closed, Declared, Measured, Prepared, WrittenUp
from simulator.calls.sealed import Key, sealed
from simulator.calls.visit import fold
from simulator.faults._catalogue import discover
from simulator.instruments.validity import AIRFLOW_PROOF, HOOD
from simulator.repairs import _catalogue as repairs
from simulator.scoring.economy import FEW
from simulator.scoring.grounds import Choice, Grounds
from simulator.scoring.part import Part
from simulator.scoring.scorecard import score
from simulator.scoring.truth import shares
from tests.scoring.made import believing, likelier, measured, sizes_of, visit_of

EVERY = pytest.mark.parametrize("call", call_file.names())
NOTHING = frozenset({NO_FAULT})
FOUND = ("Evidence", "Diagnosis")  # 35 points together


def key_for(*causes: str) -> Key:
    """The capstone's key with other causes in it, each as large a share."""
    key = sealed("mallorn").opened()
    return replace(
        key,
        causes={cause: 1.0 / len(causes) for cause in causes},
        repairs={cause: discover()[cause].repairs for cause in causes},
        proof={cause: ("liquid_pressure",) for cause in causes},
        hazards=(),
    )


def part(name: str, visit: object, key: Key, grounds: Grounds) -> Part:
    """One part of the scorecard."""
    card = score(visit.events, key, grounds)  # type: ignore[attr-defined]
    return next(part for part in card.parts if part.name == name)


def share(visit: object, key: Key, grounds: Grounds) -> float:
    """Of the points for evidence and finding together."""
    parts = [part(name, visit, key, grounds) for name in FOUND]
    return sum(one.points for one in parts) / sum(one.of for one in parts)


@EVERY
@pytest.mark.parametrize("odds", [-1.0, 0.0, 0.49, 0.51, 0.99])
def test_a_lucky_right_answer_keeps_two_fifths_at_most(call: str, odds: float) -> None:
    key = sealed(call).opened()
    true = frozenset(shares(key))
    rival = NOTHING if true != NOTHING else frozenset({"undercharge"})
    visit = visit_of(true, sizes=sizes_of(key))
    assert 0.0 < share(visit, key, believing(visit, likelier(true, odds, rival))) <= 0.4


@EVERY
def test_a_right_answer_that_was_carried_has_all(call: str) -> None:
    key = sealed(call).opened()
    true = frozenset(shares(key))
    rival = NOTHING if true != NOTHING else frozenset({"undercharge"})
    visit = visit_of(true, sizes=sizes_of(key))
    assert share(visit, key, believing(visit, likelier(true, 1.6, rival))) == pytest.approx(1.0)


@EVERY
def test_a_wrong_answer_that_the_readings_spoke_for_keeps_most(call: str) -> None:
    key = sealed(call).opened()
    true = frozenset(shares(key))
    wrong = frozenset({"slow_outdoor_fan"})
    visit = visit_of(wrong)
    assert 0.6 <= share(visit, key, believing(visit, likelier(wrong, 1.6, true))) <= 0.7


@EVERY
def test_a_wrong_answer_that_nothing_spoke_for_has_nothing(call: str) -> None:
    true = frozenset(shares(sealed(call).opened()))
    wrong, other = frozenset({"slow_outdoor_fan"}), frozenset({"low_voltage"})
    visit = visit_of(wrong)
    told = {wrong: 0.1, other: 0.6, true: 0.3}
    assert share(visit, sealed(call).opened(), believing(visit, told)) == 0.0


def test_evidence_that_was_gathered_and_not_read_keeps_two_fifths_of_its_part() -> None:
    key, true = key_for("loaded_filter"), frozenset({"loaded_filter"})
    visit = visit_of({"slow_outdoor_fan"})
    known = believing(visit, likelier(true, 1.6, frozenset({"slow_outdoor_fan"})))
    assert part("Evidence", visit, key, known).points == pytest.approx(8.0)
    assert part("Diagnosis", visit, key, known).points == 0.0


@pytest.mark.parametrize(
    ("cause", "odds", "is_enough"),
    [
        ("loaded_filter", 1.05, True),
        ("undercharge", 1.05, False),  # its repair opens the circuit
        ("undercharge", 1.5, True),
    ],
)
def test_a_costly_repair_asks_for_thirty_to_one(cause: str, odds: float, is_enough: bool) -> None:
    key, visit = key_for(cause), visit_of({cause})
    known = believing(visit, likelier(frozenset({cause}), odds, NOTHING))
    assert (share(visit, key, known) == pytest.approx(1.0)) is is_enough


def test_each_repair_says_whether_it_is_costly() -> None:
    for code, kind in repairs.discover().items():
        assert "is_costly" in vars(kind), code
        assert kind.is_costly or not kind.disturbs_charge, code
        # Two and a half hours; the project's own limit.
        assert kind.is_costly or kind.minutes <= 150.0, code


def test_what_is_cited_must_show_it() -> None:
    key, visit = key_for("loaded_filter"), visit_of({"loaded_filter"})
    sure = believing(visit, {frozenset({"loaded_filter"}): 1.0})
    silent = [
        replace(event, cited=()) if event is visit.finding else event for event in visit.events
    ]
    card = {p.name: p for p in score(silent, key, sure).parts}
    assert card["Evidence"].points == 0.0
    assert card["Evidence"].because[0].text.startswith("A guess")
    assert card["Evidence"].because[0].seq == visit.finding.seq  # type: ignore[union-attr]
    assert card["Diagnosis"].points == pytest.approx(6.0)


def test_one_of_two_that_is_carried_earns_its_share() -> None:
    key = key_for("loaded_filter", "low_voltage")
    visit = visit_of({"loaded_filter"})
    both, one = frozenset({"loaded_filter", "low_voltage"}), frozenset({"loaded_filter"})
    known = believing(visit, {both: 0.5, one: 0.49, NOTHING: 0.01})
    assert share(visit, key, known) == pytest.approx(0.5)


def test_half_of_what_was_true_that_alone_led_every_rival_is_told_as_carried() -> None:
    """Exactly that 12 to 1 before its best rival, there 4 to 1: one verdict, not two."""
    key, one = key_for("loaded_filter", "low_voltage"), frozenset({"loaded_filter"})
    visit = visit_of(one)
    many = ("dirty_indoor_coil", "weak_blower", "return_leak")
    known = believing(visit, {one: 0.8, **{frozenset({c}): 0.2 / 3.0 for c in many}})
    told = part("Evidence", visit, key, known)
    assert told.points == pytest.approx(13.0)
    texts = " ".join(why.text for why in told.because)
    assert "suspicion" not in texts
    assert "There was more than you stated" in texts


@pytest.mark.parametrize(
    ("regret", "points"), [(0.0, 10.0), (0.2, 10.0), (0.45, 5.0), (0.7, 0.0), (1.0, 0.0)]
)
def test_regret_up_to_a_fifth_costs_nothing_and_from_seven_tenths_all(
    regret: float, points: float
) -> None:
    key, visit = key_for("loaded_filter"), visit_of({"loaded_filter"})
    chosen = tuple(
        Choice(event=measured(n, "voltage", 1.0), regret=regret, best="look_filter")
        for n in range(FEW)
    )
    sure = believing(visit, {frozenset({"loaded_filter"}): 1.0}, choices=chosen)
    assert part("Efficiency", visit, key, sure).points == pytest.approx(points)


def test_what_is_required_never_counts_against_anybody() -> None:
    key, visit = key_for("loaded_filter"), visit_of({"loaded_filter"})
    needed = ("coil_airflow", "outdoor_temperature", "liquid_pressure")  # the last one: its proof
    chosen = tuple(
        Choice(event=measured(n, name, 1.0), regret=1.0, best="look_filter")
        for n, name in enumerate(needed * 3)
    )
    sure = believing(visit, {frozenset({"loaded_filter"}): 1.0}, choices=chosen)
    assert part("Efficiency", visit, key, sure).points == pytest.approx(10.0)


@pytest.mark.parametrize(("warmer", "points"), [(0.0, 7.0), (2.9, 7.0), (3.1, 0.0), (-3.1, 0.0)])
def test_a_pair_needs_weather_that_is_alike(warmer: float, points: float) -> None:
    key = key_for("undercharge")
    visit = visit_of({"undercharge"}, repair="weigh_in_charge", again=["liquid_pressure"])
    known = believing(visit, {frozenset({"undercharge"}): 1.0}, warmer=warmer)
    proven = part("Re-test", visit, key, known)
    assert proven.points == pytest.approx(points)
    assert points or "weather" in proven.because[0].text


@pytest.mark.parametrize(("moved", "points"), [(0.0, 0.0), (2.5e5, 7.0), (-2.5e5, 7.0)])
def test_in_other_weather_what_the_weather_did_is_taken_off(moved: float, points: float) -> None:
    """Liquid pressure, in Pa: the weather alone raised it by 3 bar, the repair did the rest."""
    key = key_for("undercharge")
    visit = visit_of({"undercharge"}, repair="weigh_in_charge", again=["liquid_pressure"])
    known = believing(visit, {frozenset({"undercharge"}): 1.0}, warmer=8.0)
    taken = [e for e in visit.readings if e.reading.measurement == "liquid_pressure"]
    untouched = {taken[0].seq: 2.5e6, taken[-1].seq: 2.8e6}
    shown = {taken[0].seq: 2.51e6, taken[-1].seq: 2.81e6 + moved}
    events = [
        replace(e, reading=replace(e.reading, value=shown[e.seq])) if e in taken else e
        for e in visit.events
    ]
    proven = part("Re-test", fold(events), key, replace(known, untouched=untouched))
    assert proven.points == pytest.approx(points)
    assert "weather" in proven.because[0].text
    assert proven.because[0].seq == taken[-1].seq


def test_what_was_not_mended_is_proven_by_no_pair() -> None:
    """A number read twice round the wrong repair shows the fault twice."""
    visit = visit_of({"undercharge"}, repair="replace_filter", again=["liquid_pressure"])
    known = believing(visit, {frozenset({"undercharge"}): 1.0})
    proven = part("Re-test", visit, key_for("undercharge"), known)
    assert proven.points == 0.0
    assert proven.because[0].text.startswith("Not mended")


@pytest.mark.parametrize(
    ("cause", "repair", "odds", "lost"),
    [
        ("dirty_indoor_coil", "clean_indoor_coil", 1.1, 0.0),
        ("dirty_indoor_coil", "clean_indoor_coil", 0.9, 4.0),
        ("loaded_filter", "replace_filter", 0.9, 1.0),  # minutes and a filter
    ],
)
def test_a_right_repair_on_no_proof_costs(
    cause: str, repair: str, odds: float, lost: float
) -> None:
    """Weights of the rubric: an unproven part 4, a cheap one its little."""
    visit, minutes = visit_of({cause}, repair=repair), repairs.discover()[repair].minutes
    events = [replace(e, minutes=minutes) if e in visit.repairs else e for e in visit.events]
    known = believing(visit, likelier(frozenset({cause}), odds, NOTHING))
    mended = part("Repair and no harm", fold(events), key_for(cause), known)
    assert mended.points == pytest.approx(8.0 - lost)
    assert all(why.seq is not None for why in mended.because)


@pytest.mark.parametrize(("air", "lost"), [(True, 0.0), (False, 6.0)])
def test_gas_before_the_air_is_proven_costs_though_it_was_missing(air: bool, lost: float) -> None:
    visit = visit_of({"undercharge"}, repair="weigh_in_charge")
    proof = (*AIRFLOW_PROOF, HOOD)
    events = [
        e
        for e in visit.events
        if air or not isinstance(e, Measured) or e.reading.measurement not in proof
    ]
    if air and not any(e.reading.measurement in proof for e in visit.readings):
        events[1] = replace(measured(1, AIRFLOW_PROOF[0], 5.0), seq=1)
    known = believing(visit, {frozenset({"undercharge"}): 1.0})
    mended = part("Repair and no harm", fold(events), key_for("undercharge"), known)
    assert mended.points == pytest.approx(8.0 - lost)


@pytest.mark.parametrize("looked", [True, False])
def test_work_in_a_space_nobody_looked_into_caps_the_whole(looked: bool) -> None:
    """The attic of the capstone: there to measure, no repair done."""
    key = sealed("mallorn").opened()
    steps = [Prepared(seq=1, minute=3.0, step="hazard_look_zone")] if looked else []
    visit = visit_of({"loaded_filter"})
    events = [
        visit.events[0],
        *steps,
        measured(2, "look_ducts", 6.0),
        Declared(seq=3, minute=6.0, causes=("loaded_filter",), cited=()),
        Closed(seq=4, minute=7.0),
    ]
    card = score(events, key, believing(visit, {NOTHING: 1.0}))
    assert card.is_capped is not looked
    limits = [why.seq for one in card.parts if one.name == "Limit" for why in one.because]
    assert limits == ([] if looked else [2])


def test_what_the_weather_does_not_move_may_be_paired_in_any() -> None:
    key = replace(key_for("loaded_filter"), proof={"loaded_filter": ("static_after_filter",)})
    again = ["static_after_filter"]
    visit = visit_of({"loaded_filter"}, repair="replace_filter", again=again)
    known = believing(visit, {frozenset({"loaded_filter"}): 1.0}, warmer=8.0)
    assert part("Re-test", visit, key, known).points == pytest.approx(7.0)


@pytest.mark.parametrize(
    ("proof", "settled", "counts"),
    [
        ("static_after_filter", 2.0, True),
        ("coil_airflow", 12.0, True),
        ("static_after_filter", 1.0, False),
        ("return_dry_bulb", 12.0, False),
        ("return_dry_bulb", 15.0, True),
    ],
)
def test_a_re_test_waits_as_long_as_what_it_measures(
    proof: str, settled: float, counts: bool
) -> None:
    """Air follows the blower at once; 15 minutes for the rest, California Title 24 RA3.2."""
    key = replace(key_for("loaded_filter"), proof={"loaded_filter": (proof,)})
    visit = visit_of({"loaded_filter"}, repair="replace_filter", again=[proof])
    first = replace(visit.events[1], reading=measured(1, proof, 5.0).reading)
    events = [replace(e, settled=settled) if e.seq == len(visit.events) - 2 else e
              for e in (visit.events[0], first, *visit.events[2:])]  # fmt: skip
    known = believing(visit, {frozenset({"loaded_filter"}): 1.0})
    assert part("Re-test", fold(events), key, known).points == pytest.approx(7.0 * counts)


def test_without_odds_the_parts_that_need_them_stay_open() -> None:
    visit = visit_of({"loaded_filter"})
    card = score(visit.events, key_for("loaded_filter"))
    assert not card.is_final
    assert {part.name for part in card.parts if part.is_open} == {
        "Evidence",
        "Efficiency",
        "Diagnosis",
    }


LONG = "The filter was loaded and is new; static fell from 0.92 to 0.55. " * 3


@pytest.mark.parametrize(
    ("added", "lost"),
    [
        ("", 0.0),
        ("I guarantee that your bill falls by half.", 2.0),
        ("It will never fail, and that once and for all.", 2.0),
        ("Le garantizo que no volverá a fallar.", 2.0),
        ("I cannot promise how far the bill falls; 5 to 15 % is likely.", 0.0),
        ("We never promise savings. Nothing is guaranteed.", 0.0),
        ("No le puedo prometer cuánto bajará; nada está garantizado.", 0.0),
        ("The compressor is under guarantee until May.", 0.0),
    ],
)
def test_a_record_that_promises_too_much_loses_two_points(added: str, lost: float) -> None:
    """Weight of the trade's rubric; what is denied is no promise."""
    visit = visit_of({"loaded_filter"})
    said = WrittenUp(seq=len(visit.events), minute=200.0, text=f"{LONG}{added}")
    known = believing(visit, {NOTHING: 1.0})
    record = part("Customer and record", fold([*visit.events, said]), key_for(), known)
    assert record.points == pytest.approx(5.0 - lost)
    assert {why.seq for why in record.because} == {said.seq}
