"""What a data sheet states against what the fitted unit does, row by row."""

from typing import NamedTuple

import numpy as np

from simulator.plant import blower_fit
from simulator.plant.unit_fit import Fit
from simulator.plant.unit_levers import LEVERS
from simulator.plant.unit_map import efficiencies_of
from simulator.quantities.shown import show, to_display

# How near a fitted row must come [-]: rating tolerances are of this size.
CAPACITY, EFFICIENCY, SENSIBLE = 0.03, 0.05, 0.04
AIRFLOW, BLOWER_POWER, MAP = 0.05, 0.10, 0.06
FAR = 1.7  # a lever moved by more than this factor is worth a word [-]; chosen
BTU_PER_WATT_HOUR = 3.412142


class Row(NamedTuple):
    """One row of the report; stated and fitted are in the unit it names [-]."""

    name: str
    unit: str
    stated: float
    fitted: float
    allowed: float

    @property
    def difference(self) -> float:
        """Fitted over stated, less one [-]."""
        return self.fitted / self.stated - 1.0

    @property
    def met(self) -> bool:
        """Whether it is near enough."""
        return abs(self.difference) <= self.allowed


def rows(fit: Fit) -> tuple[Row, ...]:
    """All rows that a sheet states twice, once itself and once through the plant.

    Parameters
    ----------
    fit : Fit
        Done.

    Returns
    -------
    tuple
        Rated points, sensible share, blower table, compressor map.
    """
    return (*_rated(fit), *_blower(fit), *_map(fit))


def _rated(fit: Fit) -> list[Row]:
    found = []
    sheet = fit.published
    for point, capacity, ratio in zip(sheet.points, fit.capacities, fit.efficiencies, strict=True):
        sizes = [float(to_display(one, "heat_rate")) for one in (point.capacity, capacity)]
        cooling = point.mode == "cooling"
        scale, unit = (BTU_PER_WATT_HOUR, "Btu/(W h)") if cooling else (1.0, "")
        found.append(Row(f"capacity, {point.name}", "Btu/h", sizes[0], sizes[1], CAPACITY))
        word = "EER" if cooling else "COP"
        stated, reached = point.efficiency * scale, ratio * scale
        found.append(Row(f"{word}, {point.name}", unit, stated, reached, EFFICIENCY))
    shares = sheet.sensible_heat_ratio, fit.sensible_heat_ratio
    found.append(Row("sensible heat ratio", "", *shares, SENSIBLE))
    return found


def _blower(fit: Fit) -> list[Row]:
    sheet, coil = fit.published, fit.unit.indoor_coil
    table = sheet.blower
    airflow = np.asarray(table.airflow)
    coil_drop = float(coil.wet_pressure_drop * coil.dry_share)
    rise = np.asarray(table.external_static) + coil_drop * (airflow / sheet.airflow) ** 1.8
    reached, power = blower_fit.against(fit.unit.blower, rise, airflow)
    found = []
    for index, static in enumerate(table.external_static):
        at = f"blower at {show(static, 'static_pressure')}"
        stated, moved = (
            float(to_display(float(flow), "airflow")) for flow in (airflow[index], reached[index])
        )
        found.append(Row(at, "cfm", stated, moved, AIRFLOW))
        found.append(Row(at, "W", table.power[index], float(power[index]), BLOWER_POWER))
    return found


def _map(fit: Fit) -> list[Row]:
    """The worst that efficiencies stray from ten coefficients, as a share of one."""
    sheet = fit.published
    if sheet.compressor_map is None:
        return []
    unloaded = float(fit.unit.compressor.volumetric_efficiency)
    said = efficiencies_of(sheet.compressor_map, sheet.refrigerant, unloaded)
    return [
        Row("compressor map, worst flow", "", 1.0, 1.0 + said.flow_stray, MAP),
        Row("compressor map, worst power", "", 1.0, 1.0 + said.power_stray, MAP),
    ]


def remarks(fit: Fit) -> tuple[str, ...]:
    """Sentences on what fits but looks strange.

    Parameters
    ----------
    fit : Fit
        Done.

    Returns
    -------
    tuple
        Empty where nothing does.
    """
    found = []
    sheet = fit.published
    if fit.compressor_current > sheet.rated_load_current:
        found.append(
            f"The compressor draws {fit.compressor_current:.1f} A at 95 °F, more than the rated "
            f"load of {sheet.rated_load_current:g} A on the plate."
        )
    for lever, factor in zip(LEVERS, fit.moved, strict=True):
        if not 1.0 / FAR <= factor <= FAR:
            part = lever.part.replace("_", " ")
            key = lever.keys[0].replace("_", " ")
            found.append(
                f"To meet the rated points, the {part}'s {key} became {factor:.2f} times that of "
                "the usual unit of its size; look whether they belong to one unit."
            )
    return tuple(found)


def text(fit: Fit) -> str:
    """The report as printed.

    Parameters
    ----------
    fit : Fit
        Done.

    Returns
    -------
    str
        A line a row.
    """
    sheet = fit.published
    charge = show(float(fit.unit.plate_charge), "mass")
    heated = f"and {sheet.metering[1]} heating" if sheet.heats else "without a reversing valve"
    metered = f"{sheet.metering[0]} cooling {heated}"
    lines = [
        f"{sheet.name}: {sheet.tons:g} tons, {sheet.refrigerant}, {sheet.motor} blower, "
        f"{metered}, charged by {sheet.charge_rule}; derived charge {charge}.",
        "",
        f"{'':34} {'stated':>9} {'fitted':>9} {'off':>8}",
    ]
    table = rows(fit)
    for row in table:
        places = 0 if row.stated >= 100.0 else 2
        verdict = "met" if row.met else f"not within {100.0 * row.allowed:.0f} %"
        lines.append(
            f"{row.name:34} {row.stated:9.{places}f} {row.fitted:9.{places}f} "
            f"{100.0 * row.difference:+6.1f} %  {row.unit:10} {verdict}"
        )
    missed = sum(not row.met for row in table)
    lines += ["", *remarks(fit)]
    lines.append(
        f"{missed} of {len(table)} rows are not met."
        if missed
        else f"All {len(table)} rows are met."
    )
    return "\n".join(lines) + "\n"
