"""Build the refrigerant tables with CoolProp: ``python -m simulator.properties.build``."""

import sys
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from simulator.quantities.values import Array


class Recipe(NamedTuple):
    """What CoolProp is asked for: [K], [J/kg], [J/(kg K)]."""

    key: str  # CoolProp's name
    coldest: float  # saturation
    hottest: float  # saturation; below critical, above every usual high-pressure switch
    coldest_liquid: float  # below it the equation of state is not valid or jumps to another root
    vapour_step: float
    entropy_step: float
    liquid_step: float


FLUIDS = {
    "R-22": Recipe("R22", 225.0, 344.3, 140.0, 5800.0, 14.0, 3300.0),
    "R-32": Recipe("R32", 225.0, 344.3, 140.0, 7700.0, 17.5, 5400.0),
    "R-410A": Recipe("R410A", 225.0, 339.26, 201.0, 180e3 / 24, 420.0 / 24, 110e3 / 24),
    "R-454B": Recipe("R454B.mix", 225.0, 340.2, 170.0, 7700.0, 17.5, 110e3 / 24),
}
SATURATION_POINTS = 257
PRESSURE_POINTS = 97
# Enough for gas of 150 °C above the coldest dew point and liquid 80 K below the hottest
# bubble point.
VAPOUR_CELLS, ENTROPY_CELLS, LIQUID_CELLS = 26, 35, 33
HOTTEST_GAS = 520.0  # [K]


def saturation_rows(state: Any, log_pressure: Array) -> Array:
    """All saturation properties at each pressure.

    Parameters
    ----------
    state : AbstractState
        Of CoolProp.
    log_pressure : array
        Natural logarithm of absolute pressure over one pascal, shape (n,). [-]

    Returns
    -------
    array
        Shape (n, 10), in the order of ``refrigerant.Saturation``; not a number where
        CoolProp finds no state. [-]
    """
    import CoolProp

    rows = []
    for pressure in np.exp(log_pressure):
        try:
            state.update(CoolProp.PQ_INPUTS, pressure, 1.0)
            dew = _line(state)
            vapour_cp = _one_sided(state, pressure, dew[0], dew[1], +0.02)
            state.update(CoolProp.PQ_INPUTS, pressure, 0.0)
            bubble = _line(state)
            liquid_cp = _one_sided(state, pressure, bubble[0], bubble[1], -0.02)
        except ValueError:  # blends have patches near critical where the flash gives up
            rows.append(np.full(10, np.nan))
            continue
        pairs = np.stack([dew, bubble], axis=1).ravel()
        rows.append(np.append(pairs, [vapour_cp, liquid_cp]))
    return np.array(rows)


def _line(state: Any) -> Array:
    return np.array([state.T(), state.hmass(), state.rhomass(), state.smass()])


def _one_sided(state: Any, pressure: float, start: float, enthalpy: float, step: float) -> float:
    """Heat capacity just off the saturation line."""
    _at(state, pressure, start + step, step > 0)
    return float((state.hmass() - enthalpy) / step)


def _at(state: Any, pressure: float, temperature: float, is_vapour: bool) -> None:
    """Single-phase state with the phase imposed: free flashes may take the wrong root."""
    import CoolProp

    state.specify_phase(CoolProp.iphase_gas if is_vapour else CoolProp.iphase_liquid)
    state.update(CoolProp.PT_INPUTS, pressure, temperature)
    state.unspecify_phase()


class OutOfReachError(Exception):
    """No valid state lies so far from the line."""


class Branch(NamedTuple):
    """One side of the saturation lines, the kind of distance from it, its coldest state [K]."""

    is_vapour: bool
    by_entropy: bool
    coldest: float

    @property
    def sign(self) -> float:
        """Minus where the distance is counted downward.

        Returns
        -------
        float
            [-]
        """
        return 1.0 if self.is_vapour else -1.0


def single_phase_rows(state: Any, log_pressure: Array, distances: Array, branch: Branch) -> Array:
    """Quotients over the distance from the saturation line.

    Parameters
    ----------
    state : AbstractState
        Of CoolProp.
    log_pressure : array
        Shape (n,). [-]
    distances : array
        In enthalpy or entropy, shape (m,), none zero. [J/kg]
    branch : Branch
        Vapour above dew, or liquid below bubble.

    Returns
    -------
    array
        Shape (n, m, k): temperature, logarithm of density and entropy per distance, or
        enthalpy per entropy; not a number where CoolProp finds no valid state. [-]
    """
    import CoolProp

    columns = 1 if branch.by_entropy else 3
    table = np.full((len(log_pressure), len(distances), columns), np.nan)
    for row, pressure in zip(table, np.exp(log_pressure), strict=True):
        try:
            state.update(CoolProp.PQ_INPUTS, pressure, branch.is_vapour * 1.0)
        except ValueError:
            continue
        line = _line(state)
        temperature = line[0] + branch.sign * 0.05
        for column, distance in enumerate(distances):
            try:
                temperature = _search(state, pressure, line, distance, temperature, branch)
            except OutOfReachError:
                break
            except ValueError:
                continue
            row[column] = _quotients(line, _line(state), distance, branch)
    return table


def _quotients(line: Array, here: Array, distance: float, branch: Branch) -> Array:
    if branch.by_entropy:
        return np.array([(here[1] - line[1]) / distance])
    off = branch.sign * (here - line)
    return np.array([off[0], np.log(here[2] / line[2]), off[3]]) / distance


def _search(
    state: Any, pressure: float, line: Array, distance: float, temperature: float, branch: Branch
) -> float:
    """Temperature at a distance from the line, by Newton; the state is left there."""
    sign = branch.sign
    nearest = line[0] + sign * 1e-4
    low, high = (nearest, HOTTEST_GAS) if branch.is_vapour else (branch.coldest, nearest)
    for _ in range(40):
        _at(state, pressure, temperature, branch.is_vapour)
        if branch.by_entropy:
            off = (state.smass() - line[3]) - distance
            step = off * temperature / state.cpmass()
        else:
            off = sign * (state.hmass() - line[1]) - distance
            step = sign * off / state.cpmass()
        moved = min(max(temperature - step, low), high)
        if abs(moved - temperature) < 1e-9:
            break
        temperature = moved
    if abs(off) > 1e-4 * distance:
        raise OutOfReachError
    return temperature


def _continue_tails(table: Array) -> None:
    """Straight on, in place, behind each row's last state; the reader stops before."""
    for row in table:
        known = np.flatnonzero(~np.isnan(row[:, 0]))
        if len(known) < 2 or known[-1] == len(row) - 1:
            continue
        last = known[-1]
        behind = np.arange(1, len(row) - last)[:, None]
        row[last + 1 :] = row[last] + behind * (row[last] - row[last - 1])


def _bridge(log_pressure: Array, table: Array) -> None:
    """Fill, in place, what is missing at some pressures from the pressures around."""
    flat = table.reshape(len(table), -1)
    for values in flat.T:
        missing = np.isnan(values)
        known = np.flatnonzero(~missing)
        for index in np.flatnonzero(missing):
            around = known[np.argsort(np.abs(known - index))[:10]]
            x = log_pressure[around] - log_pressure[index]
            scale = np.abs(x).max()
            values[index] = np.polyfit(x / scale, values[around], 5)[-1]


def build(name: str) -> dict[str, Array]:
    """All tables of one refrigerant.

    Parameters
    ----------
    name : str
        As on the plate.

    Returns
    -------
    dict
        Ready to be saved.
    """
    import CoolProp

    recipe = FLUIDS[name]
    state: Any = CoolProp.CoolProp.AbstractState("HEOS", recipe.key)
    ends = []
    for temperature in (recipe.coldest, recipe.hottest):
        state.update(CoolProp.QT_INPUTS, 1.0, temperature)
        ends.append(np.log(state.p()))
    grid = np.linspace(ends[0], ends[1], SATURATION_POINTS)
    step = grid[1] - grid[0]

    # Fourth-order differences inside; the fluid is smooth beyond both ends, so go there.
    spread = [_lines(state, grid, shift * step) for shift in (-0.5, -0.25, 0.25, 0.5)]
    slopes = (spread[0] - 8 * spread[1] + 8 * spread[2] - spread[3]) / (12 * step / 4)
    coarse = np.linspace(ends[0], ends[1], PRESSURE_POINTS)

    def surface(cell: float, cells: int, branch: Branch) -> Array:
        return _surface(state, coarse, cell * np.arange(cells + 1.0), branch)

    cells = np.array([VAPOUR_CELLS, ENTROPY_CELLS, LIQUID_CELLS])
    gas, liquid = Branch(True, False, recipe.coldest), Branch(False, False, recipe.coldest_liquid)
    return {
        "log_pressure": np.array(ends),
        "saturation": _lines(state, grid, 0.0),
        "saturation_slopes": slopes,
        "vapour": surface(recipe.vapour_step, VAPOUR_CELLS, gas),
        "isentrope": surface(recipe.entropy_step, ENTROPY_CELLS, gas._replace(by_entropy=True)),
        "liquid": surface(recipe.liquid_step, LIQUID_CELLS, liquid)[..., :2],
        "reach": cells * recipe[-3:],
        "coldest_liquid": _coldest_enthalpy(state, coarse, recipe.coldest_liquid),
    }


def _lines(state: Any, grid: Array, shift: float) -> Array:
    rows = saturation_rows(state, grid + shift)
    _bridge(grid, rows)
    return rows


def _surface(state: Any, log_pressure: Array, distances: Array, branch: Branch) -> Array:
    distances[0] = distances[1] * 0.0048  # the quotient's limit on the line
    rows = single_phase_rows(state, log_pressure, distances, branch)
    _continue_tails(rows)
    _bridge(log_pressure, rows)
    return rows.astype(np.float32)


def _coldest_enthalpy(state: Any, log_pressure: Array, coldest: float) -> Array:
    """Enthalpy that liquid has reached, at every pressure, before it is too cold."""
    found = []
    for pressure in np.exp(log_pressure[[0, -1]]):
        _at(state, pressure, coldest, False)
        found.append(state.hmass())
    return np.array(max(found))


def main() -> None:
    """Write the tables named on the command line, or all, into the package."""
    for name in sys.argv[1:] or FLUIDS:
        target = Path(__file__).parent / "tables" / f"{name.replace('-', '').lower()}.npz"
        np.savez_compressed(target, **build(name))  # type: ignore[arg-type]


if __name__ == "__main__":
    main()
