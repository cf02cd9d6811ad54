"""Where on a site a technician can stand."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place.

    Parameters
    ----------
    id : str
        On the wire.
    name, short : str
        For people; the short one stands on the drawing.
    caution : str, optional
        One line, at the moment it matters.
    """

    id: str
    name: str
    short: str
    caution: str | None = None


PLACES: dict[str, Place] = {
    place.id: place
    for place in (
        Place(id="customer", name="With the customer", short="Customer"),
        Place(id="thermostat", name="Thermostat", short="Thermostat"),
        Place(id="return_grille", name="Return grille", short="Return grille"),
        Place(
            id="air_handler",
            name="Air handler",
            short="Air handler",
            caution="Moving blower, sharp metal, live parts behind the panels. If a fuel-fired "
            "appliance shares the space, look for spillage before anything else.",
        ),
        Place(
            id="registers",
            name="Supply registers",
            short="Registers",
            caution="Mind the ladder.",
        ),
        Place(
            id="outdoor_unit",
            name="Outdoor unit",
            short="Outdoor unit",
            caution="Live terminals, hot pipes, refrigerant under pressure: goggles and gloves. "
            "Local code and licensed practice apply.",
        ),
        Place(
            id="zone",
            name="Space around the ducts",
            short="Duct space",
            caution="Attics and crawl spaces: heat, joists, nails, wiring. Limit the minutes and "
            "tell someone where you are.",
        ),
        Place(
            id="electrical_panel",
            name="Electrical panel",
            short="Panel",
            caution="Arc flash and shock: protective gear, one hand, prove the meter first. Local "
            "electrical code and licensed practice apply.",
        ),
    )
}


SPACES: dict[str, str] = {
    "attic": "Attic",
    "crawl_space": "Crawl space",
    "garage": "Garage",
    "basement": "Basement",
    "ceiling": "Ceiling space",
}
"""What the space around the ducts is called on a drawing, by its kind."""
