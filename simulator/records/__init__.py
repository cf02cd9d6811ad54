"""Append-only storage of visits."""
