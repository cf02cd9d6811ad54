"""The debrief panel: one Python file, its script and its style."""
