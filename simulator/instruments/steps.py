"""Preparations: what is done before a measurement, and what skipping it costs."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One preparation.

    Parameters
    ----------
    id : str
        On the wire.
    name : str
        For people.
    place : str
        Where it is done.
    minutes : float
        Site time it takes, in minutes.
    caution : str, optional
        One line.
    stands_for : str, optional
        The careful preparation that it takes the place of.
    """

    id: str
    name: str
    place: str
    minutes: float
    caution: str | None = None
    stands_for: str | None = None


LONG_HOSES = "connect_long_hoses"

STEPS: dict[str, Step] = {
    step.id: step
    for step in (
        Step(
            id="consent",
            name="Explain what you will do and where, ask about pets, children and medical needs",
            place="customer",
            minutes=2,
        ),
        Step(
            id="hazard_look_air_handler",
            name="Look for hazards: burn marks, gas smell, appliance flame, wet floor",
            place="air_handler",
            minutes=2,
            caution="A fuel-fired appliance beside a leaking return can spill exhaust gas: stop, "
            "ventilate and refer if in doubt.",
        ),
        Step(
            id="hazard_look_zone",
            name="Check the way in: footing, wiring, heat, vermin; tell someone",
            place="zone",
            minutes=2,
        ),
        Step(
            id="hazard_look_outdoor",
            name="Look for hazards: disconnect, wiring, refrigerant label, oil stains",
            place="outdoor_unit",
            minutes=2,
        ),
        Step(
            id="prove_meter",
            name="Prove the meter on a known source, put on protective gear",
            place="electrical_panel",
            minutes=2,
            caution="A dead meter reads the same as a dead circuit.",
        ),
        Step(
            id="drill_test_holes",
            name="Drill and plug four test holes, clear of coil, board and wiring",
            place="air_handler",
            minutes=6,
            caution="Know what is behind the sheet metal: a punctured coil vents refrigerant.",
        ),
        Step(
            id="drill_return_trunk",
            name="Drill and plug one test hole in the return trunk, in a straight run",
            place="air_handler",
            minutes=3,
            caution="Know what is behind the sheet metal or the lining.",
        ),
        Step(
            id="drill_supply_trunk",
            name="Drill and plug one test hole in the supply trunk, where the branches leave",
            place="zone",
            minutes=3,
            caution="Stand on joists, and know what is behind the sheet metal or the lining.",
        ),
        Step(id="zero_manometer", name="Zero the manometer", place="air_handler", minutes=1),
        Step(
            id="match_probes",
            name="Hold all temperature probes in the same air and note their differences",
            place="return_grille",
            minutes=3,
        ),
        Step(
            id="check_batteries",
            name="Check the meters' batteries and the dates of their calibration",
            place="return_grille",
            minutes=1,
        ),
        Step(
            id="isolate_unit",
            name="Pull the disconnect, lock it, prove it dead and discharge the capacitor",
            place="outdoor_unit",
            minutes=4,
            caution="A capacitor keeps its charge with the power off. Licensed practice and local "
            "code apply.",
        ),
        Step(
            id="lock_out_air_handler",
            name="Switch the air handler's breaker off, lock it, prove the terminals dead",
            place="air_handler",
            minutes=3,
            caution="The thermostat only takes the call away: strips and blower stay live.",
        ),
        Step(
            id="release_tracer",
            name="Release carbon dioxide into the rooms and stir the air",
            place="return_grille",
            minutes=4,
            caution="Keep it far below 5000 ppm, nobody asleep in the rooms; step out if dizzy.",
        ),
        Step(
            id="connect_gauges",
            name="Purge and connect the pressure probes",
            place="outdoor_unit",
            minutes=5,
            caution="Goggles and gloves: liquid refrigerant burns. Certified people only.",
        ),
        Step(
            id=LONG_HOSES,
            name="Connect a manifold with long hoses",
            place="outdoor_unit",
            minutes=3,
            caution="Goggles and gloves: liquid refrigerant burns. Certified people only.",
            stands_for="connect_gauges",
        ),
    )
}

# A lock-out holds from when it is put on until the system is started again.
LOCK_OUTS = frozenset({"isolate_unit", "lock_out_air_handler"})


def brought(step: str) -> frozenset[str]:
    """What counts as prepared once a step is done.

    Parameters
    ----------
    step : str
        Its id.

    Returns
    -------
    frozenset
        The step, and the one it stands for.
    """
    known = STEPS.get(step)
    other = None if known is None else known.stands_for
    return frozenset({step} if other is None else {step, other})
