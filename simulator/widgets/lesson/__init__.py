"""The lesson panel: one Python file, its script and its style."""
