"""One measurement family per file: a moment of the plant in, a reading as shown out."""
