"""One service act per file: an installation in, the serviced installation out."""
