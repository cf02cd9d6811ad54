"""A setting as something that can be looked up, and back."""

from typing import Any, TypeAlias

from simulator.serve.stand.setting import Setting

Key: TypeAlias = tuple[tuple[str, Any], ...]


def key_of(setting: Setting) -> Key:
    """A setting as a key.

    Parameters
    ----------
    setting : Setting
        Checked.

    Returns
    -------
    tuple
        Names and values; faults in order of their names.
    """
    names = Setting.__dataclass_fields__
    plain = {name: getattr(setting, name) for name in names if name != "faults"}
    return (*plain.items(), ("faults", tuple(sorted(setting.faults.items()))))


def setting_of_key(key: Key) -> Setting:
    """The setting of a key.

    Parameters
    ----------
    key : tuple
        As ``key_of`` gave it.

    Returns
    -------
    Setting
    """
    words = dict(key)
    return Setting(**(words | {"faults": dict(words["faults"])}))
