"""Only notebooks that say what they are can be opened; nothing else is given out."""

import pytest

from tests.serve.conftest import SECRET
from tests.serve.running import Client, RunningBench

CLOSED = [
    "api",
    "api/contents",
    "api/kernels",
    "api/kernelspecs",
    "api/sessions",
    "api/terminals",
    "api/status",
    "files/key.csv",
    "lab",
    "login",
    "metrics",
    "notebooks/plain.ipynb",
    "tree",
    "voila/api/contents",
    "voila/query/0-0-0-0-0",
    "voila/tree",
]
UNOPENED = [
    "draft.ipynb",
    "unknown.ipynb",
    "secret.py",
    "../lessons/plain.ipynb",
    "%2e%2e/plain.ipynb",
    "plain.ipynb/extra",
    "",
]


@pytest.mark.parametrize("path", CLOSED)
def test_doors_that_are_open_by_default_are_closed(client: Client, path: str) -> None:
    assert client.ask(path).status == 404


@pytest.mark.parametrize("notebook", UNOPENED)
def test_an_unlisted_notebook_is_not_run(
    test_bench: RunningBench, client: Client, notebook: str
) -> None:
    before = len(test_bench.kernels())
    assert client.ask(f"voila/render/{notebook}").status == 404
    assert len(test_bench.kernels()) == before


@pytest.mark.parametrize(
    "name", ["key.csv", "visits.sqlite", "secret.py", ".env", "picture.png", "plain.ipynb"]
)
def test_no_file_beside_the_lessons_is_given_out(client: Client, name: str) -> None:
    answer = client.ask(f"voila/files/{name}")
    assert answer.status == 403
    assert SECRET not in answer.body


@pytest.mark.parametrize("path", ["%2e%2e/application.py", "../../application.py", "nothing.css"])
def test_only_static_files_are_static(client: Client, path: str) -> None:
    assert client.ask(f"benchcall/static/{path}").status in (403, 404)


def test_a_missing_page_says_where_to_go(client: Client) -> None:
    answer = client.ask("no/such/page")
    assert answer.status == 404
    assert "There is no such page" in answer.body
    assert 'href="/"' in answer.body
    assert "Traceback" not in answer.body
