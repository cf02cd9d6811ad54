"""The kernels behind the pages, and what runs in them or beside them."""
