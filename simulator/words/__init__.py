"""Words: what the bench says, in the language of who reads it."""
