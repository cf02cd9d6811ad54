"""What tools show: resolution, error and lag."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """One tool.

    Parameters
    ----------
    name : str
        For people.
    kind : str
        Of quantity, for the units it is marked in.
    decimals : int
        Digits after the point on its own scale, in the customary units of the trade.
    bias : float
        Standard deviation of an error that stays for the whole visit, in SI. [-]
    relative_bias : float
        The same in proportion to the reading. [-]
    noise : float
        Standard deviation between two takes, in SI. [-]
    lag : float
        Time constant towards a new value. [s]
    source : str
        Where its accuracy class comes from.
    """

    name: str
    kind: str
    decimals: int
    bias: float
    noise: float
    lag: float
    source: str
    relative_bias: float = 0.0


PRACTICE = "common practice, no source"
# Half of a tool's stated accuracy is taken as one standard deviation, and that is shared
# between bias and noise.
TOOLS: dict[str, Tool] = {
    "thermometer": Tool(
        name="Air probe",
        kind="temperature",
        decimals=1,
        bias=0.10,
        noise=0.05,
        lag=60.0,
        source=f"±0.5 °F class, {PRACTICE}",
    ),
    "psychrometer": Tool(
        name="Wet-bulb probe",
        kind="temperature",
        decimals=1,
        bias=0.20,
        noise=0.10,
        lag=75.0,
        source=f"±1 °F class, {PRACTICE}",
    ),
    "hygrometer": Tool(
        name="Humidity probe",
        kind="relative_humidity",
        decimals=0,
        bias=0.010,
        noise=0.006,
        lag=200.0,
        source=f"±2 to 3 % RH class, {PRACTICE}",
    ),
    "pipe_clamp": Tool(
        name="Pipe clamp",
        kind="temperature",
        decimals=1,
        bias=0.20,
        noise=0.08,
        lag=45.0,
        source="California Title 24 RA3.2: ±1.8 °F, settled within 90 s",
    ),
    "low_gauge": Tool(
        name="Low-side pressure probe",
        kind="gauge_pressure",
        decimals=1,
        bias=5500.0,
        noise=1700.0,
        lag=12.0,
        source="California Title 24 RA3.2: ±3.5 psi",
    ),
    "high_gauge": Tool(
        name="High-side pressure probe",
        kind="gauge_pressure",
        decimals=1,
        bias=11000.0,
        noise=3400.0,
        lag=45.0,
        source="California Title 24 RA3.2: ±7 psi",
    ),
    "manometer": Tool(
        name="Manometer",
        kind="static_pressure",
        decimals=2,
        bias=0.6,
        noise=0.5,
        lag=3.0,
        relative_bias=0.005,
        source=f"±1 % + 0.01 in wc, {PRACTICE}",
    ),
    "house_manometer": Tool(
        name="Micro-manometer",
        kind="house_pressure",
        decimals=1,
        bias=0.05,
        noise=0.10,
        lag=10.0,
        relative_bias=0.005,
        source=f"±1 %, 0.1 Pa, wind apart, {PRACTICE}",
    ),
    "traverse": Tool(
        name="Pitot traverse, 16 points",
        kind="airflow",
        decimals=0,
        bias=0.0,
        noise=0.006,
        lag=5.0,
        relative_bias=0.03,
        source=f"±6 to 8 % in a straight plenum, {PRACTICE}",
    ),
    "flow_hood": Tool(
        name="Powered flow hood",
        kind="airflow",
        decimals=0,
        bias=0.0,
        noise=0.004,
        lag=5.0,
        relative_bias=0.03,
        source="LBNL residential flow-hood study: powered hoods about 6 %",
    ),
    "clamp_meter": Tool(
        name="Clamp meter",
        kind="current",
        decimals=1,
        bias=0.03,
        noise=0.04,
        lag=2.0,
        relative_bias=0.010,
        source=f"±2 %, 0.1 A, true RMS, {PRACTICE}",
    ),
    "power_meter": Tool(
        name="Power meter",
        kind="power",
        decimals=0,
        bias=3.0,
        noise=6.0,
        lag=2.0,
        relative_bias=0.0075,
        source=f"±1.5 %, {PRACTICE}",
    ),
    "volt_meter": Tool(
        name="Volt meter",
        kind="voltage",
        decimals=1,
        bias=0.3,
        noise=0.2,
        lag=1.0,
        relative_bias=0.004,
        source=f"±1 %, {PRACTICE}",
    ),
    "pail": Tool(
        name="Pail and watch",
        kind="condensate_rate",
        decimals=1,
        bias=0.0,
        noise=2.0e-5,
        lag=600.0,
        relative_bias=0.06,
        source=f"±15 %, {PRACTICE}",
    ),
    "senses": Tool(
        name="Eyes, hand and smoke",
        kind="ratio",
        decimals=2,
        bias=0.0,
        noise=0.0,
        lag=1.0,
        source=PRACTICE,
    ),
}
