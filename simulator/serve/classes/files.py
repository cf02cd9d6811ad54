"""The records of classes of this installation."""

from functools import lru_cache
from pathlib import Path

from simulator.records.assignments import Assignments
from simulator.records.class_calls import ClassCalls
from simulator.records.class_records import ClassRecords
from simulator.records.class_visits import ClassVisits
from simulator.records.dealt_versions import DealtVersions
from simulator.records.graded_visits import GradedVisits
from simulator.records.overrides import Overrides
from simulator.records.reflections import Reflections
from simulator.records.visit_languages import VisitLanguages
from simulator.serve.paths import RECORDS_FILE, data_directory


def class_records() -> ClassRecords:
    """All classes.

    Returns
    -------
    ClassRecords
        One connection pool a process and file.
    """
    return _classes(data_directory() / RECORDS_FILE)


def class_visits() -> ClassVisits:
    """Which visits count for which class.

    Returns
    -------
    ClassVisits
    """
    return ClassVisits(class_records())


def assignments() -> Assignments:
    """On what terms calls are worked.

    Returns
    -------
    Assignments
    """
    return Assignments(class_records())


def class_calls() -> ClassCalls:
    """Which calls classes work.

    Returns
    -------
    ClassCalls
    """
    return ClassCalls(class_records())


def dealt_versions() -> DealtVersions:
    """Which version of its call each visit is.

    Returns
    -------
    DealtVersions
    """
    return DealtVersions(class_records())


def overrides() -> Overrides:
    """Points that instructors set.

    Returns
    -------
    Overrides
    """
    return Overrides(class_records())


def reflections() -> Reflections:
    """What trainees wrote in their debriefs.

    Returns
    -------
    Reflections
    """
    return Reflections(class_records())


def visit_languages() -> VisitLanguages:
    """In which language visits were begun.

    Returns
    -------
    VisitLanguages
    """
    return VisitLanguages(class_records())


def graded_visits() -> GradedVisits:
    """What closed visits were worth.

    Returns
    -------
    GradedVisits
    """
    return GradedVisits(class_records())


@lru_cache(maxsize=4)
def _classes(path: Path) -> ClassRecords:
    return ClassRecords(path)
