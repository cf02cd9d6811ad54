"""What is known to miss, by name: what else misses, or no longer does, fails the tests."""

# Published checks of units other than the reference, which itself has none. P28 and P32 are rows
# of R-410A and of three tons, asked of every unit all the same.
PUBLISHED_MISSED: dict[tuple[str, str], set[str]] = {
    ("bittern_60", "txv"): {"P32"},
    ("bittern_60", "orifice"): {"P32"},
    ("dunlin_48", "txv"): {"P28"},
    ("dunlin_48", "orifice"): {"P28"},
    ("heron_30", "txv"): {"P07", "P28"},
    ("heron_30", "orifice"): {"P28"},
    ("martlet_24", "txv"): {"P07", "P28"},
    ("martlet_24", "orifice"): {"P28"},
    ("siskin_18", "txv"): {"P31", "P32"},
    ("siskin_18", "orifice"): {"P31", "P32"},
}
# Smell tests on the reference unit: number, then unit, device and fault with the cells broken.
SMELLS_MISSED: dict[int, tuple[str, ...]] = {}
# Severity sweeps: fault, mode and device, with the reason.
SWEEPS_MISSED = {
    ("overcharge", "cooling", "txv"): "capacity first gains 1.8 %; sources disagree on its sign",
    ("overcharge", "cooling", "orifice"): "the same, 3.2 %",
    ("overcharge", "heating", "orifice"): "suction turns back by 0.02 %",
    ("undercharge", "cooling", "txv"): "suction first rises by 1.9 %: the valve opens further",
    ("undercharge", "heating", "txv"): "the same, 0.9 %",
    ("overfeeding_valve", "cooling", "txv"): "capacity first gains 0.5 %: more of the coil boils",
    ("oversized_orifice", "cooling", "orifice"): "the same, 0.6 %",
    (
        "stuck_check_valve",
        "heating",
        "txv",
    ): "capacity first gains 0.2 %, head turns back by 0.07 %",
    ("stuck_check_valve", "heating", "orifice"): "capacity first gains 0.6 %",
    ("non_condensables", "heating", "orifice"): "capacity first gains 0.6 % with the head",
    ("fast_blower", "heating", "orifice"): "capacity turns back by 0.1 %",
    ("return_leak", "heating", "orifice"): "the same by 0.007 %",
}

# Signs over severities and weather: fault, mode, device and quantity, with the reason.
ORIFICE_FLOODS = "at 25 °F the fixed orifice floods the coil, and a little less feeds it better"
SIGNS_MISSED = {
    ("undercharge", "heating", "orifice", "frost_rate"): ORIFICE_FLOODS,
    ("liquid_line_restriction", "heating", "orifice", "gross_capacity"): ORIFICE_FLOODS,
    ("long_line_set", "cooling", "txv", "coil_superheat"): "moves 0.2 K at the longest",
}
# Sizes of faults: device, case and reading. The rough model's starved valve loses a tenth of its
# flow at half its area, ours a third; its heating has no vessel that makes up for charge lost.
SIZES_MISSED = {
    ("txv", "cooling, starving valve 0.5", "evaporating temperature"),
    ("txv", "cooling, starving valve 0.5", "superheat"),
    ("txv", "cooling, starving valve 0.5", "split"),
    ("txv", "cooling, starving valve 0.5", "capacity"),
    ("txv", "heating, undercharge 0.2", "subcooling"),
    ("txv", "cooling, undercharge 0.3", "split"),
    ("orifice", "cooling, undercharge 0.2", "subcooling"),
    ("orifice", "cooling, undercharge 0.2", "capacity"),
    ("orifice", "cooling, undercharge 0.3", "evaporating temperature"),
    ("orifice", "cooling, undercharge 0.3", "split"),
    ("orifice", "cooling, undercharge 0.2 and airflow 0.6", "superheat"),
    ("orifice", "cooling, liquid line restriction 0.3", "evaporating temperature"),
    ("orifice", "cooling, liquid line restriction 0.3", "superheat"),
    ("orifice", "cooling, liquid line restriction 0.3", "subcooling"),
    ("orifice", "cooling, return leak 0.2", "split"),
}
# Rows written down from memory, every unit; ``python -m tests.truth`` says by how much.
MEMORY_MISSED: dict[tuple[str, str], set[str]] = {
    ("quail_36", "txv"): {"M07", "M52"},
    ("quail_36", "orifice"): {"M05", "M07", "M17", "M31", "M52"},
    ("bittern_60", "txv"): {"M42"},
    ("bittern_60", "orifice"): {"M05", "M06", "M07", "M17", "M31", "M42"},
    ("dunlin_48", "txv"): {"M42"},
    ("dunlin_48", "orifice"): {"M01", "M05", "M07", "M17", "M30", "M31", "M42"},
    ("heron_30", "txv"): {"M07"},
    ("heron_30", "orifice"): {
        "M01",
        "M05",
        "M06",
        "M07",
        "M17",
        "M30",
        "M31",
        "M34",
        "M42",
    },
    ("martlet_24", "txv"): {"M07", "M42"},
    ("martlet_24", "orifice"): {"M01", "M05", "M07", "M15", "M17", "M31", "M42"},
    ("siskin_18", "txv"): set(),
    ("siskin_18", "orifice"): {"M05", "M06", "M07", "M17", "M31"},
}
