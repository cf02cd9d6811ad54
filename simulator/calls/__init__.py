"""A service call: site, complaint and sealed cause; a visit is a fold over events."""
