"""Build the refrigerant tables with CoolProp: ``python -m simulator.properties.build``."""

from pathlib import Path
from typing import Any

import numpy as np

from simulator.quantities.values import Array

# CoolProp's name, lowest and highest saturation temperature [K]. The top stays below the
# critical point and above every usual high-pressure switch.
FLUIDS = {"R-410A": ("R410A", 225.0, 339.26)}
SATURATION_POINTS = 257
PRESSURE_POINTS = 97
DISTANCE_POINTS = 25
VAPOUR_REACH = 180e3  # enthalpy above dew [J/kg]
LIQUID_REACH = 110e3  # enthalpy below bubble [J/kg]
ENTROPY_REACH = 420.0  # entropy above dew [J/(kg K)]


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
        Shape (n, 10), in the order of ``refrigerant.Saturation``. [-]
    """
    import CoolProp

    rows = []
    for pressure in np.exp(log_pressure):
        state.update(CoolProp.PQ_INPUTS, pressure, 1.0)
        dew = state.T(), state.hmass(), state.rhomass(), state.smass()
        vapour_cp = _one_sided(state, pressure, dew[0], dew[1], +0.02)
        state.update(CoolProp.PQ_INPUTS, pressure, 0.0)
        bubble = state.T(), state.hmass(), state.rhomass(), state.smass()
        liquid_cp = _one_sided(state, pressure, bubble[0], bubble[1], -0.02)
        rows.append(
            [
                dew[0],
                bubble[0],
                dew[1],
                bubble[1],
                dew[2],
                bubble[2],
                dew[3],
                bubble[3],
                vapour_cp,
                liquid_cp,
            ]
        )
    return np.array(rows)


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


def single_phase_rows(
    state: Any, log_pressure: Array, reach: float, is_vapour: bool, by_entropy: bool = False
) -> Array:
    """Quotients over the distance from the saturation line.

    Parameters
    ----------
    state : AbstractState
        Of CoolProp.
    log_pressure : array
        Shape (n,). [-]
    reach : float
        Largest distance, in enthalpy or entropy. [J/kg]
    is_vapour : bool
        Vapour above dew, or liquid below bubble.
    by_entropy : bool
        Whether the distance is an entropy.

    Returns
    -------
    array
        Shape (n, m, k): temperature, logarithm of density and entropy per distance, or
        enthalpy per entropy. [-]
    """
    import CoolProp

    distances = np.linspace(0.0, reach, DISTANCE_POINTS)
    distances[0] = reach * 2e-4  # the quotient's limit on the line
    table = []
    for pressure in np.exp(log_pressure):
        state.update(CoolProp.PQ_INPUTS, pressure, 1.0 if is_vapour else 0.0)
        line = np.array([state.T(), state.hmass(), state.rhomass(), state.smass()])
        temperature = line[0]
        row = []
        for distance in distances:
            temperature = _search(
                state, pressure, line, distance, temperature, is_vapour, by_entropy
            )
            here = np.array([state.T(), state.hmass(), state.rhomass(), state.smass()])
            sign = 1.0 if is_vapour else -1.0
            if by_entropy:
                row.append([(here[1] - line[1]) / distance])
            else:
                row.append(
                    [
                        sign * (here[0] - line[0]) / distance,
                        np.log(here[2] / line[2]) / distance,
                        sign * (here[3] - line[3]) / distance,
                    ]
                )
        table.append(row)
    return np.array(table)


def _search(
    state: Any,
    pressure: float,
    line: Array,
    distance: float,
    temperature: float,
    is_vapour: bool,
    by_entropy: bool,
) -> float:
    """Temperature at a distance from the line, by Newton; the state is left there."""
    sign = 1.0 if is_vapour else -1.0
    lowest, highest = 201.0, 520.0
    temperature = temperature if temperature != line[0] else line[0] + sign * 0.05
    for _ in range(40):
        _at(state, pressure, temperature, is_vapour)
        if by_entropy:
            off = (state.smass() - line[3]) - distance
            step = off * temperature / state.cpmass()
        else:
            off = sign * (state.hmass() - line[1]) - distance
            step = sign * off / state.cpmass()
        nearest = line[0] + sign * 1e-4
        moved = temperature - step
        moved = max(moved, nearest) if is_vapour else min(moved, nearest)
        moved = min(max(moved, lowest), highest)
        if abs(moved - temperature) < 1e-9:
            break
        temperature = moved
    return temperature


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

    key, coldest, hottest = FLUIDS[name]
    state: Any = CoolProp.CoolProp.AbstractState("HEOS", key)
    ends = []
    for temperature in (coldest, hottest):
        state.update(CoolProp.QT_INPUTS, 1.0, temperature)
        ends.append(np.log(state.p()))
    grid = np.linspace(ends[0], ends[1], SATURATION_POINTS)
    step = grid[1] - grid[0]
    values = saturation_rows(state, grid)
    # Fourth-order differences inside; the fluid is smooth beyond both ends, so go there.
    spread = [saturation_rows(state, grid + shift * step / 4) for shift in (-2, -1, 1, 2)]
    slopes = (spread[0] - 8 * spread[1] + 8 * spread[2] - spread[3]) / (12 * step / 4)
    coarse = np.linspace(ends[0], ends[1], PRESSURE_POINTS)
    return {
        "log_pressure": np.array(ends),
        "saturation": values,
        "saturation_slopes": slopes,
        "vapour": single_phase_rows(state, coarse, VAPOUR_REACH, True).astype(np.float32),
        "isentrope": single_phase_rows(state, coarse, ENTROPY_REACH, True, True).astype(np.float32),
        "liquid": single_phase_rows(state, coarse, LIQUID_REACH, False).astype(np.float32),
        "reach": np.array([VAPOUR_REACH, ENTROPY_REACH, LIQUID_REACH]),
    }


def main() -> None:
    """Write every table into the package."""
    for name in FLUIDS:
        target = Path(__file__).parent / "tables" / f"{name.replace('-', '').lower()}.npz"
        np.savez_compressed(target, **build(name))  # type: ignore[arg-type]


if __name__ == "__main__":
    main()
