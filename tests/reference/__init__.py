"""The same physics by other means: CoolProp and SciPy, and TESPy's nearest cycle."""
