"""Lessons: their texts and parts, their sums, and how far a learner has come."""
