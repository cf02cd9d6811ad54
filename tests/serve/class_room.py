"""A class of the tests: its visits, its instructor's password, its forms."""

from urllib.parse import urlencode

from simulator.serve.classes.files import class_visits
from simulator.serve.visits import visits
from simulator.serve.visits.visits import CallDesk
from tests.serve.running import Answer, Client

PASSWORD = "four plain words here"


def begun(call: str, trainee: str) -> CallDesk:
    """A visit as the start page begins it."""
    token = visits.start_visit(call, trainee)
    class_visits().note(token, call, trainee)
    return visits.open_desk(token)


def send(client: Client, path: str, **fields: str) -> Answer:
    """A form."""
    client.ask("")
    body = urlencode({"_xsrf": client.cookie("_xsrf"), **fields}).encode()
    return client.ask(path, method="POST", body=body)
