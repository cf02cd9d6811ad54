"""Which version of a call somebody works: the call itself, or one of their own in a class."""

from typing import Any
from zlib import crc32

from simulator.calls import call_file, versions
from simulator.records.visit_records import VisitRecord
from simulator.serve.classes.files import class_records, dealt_versions

MOST_FIRST = 1000  # numbers from which a class begins to count [-]


def worked(record: VisitRecord) -> str:
    """The name under which a visit's call is loaded, public part and key.

    Parameters
    ----------
    record : VisitRecord
        Of the visit.

    Returns
    -------
    str
    """
    return versions.named(record.call, dealt_versions().of(record.token))


def version_for(call: str, trainee: str) -> int:
    """The version that a trainee's class deals: always the same, and no two trainees' alike.

    Seats are counted on from a number of class and call, so that neighbours get the stored
    recipes in turn and two classes do not begin with the same names.

    Parameters
    ----------
    call : str
        Which call.
    trainee : str
        The browser's own name.

    Returns
    -------
    int
        0 for the call itself. [-]
    """
    own = next((one for one in class_records().of_trainee(trainee) if call in one.calls), None)
    if own is None or call not in dealt_versions().dealt(own.code):
        return 0
    seats = [member.trainee for member in class_records().members(own.code)]
    first = crc32(f"{own.code} {call}".encode()) % MOST_FIRST
    return first + seats.index(trainee) + 1


def as_dealt(call: dict[str, Any], trainee: str) -> dict[str, Any]:
    """A call as a page offers it to a trainee.

    Parameters
    ----------
    call : dict
        As ``visits.list_calls`` gives it.
    trainee : str
        The browser's own name.

    Returns
    -------
    dict
        With the customer and the complaint of the trainee's own version.
    """
    number = version_for(str(call["id"]), trainee)
    if not number:
        return call
    own = call_file.load(versions.named(str(call["id"]), number))
    return {**call, "title": own.title, "customer": own.customer, "complaint": own.complaint}
