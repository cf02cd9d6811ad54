"""Kernels forked from a parent that has everything loaded."""
