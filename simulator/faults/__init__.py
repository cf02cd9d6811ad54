"""One fault per file: an installation in, a worse installation out."""
