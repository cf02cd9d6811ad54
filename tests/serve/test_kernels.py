"""Kernels: freed when a page closes, limited in number, and told nothing they need not know."""

from pathlib import Path

from simulator.serve.kernels.page_kernels import clean_environment
from tests.serve.conftest import SECRET
from tests.serve.running import Client, RunningBench, kernel_of, running_bench, soon

PAGE = "voila/render/plain.ipynb"


def test_a_closing_tab_frees_its_kernel(test_bench: RunningBench, client: Client) -> None:
    before = len(test_bench.kernels())
    kernel = kernel_of(client.ask(PAGE).body)
    assert len(test_bench.kernels()) == before + 1
    assert client.cookie("_xsrf"), "without this cookie the tab's farewell is refused"
    assert client.close_page(kernel).status == 204
    assert soon(lambda: len(test_bench.kernels()) == before, within=5)


def test_nobody_else_can_reach_a_kernel(test_bench: RunningBench, client: Client) -> None:
    kernel = kernel_of(client.ask(PAGE).body)
    stranger = Client(test_bench.address)
    stranger.ask("")
    assert client.ask(f"api/kernels/{kernel}").status == 200
    assert stranger.ask(f"api/kernels/{kernel}").status == 404
    assert stranger.close_page(kernel).status == 404
    upgrade = {
        "Connection": "Upgrade",
        "Upgrade": "websocket",
        "Sec-WebSocket-Version": "13",
        "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==",
    }
    assert stranger.ask(f"api/kernels/{kernel}/channels", headers=upgrade).status == 404
    client.close_page(kernel)


def test_a_page_cannot_end_its_kernel_by_the_programming_interface(client: Client) -> None:
    kernel = kernel_of(client.ask(PAGE).body)
    headers = {"X-XSRFToken": client.cookie("_xsrf")}
    for method in ("DELETE", "POST", "PUT", "PATCH"):
        answer = client.ask(f"api/kernels/{kernel}", method=method, body=b"", headers=headers)
        assert answer.status == 405, method
    client.close_page(kernel)


def test_when_every_place_is_taken_one_is_asked_to_wait(test_lessons: Path, tmp_path: Path) -> None:
    with running_bench(tmp_path, "--places", "1", lessons=test_lessons) as bench:
        first, second = Client(bench.address), Client(bench.address)
        kernel = kernel_of(first.ask(PAGE).body)
        full = second.ask(PAGE)
        assert full.status == 503
        assert int(full.headers["Retry-After"]) > 0
        assert "Every place is taken" in full.body
        assert len(bench.kernels()) == 1
        assert second.ask("").status == 200, "the home page needs no place"
        first.close_page(kernel)
        assert soon(lambda: second.ask(PAGE).status == 200)


def test_a_kernel_sees_only_what_it_needs(client: Client) -> None:
    page = client.ask(PAGE).body
    client.close_page(kernel_of(page))
    assert "QUERY_STRING" in page
    assert "OPENBLAS_NUM_THREADS" in page
    assert "SOME_PASSWORD" not in page
    assert SECRET not in page


def test_an_environment_is_cleaned_by_name() -> None:
    cleaned = clean_environment(
        {"PATH": "/bin", "LC_ALL": "C", "AWS_SECRET": "x", "BENCHCALL_DATA": "d", "TOKEN": "y"}
    )
    assert {"PATH", "LC_ALL", "BENCHCALL_DATA"} <= set(cleaned)
    assert not {"AWS_SECRET", "TOKEN"} & set(cleaned)
    assert cleaned["OPENBLAS_NUM_THREADS"] == "1"
