"""How far the points of a class can be trusted, as a sheet for a spreadsheet."""

from collections.abc import Sequence
from statistics import fmean

from simulator.records.class_records import ClassRecord
from simulator.serve.instructor.class_board import Row, board
from simulator.serve.instructor.class_sheets import responses, sheet, short
from simulator.serve.instructor.form_statistics import (
    WANTED,
    Told,
    alpha,
    calls_needed,
    error_of_mean,
    expected_of,
    mean_difference,
)
from simulator.serve.instructor.item_statistics import Response

FORM = ("figure", "value", "low, 95 %", "high, 95 %", "trainees", "why there is none")
PLANNED = (6, 10, 12)  # calls of a test [-]
NOT_ASKED = "The bench does not know who reads with a screen reader, and asks nobody."


def form_sheet(of: ClassRecord) -> str:
    """How far the points of a class can be trusted.

    Parameters
    ----------
    of : ClassRecord
        Which class.

    Returns
    -------
    str
        Comma-separated, a row a figure; an empty value has its reason beside it.
    """
    told = responses(board(of))
    calls, rows = complete(told)
    reliability = alpha(rows)
    figures = [
        ("Cronbach's alpha of the mean over calls", reliability),
        ("standard error of a trainee's mean, points", error_of_mean(rows, reliability)),
        *(
            (f"reliability expected of {n} such calls", expected_of(reliability, calls, n))
            for n in PLANNED
        ),
        (f"such calls for a reliability of {WANTED}", calls_needed(reliability, calls)),
        ("mean points in English less in Spanish", mean_difference(means_by_language(told))),
        ("mean points with a screen reader less without", Told(why=NOT_ASKED)),
    ]
    return sheet(FORM, [[name, *_told(figure)] for name, figure in figures])


def _told(figure: Told) -> list[object]:
    bounds = (figure.value, figure.low, figure.high)
    return [*(short(one) for one in bounds), figure.count, figure.why]


def complete(told: Sequence[Response]) -> tuple[int, list[list[float]]]:
    """Points of those who closed every call that anybody closed.

    Parameters
    ----------
    told : sequence of Response
        One a trainee and call.

    Returns
    -------
    tuple
        How many calls, and a row of points a trainee. [-]
    """
    points: dict[str, dict[str, float]] = {}
    for one in told:
        if one.points is not None:
            points.setdefault(one.trainee, {})[one.call] = one.points
    calls = sorted({call for of in points.values() for call in of})
    rows = [[of[call] for call in calls] for of in points.values() if len(of) == len(calls)]
    return len(calls), rows


def means_by_language(told: Sequence[Response]) -> dict[str, list[float]]:
    """Mean points of each trainee who kept to one language.

    Parameters
    ----------
    told : sequence of Response
        One a trainee and call.

    Returns
    -------
    dict
        By the code of the language. [-]
    """
    points: dict[str, list[float]] = {}
    spoken: dict[str, set[str]] = {}
    for one in told:
        if one.points is not None:
            points.setdefault(one.trainee, []).append(one.points)
            spoken.setdefault(one.trainee, set()).add(one.language)
    found: dict[str, list[float]] = {}
    for trainee, languages in spoken.items():
        if len(languages) == 1:
            found.setdefault(next(iter(languages)), []).append(fmean(points[trainee]))
    return found


def trust(rows: Sequence[Row]) -> str:
    """How far the marks of a class can be trusted, in words.

    Parameters
    ----------
    rows : sequence of Row
        Of its board.

    Returns
    -------
    str
        Two sentences.
    """
    calls, points = complete(responses(rows))
    found = alpha(points)
    if found.value is None or found.low is None or found.high is None:
        return f"How reliable these marks are is not known yet. {found.why}"
    return (
        f"Reliability over {calls} calls, by {found.count} who closed them all: "
        f"{found.value:.2f}, between {found.low:.2f} and {found.high:.2f} with 95 %. "
        f"{WANTED:.2f} is asked for before anything is decided about somebody."
    )
