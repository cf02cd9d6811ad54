"""The call panel: one Python file, its script and its style."""
