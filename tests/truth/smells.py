"""The 35 smell tests in order."""

from tests.truth.smell import Smell
from tests.truth.smells_air import AIR_SMELLS
from tests.truth.smells_circuit import CIRCUIT_SMELLS
from tests.truth.smells_whole import WHOLE_SMELLS

SMELLS: tuple[Smell, ...] = tuple(
    sorted((*CIRCUIT_SMELLS, *AIR_SMELLS, *WHOLE_SMELLS), key=lambda smell: smell.number)
)
