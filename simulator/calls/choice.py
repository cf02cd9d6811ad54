"""One line of the list of all causes, as every call offers it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One cause that may be marked and declared.

    Parameters
    ----------
    code : str
        On the wire.
    name, family : str
        For people.
    """

    code: str
    name: str
    family: str


NO_FAULT = "no_fault"
