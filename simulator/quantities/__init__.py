"""Names, kinds and units: SI inside, the technician's units at the edge."""
