"""A call with its key, stored or only made up, as the makers of equal versions need it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from simulator.calls import call_file, sealed
from simulator.calls.call_file import CallFile
from simulator.calls.sealed import Key, Sealed
from simulator.calls.site import Site
from simulator.calls.sound_units import sound_unit
from simulator.plant.installation import Installation


@dataclass(frozen=True, slots=True, repr=False)
class Subject:
    """One call, whole.

    Parameters
    ----------
    call : CallFile
        The public part.
    vault : Sealed
        The rest.
    """

    call: CallFile
    vault: Sealed

    @property
    def key(self) -> Key:
        """What is true.

        Returns
        -------
        Key
        """
        return self.vault.opened()

    def site(self, seed: int) -> Site:
        """A site as a visit opens it.

        Parameters
        ----------
        seed : int
            Of the visit's chance.

        Returns
        -------
        Site
        """
        return Site(self.call, self.vault, seed)

    def plants(self) -> tuple[Installation, Installation]:
        """The unit of its kind without any scatter.

        Returns
        -------
        tuple
            Healthy, and with what is wrong.
        """
        call = self.call
        healthy = sound_unit(call.unit, call.metering, call.house)
        found = healthy
        for fault in self.key.faults:
            found = fault.applied_to(found)
        return healthy, found


def subject(call: str, document: Mapping[str, Any] | None = None) -> Subject:
    """A call by name, or from the tables of one that is stored nowhere.

    Parameters
    ----------
    call : str
        Its name.
    document : mapping, optional
        As a call file is read.

    Returns
    -------
    Subject

    Raises
    ------
    CallFileError
        If it cannot be used.
    """
    tables = call_file.document(call) if document is None else document
    return Subject(call_file.understood(call, tables), Sealed(sealed.understood(call, tables)))
