"""Versions of a call that are as hard as the call itself: made, measured, compared."""
