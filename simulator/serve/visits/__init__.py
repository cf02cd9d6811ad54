"""Visits to a call: worked, coached, closed, graded, debriefed."""
