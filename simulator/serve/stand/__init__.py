"""The test stand without its page: what it can be set to, the house and unit it builds, a day."""
