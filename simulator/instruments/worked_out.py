"""Values worked out from readings as shown, never from truth."""

from collections.abc import Sequence
from dataclasses import dataclass

from simulator.instruments.formulas import formulas
from simulator.instruments.reading import Reading
from simulator.instruments.special_techniques import table_of
from simulator.plant.charging_chart import LOWEST_TARGET


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """One worked-out value.

    Parameters
    ----------
    id, name : str
        For the wire; for people.
    kind : str
        Of quantity.
    value : float
        In SI. [-]
    formula : str
        In words, for people.
    from_seqs : tuple
        Numbers of the readings it used.
    note : str
        What to mind; may be empty.
    """

    id: str
    name: str
    kind: str
    value: float
    formula: str
    from_seqs: tuple[int, ...]
    note: str = ""


def work_out(
    readings: Sequence[tuple[int, Reading]], metering: str, fluid_name: str
) -> list[WorkedOut]:
    """Everything the readings allow.

    Parameters
    ----------
    readings : sequence
        Numbered, oldest first; the newest of each measurement is used.
    metering : str
        ``txv`` or ``orifice``.
    fluid_name : str
        Whose table the gauges use.

    Returns
    -------
    list
        In the order of the formulas.
    """
    newest = {
        reading.measurement: (seq, reading.value, table_of(reading.technique))
        for seq, reading in readings
        if reading.value is not None
    }
    found = []
    for place, rule in enumerate(formulas(fluid_name, metering)):
        if any(need not in newest for need in rule.needs):
            continue
        # A gauge set to another refrigerant is read with that refrigerant's table.
        table = next((t for need in rule.needs if (t := newest[need][2])), fluid_name)
        if table != fluid_name:
            rule = formulas(table, metering)[place]
        value = rule.worked(*(newest[need][1] for need in rule.needs))
        if value is None:
            continue
        seqs = tuple(newest[need][0] for need in rule.needs)
        note = ""
        if rule.id == "target_superheat" and value < LOWEST_TARGET:
            note = "Below 5 °F the table has no entry: no valid charge test today."
        if table != fluid_name:
            note = f"By the table of {table}."
        found.append(
            WorkedOut(
                id=rule.id,
                name=rule.name,
                kind=rule.kind,
                value=value,
                formula=rule.words,
                from_seqs=seqs,
                note=note,
            )
        )
    return found
