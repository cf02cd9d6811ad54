"""Which readings the stand shows, where, and the ends of their scales."""

# On the stand: group, label, and the ends of the scale in the technician's units.
SCALES: dict[str, tuple[str, str, float, float]] = {
    "suction_pressure": ("Low side", "Suction pressure", 60, 200),
    "superheat": ("Low side", "Superheat", 0, 45),
    "suction_line_temperature": ("Low side", "Suction line", 30, 100),
    "liquid_pressure": ("High side", "Liquid pressure", 200, 610),
    "subcooling": ("High side", "Subcooling", 0, 35),
    "liquid_line_temperature": ("High side", "Liquid line", 60, 140),
    "liquid_after_drier_temperature": ("High side", "Liquid after the drier", 60, 140),
    "discharge_temperature": ("High side", "Discharge line", 100, 260),
    "outdoor_leaving_temperature": ("High side", "Air off the outdoor coil", 60, 150),
    "temperature_split": ("Air", "Split at the air handler", -10, 35),
    "air_handler_return_temperature": ("Air", "Return at the air handler", 60, 110),
    "supply_plenum_temperature": ("Air", "Supply plenum", 40, 100),
    "near_register_temperature": ("Air", "Nearest register", 40, 100),
    "far_register_temperature": ("Air", "Farthest register", 40, 100),
    "airflow": ("Air", "Airflow", 300, 1600),
    "register_airflow": ("Air", "Sum of the registers", 300, 1600),
    "condensate_rate": ("Air", "Condensate", 0, 16),
    "total_external_static": ("Static", "Total external static", 0, 1.2),
    "filter_drop": ("Static", "Filter drop", 0, 0.8),
    "coil_drop": ("Static", "Coil drop", 0, 0.5),
    "compressor_current": ("Electrical", "Compressor", 0, 20),
    "outdoor_power": ("Electrical", "Outdoor unit", 0, 5000),
    "air_handler_current": ("Electrical", "Air handler", 0, 60),
    "house_pressure": ("House", "House pressure", -6, 6),
}
# While heating, the ends of winter, and what only winter has.
HEATING_SCALES: dict[str, tuple[str, str, float, float]] = {
    **SCALES,
    "suction_pressure": ("Low side", "Suction pressure", 0, 200),
    "suction_line_temperature": ("Low side", "Suction line", -30, 80),
    "liquid_pressure": ("High side", "Liquid pressure", 100, 610),
    "outdoor_leaving_temperature": ("Low side", "Air off the outdoor coil", -20, 70),
    "air_handler_return_temperature": ("Air", "Return at the air handler", 40, 90),
    "supply_plenum_temperature": ("Air", "Supply plenum", 60, 140),
    "near_register_temperature": ("Air", "Nearest register", 60, 140),
    "far_register_temperature": ("Air", "Farthest register", 60, 140),
    "vapour_line_pressure": ("High side", "Vapor port pressure", 100, 610),
    "vapour_line_temperature": ("High side", "Vapor line", 60, 260),
    "temperature_rise": ("Air", "Rise at the air handler", 0, 60),
}
del HEATING_SCALES["temperature_split"], HEATING_SCALES["condensate_rate"]


def scales_of(mode: str) -> dict[str, tuple[str, str, float, float]]:
    """Readings in order, those of one group together.

    Parameters
    ----------
    mode : str
        Called for.

    Returns
    -------
    dict
        Group, label, and both ends in the technician's units.
    """
    chosen = HEATING_SCALES if mode == "heating" else SCALES
    groups = list(dict.fromkeys(row[0] for row in SCALES.values()))
    return dict(sorted(chosen.items(), key=lambda item: groups.index(item[1][0])))
