"""A scorecard from events and key; pure, after the call is closed."""
