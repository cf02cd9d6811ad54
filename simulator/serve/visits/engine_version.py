"""Which program made the readings of a visit."""

from importlib.metadata import PackageNotFoundError, version


def engine_version() -> str:
    """Of the program whose physics made the readings.

    Returns
    -------
    str
    """
    try:
        return version("benchcall")
    except PackageNotFoundError:
        return "not installed"
