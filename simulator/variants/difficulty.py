"""How hard a call is, as seven numbers; each from the engine or from the call's own file."""

from dataclasses import dataclass, fields

from simulator.calls.call_file import CallFile
from simulator.calls.sealed import Key
from simulator.diagnosis.evidence import evidence
from simulator.diagnosis.interview import factors
from simulator.instruments.formulas import formulas
from simulator.plant import parameter_file
from simulator.scoring.truth import shares
from simulator.variants.plays import Played
from simulator.variants.separation import separation
from simulator.variants.subject import Subject

# Noted on every visit, so that a formula with one of them is within reach.
CONDITIONS = frozenset(
    {"outdoor_temperature", "room_temperature", "grille_dry_bulb", "grille_wet_bulb"}
)
OPERATIONS = ("−", "÷", "×", "temperature at")  # the last: one look into a table
BILLS = 1  # this year's over last year's [-]
RULES_OF_THUMB = ("gauges_first", "checklist")  # trainees who go by fixed limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Difficulty:
    """The seven parts.

    Parameters
    ----------
    minutes : float
        Of the reference on site until the truth stands ten to one, in minutes. From its plays.
    entropy : float
        Doubt about the set of causes after work order and questions, in bits. From belief. [-]
    separation : float
        d′ of the truth from its nearest look-alike with a standard kit. From the plant. [-]
    faults : int
        What there is to find. From the key. [-]
    traps : int
        Dangers that cap the score, sayings that speak for innocent causes only, and rules of
        thumb that conclude wrongly. From key, work order and plays. [-]
    steps : int
        Of arithmetic, from readings to what bears on the truth. From the formulas. [-]
    words : int
        To read, work order and answers together. From the call file. [-]
    """

    minutes: float
    entropy: float
    separation: float
    faults: int
    traps: int
    steps: int
    words: int


NAMES = tuple(field.name for field in fields(Difficulty))


def difficulty(subject: Subject, plays: dict[str, Played]) -> Difficulty:
    """Of one call.

    Parameters
    ----------
    subject : Subject
        The call.
    plays : dict
        By trainee.

    Returns
    -------
    Difficulty
    """
    call, key = subject.call, subject.key
    misled = sum(not plays[who].finds for who in RULES_OF_THUMB)
    return Difficulty(
        minutes=plays["reference"].minutes,
        entropy=plays["reference"].entropy,
        separation=separation(subject),
        faults=len(key.causes),
        traps=dangers(key) + false_leads(call, key) + misled,
        steps=arithmetic_steps(call, key),
        words=words_to_read(call),
    )


def dangers(key: Key) -> int:
    """Hazards that cap the score where they are passed by.

    Parameters
    ----------
    key : Key
        Of the call.

    Returns
    -------
    int
        [-]
    """
    return sum(hazard.is_gate for hazard in key.hazards)


def false_leads(call: CallFile, key: Key) -> int:
    """Causes that the sayings make likelier and that are not there.

    Parameters
    ----------
    call : CallFile
        With work order and answers.
    key : Key
        With the truth.

    Returns
    -------
    int
        [-]
    """
    told = (call.title, call.complaint, *call.history, *call.answers.values())
    truth = shares(key)
    return sum(factor > 1.0 and cause not in truth for cause, factor in factors(told).items())


def arithmetic_steps(call: CallFile, key: Key) -> int:
    """Operations and table look-ups of every formula whose readings bear on the truth.

    Parameters
    ----------
    call : CallFile
        For refrigerant and metering device.
    key : Key
        With the truth and what proves it mended.

    Returns
    -------
    int
        [-]
    """
    fluid = str(parameter_file.read("equipment", call.unit).table("plate").rows["refrigerant"])
    bearing = {name for cause in shares(key) for name in evidence()[cause]}
    bearing |= {name for tests in key.proof.values() for name in tests}
    used = [
        rule
        for rule in formulas(fluid, call.metering)
        if set(rule.needs) <= bearing | CONDITIONS and set(rule.needs) & bearing
    ]
    return BILLS + sum(rule.words.count(sign) for rule in used for sign in OPERATIONS)


def words_to_read(call: CallFile) -> int:
    """Words of everything that is read or told before a tool is touched.

    Parameters
    ----------
    call : CallFile
        With work order and answers.

    Returns
    -------
    int
        [-]
    """
    told = (call.title, call.customer, call.address, call.complaint, call.weather_text)
    lines = (*told, *call.history, *call.equipment, *call.answers.values())
    return sum(len(line.split()) for line in lines)
