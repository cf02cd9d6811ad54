"""What a data sheet states of a unit, in SI."""

from dataclasses import dataclass

from simulator.components.compressor_map import CompressorMap

MOTORS = ("constant_torque", "psc", "constant_airflow")
RULES = ("subcooling", "superheat")
DEVICES = ("txv", "orifice")
TON = 3516.853  # 12,000 Btu/h [W]
BAROMETER = 101325.0  # [Pa]


@dataclass(frozen=True, slots=True, kw_only=True)
class RatedPoint:
    """One row of a rating table.

    Parameters
    ----------
    name : str
        Such as ``cooling at 95 °F``.
    mode : str
        ``cooling`` or ``heating``.
    outdoor, outdoor_wet_bulb : float
        [K]
    capacity : float
        Net of the blower's heat. [W]
    efficiency : float
        Net capacity over all power. [-]
    """

    name: str
    mode: str
    outdoor: float
    outdoor_wet_bulb: float
    capacity: float
    efficiency: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BlowerTable:
    """Columns of a blower table, dry coil, without filter.

    Parameters
    ----------
    external_static : tuple
        [Pa]
    airflow : tuple
        [m³/s]
    power : tuple
        Electrical. [W]
    """

    external_static: tuple[float, ...]
    airflow: tuple[float, ...]
    power: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedUnit:
    """A data sheet in SI.

    Parameters
    ----------
    name, refrigerant : str
        As on the plate.
    tons : float
        Nominal. [-]
    points : tuple
        Rated points, the first is cooling at 95 °F.
    sensible_heat_ratio : float
        At 95 °F, net of the blower's heat. [-]
    airflow : float
        Rated. [m³/s]
    external_static : float
        At rated airflow. [Pa]
    motor : str
        One of ``MOTORS``.
    synchronous_speed : float
        Of an induction motor, else 0. [rad/s]
    blower : BlowerTable
        As printed.
    blower_power_factor : float
        [-]
    efficiencies : dict
        Of the compressor, if stated so; by name. [-]
    compressor_map : CompressorMap, optional
        Ten coefficients, if stated so.
    fan_power : float
        Outdoor fan. [W]
    fan_airflow : float
        Outdoor fan. [m³/s]
    charge_rule : str
        What the charge is set by.
    superheat, subcooling : float
        At the rating point, coil outlet and liquid port. [delta K]
    metering : tuple
        Device while cooling and while heating.
    high_cut_out, low_cut_out : float
        Absolute. [Pa]
    rated_load_current, circuit_ampacity, fan_current : float
        As on the plate. [A]
    power_factor : float
        Of the compressor at rated load. [-]
    strip_power : float
        [W]
    strip_voltage : float
        [V]
    """

    name: str
    refrigerant: str
    tons: float
    points: tuple[RatedPoint, ...]
    sensible_heat_ratio: float
    airflow: float
    external_static: float
    motor: str
    synchronous_speed: float
    blower: BlowerTable
    blower_power_factor: float
    efficiencies: dict[str, float]
    compressor_map: CompressorMap | None
    fan_power: float
    fan_airflow: float
    charge_rule: str
    superheat: float
    subcooling: float
    metering: tuple[str, str]
    high_cut_out: float
    low_cut_out: float
    rated_load_current: float
    circuit_ampacity: float
    fan_current: float
    power_factor: float
    strip_power: float
    strip_voltage: float

    @property
    def heats(self) -> bool:
        """Whether it is a heat pump: a straight air conditioner has no rated point of heating.

        Returns
        -------
        bool
        """
        return any(point.mode == "heating" for point in self.points)
