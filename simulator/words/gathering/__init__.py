"""Gathering: every text of the source that people read, for a translator's file."""
