"""The public list of causes and what counts as evidence."""
