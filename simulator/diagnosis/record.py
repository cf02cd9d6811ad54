"""The record a technician leaves: what was found, done and measured, in plain words."""

from simulator.calls.choice import NO_FAULT
from simulator.calls.visit import Visit
from simulator.diagnosis.causes import name_of
from simulator.instruments.measurements import MEASUREMENTS
from simulator.quantities.shown import show
from simulator.repairs._catalogue import discover

MOST = 5  # readings told [-]


def write_up(visit: Visit) -> str:
    """A record from the sheet.

    Parameters
    ----------
    visit : Visit
        With a finding.

    Returns
    -------
    str
    """
    causes = visit.finding.causes if visit.finding else ()
    found = " and ".join(name_of(cause).lower() for cause in causes)
    lines = [
        "Found: nothing that needs mending."
        if causes == (NO_FAULT,)
        else f"Found: {found}, shown by readings on this unit and not by a guess."
    ]
    done = [discover()[event.repair].title.lower() for event in visit.repairs]
    lines.append(f"Done: {'; '.join(done)}." if done else "Nothing was repaired or changed.")
    cited = visit.finding.cited if visit.finding else ()
    first = {e.reading.measurement: e for e in reversed(visit.readings)}
    last = {e.reading.measurement: e for e in visit.readings}
    told = [
        name
        for name, event in first.items()
        if event.reading.value is not None and (event.seq in cited or not cited)
    ]
    for name in told[:MOST]:
        before, after = first[name].reading, last[name].reading
        if before.value is None or after.value is None:
            continue
        said = str(show(before.value, before.kind, "us"))
        if last[name].seq != first[name].seq:
            said = f"{said} before, {show(after.value, after.kind, 'us')} after"
        lines.append(f"{MEASUREMENTS[name].name}: {said}.")
    lines.append(
        "The figures hold for today's weather. Please compare the next bill with the same month "
        "last year, and call if it does not fall or if anything here is unclear."
    )
    return " ".join(lines)
