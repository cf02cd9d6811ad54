"""The test stand's page: what was typed, readings beside healthy ones, charts, bill, link."""
