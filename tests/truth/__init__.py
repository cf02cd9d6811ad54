"""How true the plant is: the checks as data and pure functions, for tests and for the report."""
