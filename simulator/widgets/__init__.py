"""One panel per folder; sees only what the wire carries."""
