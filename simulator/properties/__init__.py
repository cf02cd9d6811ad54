"""Refrigerant and moist-air states; the only floor that may touch CoolProp."""
