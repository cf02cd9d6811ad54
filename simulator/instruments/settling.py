"""How long after a change a reading stands still: the blower's air at once, the rest in time.

References
----------
.. [1] California Title 24 RA3.2: 15 minutes after a start and after every change, for what the
   refrigerant circuit decides.
.. [2] Air follows the blower, which is at speed within a minute, and a manometer follows the air
   within seconds: common practice, no source. ``tests/instruments/test_settling.py`` holds both
   against the plant.
"""

from simulator.plant.timeline import SETTLED_AFTER

AT_SPEED = 120.0  # after a start or a change: a blower of any kind is at speed [s]
# What blower, filter and ducts decide alone. Behind the coil it takes a wet coil too, so that tap
# waits with the temperatures.
BLOWER_ALONE = frozenset(
    {
        *("static_before_filter", "static_after_filter", "static_supply", "coil_airflow"),
        *("static_return_trunk", "static_supply_trunk"),
        *("table_airflow", "plate_airflow", "register_sum", "blower_speed", "house_pressure"),
    }
)


def settles_after(measurement: str) -> float:
    """Running time after a start or a change from which a reading counts as steady.

    Parameters
    ----------
    measurement : str
        Its id.

    Returns
    -------
    float
        In minutes.
    """
    seconds = AT_SPEED if measurement in BLOWER_ALONE else SETTLED_AFTER
    return seconds / 60.0
