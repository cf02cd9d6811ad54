"""One healthy part per file: frozen parameters and pure equations."""
