"""Parts joined into an installation: circuit, ducts, zone, house, bill, time."""
