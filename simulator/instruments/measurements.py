"""The catalogue of measurements: what can be taken where, with which tool, at what cost."""

from collections.abc import Callable
from dataclasses import dataclass

from simulator.instruments import techniques as how
from simulator.instruments.techniques import Technique, wet_bulb_of
from simulator.instruments.tools import TOOLS
from simulator.plant.operating_point import OperatingPoint
from simulator.properties import moist_air

Truth = Callable[[OperatingPoint], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """One thing that can be measured, looked at, felt or asked.

    Parameters
    ----------
    id : str
        On the wire.
    name : str
        For people.
    place : str
        Where it is taken.
    tool_id : str
        Which tool.
    way : str
        measure, look, feel or ask.
    minutes : float
        Site time it takes, in minutes.
    group : str
        Where it stands on the reading sheet.
    truth : callable, optional
        The true value in an operating point, in SI; none where words come back.
    needs : tuple
        Steps that must come first.
    techniques : tuple
        Ways to take it, the careful one first.
    caution : str, optional
        One line.
    """

    id: str
    name: str
    place: str
    tool_id: str
    way: str
    minutes: float
    group: str
    truth: Truth | None = None
    needs: tuple[str, ...] = ()
    techniques: tuple[Technique, ...] = how.PLAIN
    caution: str | None = None

    @property
    def kind(self) -> str:
        """Kind of quantity.

        Returns
        -------
        str
            The tool's own.
        """
        return TOOLS[self.tool_id].kind

    @property
    def tool(self) -> str:
        """The tool's name for people.

        Returns
        -------
        str
        """
        return TOOLS[self.tool_id].name


def _field(name: str) -> Truth:
    return lambda point: float(getattr(point, name))


def _gauge(name: str) -> Truth:
    return lambda point: float(getattr(point, name)) - float(point.pressure)


def _wet(place: str) -> Truth:
    return lambda point: wet_bulb_of(
        float(getattr(point, f"{place}_temperature")),
        float(getattr(point, f"{place}_humidity_ratio")),
        float(point.pressure),
    )


def _damp(place: str) -> Truth:
    return lambda point: float(
        moist_air.relative_humidity(
            getattr(point, f"{place}_temperature"),
            getattr(point, f"{place}_humidity_ratio"),
            point.pressure,
        )
    )


LIVE = "Live parts: protective gear, meter proven. Licensed practice and local code apply."
PRESSURE = "Refrigerant under pressure: goggles and gloves; certified people only."
LADDER = "Mind the ladder."


def _customer() -> list[Measurement]:
    rows = (
        ("ask_when", "Ask when it started, and at what time of day", 2),
        ("ask_changed", "Ask what changed before it started", 2),
        ("ask_touched", "Ask who touched the system last, and what was done", 2),
        ("ask_rooms", "Ask which rooms, and what they feel like", 2),
        ("read_bill", "Read the bills of this year and last", 4),
        ("read_history", "Read the job history", 3),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="customer",
            tool_id="senses",
            way="ask",
            minutes=minutes,
            group="house",
        )
        for key, name, minutes in rows
    ]


def _rooms() -> list[Measurement]:
    return [
        Measurement(
            id="room_temperature",
            name="Room temperature",
            place="thermostat",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="house",
            truth=_field("grille_temperature"),
            techniques=how.SOAKED,
        ),
        Measurement(
            id="room_humidity",
            name="Room humidity",
            place="thermostat",
            tool_id="hygrometer",
            way="measure",
            minutes=3,
            group="house",
            truth=_damp("grille"),
        ),
        Measurement(
            id="look_thermostat",
            name="Look at mode, setpoint and fan setting",
            place="thermostat",
            tool_id="senses",
            way="look",
            minutes=2,
            group="house",
        ),
        Measurement(
            id="grille_dry_bulb",
            name="Return dry bulb at the grille",
            place="return_grille",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="air",
            truth=_field("grille_temperature"),
        ),
        Measurement(
            id="grille_wet_bulb",
            name="Return wet bulb at the grille",
            place="return_grille",
            tool_id="psychrometer",
            way="measure",
            minutes=3,
            group="air",
            truth=_wet("grille"),
            techniques=how.FRESH_WICK,
        ),
        Measurement(
            id="house_pressure",
            name="House pressure against outdoors, blower on",
            place="return_grille",
            tool_id="house_manometer",
            way="measure",
            minutes=6,
            group="house",
            truth=_field("house_pressure"),
            caution="Negative pressure can pull exhaust out of fuel-fired appliances: if in "
            "doubt stop, ventilate and refer.",
        ),
    ]


def _registers() -> list[Measurement]:
    return [
        Measurement(
            id="near_register_temperature",
            name="Nearest register",
            place="registers",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="air",
            truth=_field("near_register_temperature"),
            caution=LADDER,
        ),
        Measurement(
            id="far_register_temperature",
            name="Farthest register",
            place="registers",
            tool_id="thermometer",
            way="measure",
            minutes=4,
            group="air",
            truth=_field("far_register_temperature"),
            caution=LADDER,
        ),
        Measurement(
            id="register_sum",
            name="Flow of all registers, added up",
            place="registers",
            tool_id="flow_hood",
            way="measure",
            minutes=18,
            group="air",
            truth=_field("register_airflow"),
            techniques=how.HOOD,
            caution=LADDER,
        ),
    ]


def _air_handler() -> list[Measurement]:
    holes = ("drill_test_holes",)
    air = [
        (
            "return_dry_bulb",
            "Return dry bulb at the air handler",
            "thermometer",
            _field("air_handler_return_temperature"),
            how.SHIELDED[:1],
        ),
        (
            "return_wet_bulb",
            "Return wet bulb at the air handler",
            "psychrometer",
            _wet("air_handler_return"),
            how.FRESH_WICK,
        ),
        (
            "supply_dry_bulb",
            "Supply dry bulb at the air handler",
            "thermometer",
            _field("supply_plenum_temperature"),
            how.SHIELDED,
        ),
        (
            "supply_wet_bulb",
            "Supply wet bulb at the air handler",
            "psychrometer",
            _wet("supply_plenum"),
            how.FRESH_WICK[:1],
        ),
    ]
    statics = [
        ("static_before_filter", "Static before the filter"),
        ("static_after_filter", "Static after the filter, before the coil"),
        ("static_after_coil", "Static after the coil, before the blower"),
        ("static_supply", "Static in the supply plenum"),
    ]
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="air_handler",
                tool_id=tool,
                way="measure",
                minutes=3,
                group="air",
                truth=truth,
                needs=holes,
                techniques=ways,
            )
            for key, name, tool, truth, ways in air
        ),
        *(
            Measurement(
                id=key,
                name=name,
                place="air_handler",
                tool_id="manometer",
                way="measure",
                minutes=2,
                group="static",
                truth=_field(key),
                needs=holes,
                techniques=how.TAP,
            )
            for key, name in statics
        ),
        Measurement(
            id="plate_airflow",
            name="Airflow by flow plate in the filter slot",
            place="air_handler",
            tool_id="flow_plate",
            way="measure",
            minutes=10,
            group="air",
            truth=_field("airflow"),
        ),
        Measurement(
            id="condensate",
            name="Condensate in a pail",
            place="air_handler",
            tool_id="pail",
            way="measure",
            minutes=12,
            group="air",
            truth=_field("condensate_rate"),
        ),
    ]


def _air_handler_senses() -> list[Measurement]:
    rows = (
        ("look_filter", "Look at the filter", "look", 2),
        ("look_slot", "Look at the filter slot, panels and gaskets", "look", 2),
        ("smoke_return", "Smoke along the return, platform and panel joints", "feel", 5),
        ("listen_blower", "Look at the blower wheel and listen to the motor", "look", 4),
    )
    return [
        Measurement(
            id=key,
            name=name,
            place="air_handler",
            tool_id="senses",
            way=way,
            minutes=minutes,
            group="air",
            caution="Blower off before hands go in." if way == "look" else None,
        )
        for key, name, way, minutes in rows
    ]


def _zone() -> list[Measurement]:
    needs = ("hazard_look_zone",)
    return [
        Measurement(
            id="zone_temperature",
            name="Air temperature around the supply ducts",
            place="zone",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="house",
            truth=_field("zone_temperature"),
            needs=needs,
        ),
        Measurement(
            id="return_zone_temperature",
            name="Air temperature around the return",
            place="air_handler",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="house",
            truth=_field("return_zone_temperature"),
        ),
        Measurement(
            id="return_zone_humidity",
            name="Humidity around the return",
            place="air_handler",
            tool_id="hygrometer",
            way="measure",
            minutes=3,
            group="house",
            truth=_damp("return_zone"),
        ),
        Measurement(
            id="look_ducts",
            name="Look along the supply ducts",
            place="zone",
            tool_id="senses",
            way="look",
            minutes=6,
            group="air",
            needs=needs,
        ),
        Measurement(
            id="smoke_supply",
            name="Hand and smoke along the supply joints",
            place="zone",
            tool_id="senses",
            way="feel",
            minutes=6,
            group="air",
            needs=needs,
        ),
    ]


def _outdoor_air() -> list[Measurement]:
    return [
        Measurement(
            id="outdoor_temperature",
            name="Outdoor dry bulb",
            place="outdoor_unit",
            tool_id="thermometer",
            way="measure",
            minutes=2,
            group="house",
            truth=_field("outdoor_temperature"),
            techniques=how.SHADE,
        ),
        Measurement(
            id="outdoor_leaving_temperature",
            name="Air leaving the outdoor fan",
            place="outdoor_unit",
            tool_id="thermometer",
            way="measure",
            minutes=3,
            group="high side",
            truth=_field("outdoor_leaving_temperature"),
            techniques=how.OVER_FAN,
        ),
        Measurement(
            id="look_outdoor_coil",
            name="Look at the outdoor coil, its fan and its clearance",
            place="outdoor_unit",
            tool_id="senses",
            way="look",
            minutes=3,
            group="high side",
        ),
    ]


def _outdoor_pipes() -> list[Measurement]:
    clamps = (
        ("suction_line_temperature", "Suction line at the service valve", "low side"),
        ("liquid_line_temperature", "Liquid line at the service valve", "high side"),
        ("discharge_temperature", "Discharge line", "high side"),
    )
    gauges = ("connect_gauges",)
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="outdoor_unit",
                tool_id="pipe_clamp",
                way="measure",
                minutes=3,
                group=group,
                truth=_field(key),
                techniques=how.INSULATED,
                caution="Hot pipe." if group == "high side" else None,
            )
            for key, name, group in clamps
        ),
        Measurement(
            id="liquid_after_drier_temperature",
            name="Liquid line after the drier, indoors",
            place="air_handler",
            tool_id="pipe_clamp",
            way="measure",
            minutes=3,
            group="high side",
            truth=_field("liquid_after_drier_temperature"),
            techniques=how.INSULATED[:1],
        ),
        Measurement(
            id="suction_pressure",
            name="Suction pressure",
            place="outdoor_unit",
            tool_id="low_gauge",
            way="measure",
            minutes=2,
            group="low side",
            truth=_gauge("suction_pressure"),
            needs=gauges,
            caution=PRESSURE,
        ),
        Measurement(
            id="liquid_pressure",
            name="Liquid pressure",
            place="outdoor_unit",
            tool_id="high_gauge",
            way="measure",
            minutes=2,
            group="high side",
            truth=_gauge("liquid_pressure"),
            needs=gauges,
            caution=PRESSURE,
        ),
    ]


def _electrical() -> list[Measurement]:
    meter = ("prove_meter",)
    rows = (
        ("outdoor_current", "Amps of the outdoor unit", "clamp_meter", "outdoor_current"),
        ("air_handler_current", "Amps of the air handler", "clamp_meter", "air_handler_current"),
        ("strip_current", "Amps of the electric strips", "clamp_meter", "strip_current"),
        ("voltage", "Volts under load", "volt_meter", "voltage"),
    )
    return [
        *(
            Measurement(
                id=key,
                name=name,
                place="electrical_panel",
                tool_id=tool,
                way="measure",
                minutes=3,
                group="electrical",
                truth=_field(field),
                needs=meter,
                caution=LIVE,
            )
            for key, name, tool, field in rows
        ),
        Measurement(
            id="outdoor_power",
            name="Watts of the outdoor unit",
            place="electrical_panel",
            tool_id="power_meter",
            way="measure",
            minutes=4,
            group="electrical",
            truth=_field("outdoor_power"),
            needs=meter,
            techniques=how.WATTS,
            caution=LIVE,
        ),
    ]


MEASUREMENTS: dict[str, Measurement] = {
    item.id: item
    for group in (
        _customer(),
        _rooms(),
        _registers(),
        _air_handler(),
        _air_handler_senses(),
        _zone(),
        _outdoor_air(),
        _outdoor_pipes(),
        _electrical(),
    )
    for item in group
}
