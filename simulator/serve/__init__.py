"""The composition root: pages, sessions, guards, command line, Voila application."""
