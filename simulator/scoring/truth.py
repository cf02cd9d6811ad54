"""What there was to find; on a sound house, that there was nothing."""

from collections.abc import Mapping

from simulator.calls.choice import NO_FAULT
from simulator.calls.sealed import Key


def shares(key: Key) -> Mapping[str, float]:
    """Share of each true cause; of no fault where there is none.

    Parameters
    ----------
    key : Key
        What was true.

    Returns
    -------
    mapping
        Adding up to one. [-]
    """
    if not key.causes:
        return {NO_FAULT: 1.0}
    whole = sum(key.causes.values())
    return {cause: share / whole for cause, share in key.causes.items()}
