"""What a run over the lessons adds to them; without their plugin it adds nothing."""

from importlib.util import find_spec

pytest_plugins = ["tests.serve.opening_messages"] if find_spec("nbval") else []
