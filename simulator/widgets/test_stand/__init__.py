"""The test stand panel: one Python file, its script and its style."""
