"""Benchcall: a practice bench for diagnosing split air conditioners and heat pumps."""
