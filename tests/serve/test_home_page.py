"""The home page: everything there is, at once, and without a kernel."""

import re
import time

from tests.serve.running import Client, RunningBench


def test_it_starts_no_kernel(test_bench: RunningBench, client: Client) -> None:
    before = len(test_bench.kernels())
    assert client.ask("").status == 200
    assert len(test_bench.kernels()) == before


def test_it_answers_at_once(client: Client) -> None:
    """The quickest of nine: what it waits for itself is in all of them, other work is not."""
    client.ask("")
    took = []
    for _ in range(9):
        begun = time.perf_counter()
        client.ask("")
        took.append(time.perf_counter() - begun)
    assert min(took) < 0.05


def test_it_lists_the_lessons_and_the_calls(client: Client) -> None:
    page = client.ask("").body
    assert "Plain" in page
    assert "draft" not in page
    assert page.count("Take the call") >= 2


def test_the_calls_stand_by_level_with_mode_and_hours(client: Client) -> None:
    page = client.ask("").body
    levels = [int(found) for found in re.findall(r'id="level-(\d)"', page)]
    assert levels == sorted(set(levels))
    hours = r'· (?:cooling|heating) · <span class="whole">about [\d.]+ h<'
    assert len(re.findall(hours, page)) == page.count("<h4>")


def test_it_names_nothing_on_another_server(client: Client) -> None:
    addresses = re.findall(r'(?:href|src|action)="([^"]*)"', client.ask("").body)
    assert addresses
    assert all(address.startswith(("/", "#")) for address in addresses)


def test_the_browser_gets_a_name_that_scripts_cannot_read(client: Client) -> None:
    sent = client.ask("").headers.get_all("Set-Cookie")
    name = next(cookie for cookie in sent if cookie.startswith("benchcall-trainee="))
    assert "HttpOnly" in name
    assert "SameSite=Lax" in name
    first = client.cookie("benchcall-trainee")
    client.ask("")
    assert client.cookie("benchcall-trainee") == first


def test_scripts_from_elsewhere_and_in_the_text_are_refused(client: Client) -> None:
    for path in ("", "start/nothing", "voila/render/draft.ipynb"):
        policy = client.ask(path).headers["Content-Security-Policy"]
        assert "default-src 'self'" in policy
        scripts = next(rule for rule in policy.split("; ") if rule.startswith("script-src"))
        assert scripts == "script-src 'self' blob:"


def test_a_call_is_shown_before_it_is_taken(client: Client) -> None:
    call = _first_call(client)
    shown = client.ask(f"start/{call}")
    assert shown.status == 200
    assert "Take the call" in shown.body
    assert "Visits you have open" not in client.ask("").body


def test_taking_a_call_leads_to_its_page_and_is_remembered(client: Client) -> None:
    call = _first_call(client)
    form = f"_xsrf={client.cookie('_xsrf')}".encode()
    taken = client.ask(f"start/{call}", method="POST", body=form)
    assert taken.status == 303
    assert re.fullmatch(
        r"/voila/render/call\.ipynb\?visit=[A-Za-z0-9_-]{8,64}", taken.headers["Location"]
    )
    assert "Visits you have open" in client.ask("").body
    assert "Visits you have open" not in Client(client.address).ask("").body


def test_a_call_cannot_be_taken_from_another_site(client: Client) -> None:
    call = _first_call(client)
    assert client.ask(f"start/{call}", method="POST", body=b"").status == 403


def test_an_unknown_call_has_no_page(client: Client) -> None:
    assert client.ask("start/no-such-call").status == 404


def test_a_strange_name_for_this_computer_is_refused(client: Client) -> None:
    assert client.ask("", headers={"Host": "elsewhere.example"}).status == 403


def _first_call(client: Client) -> str:
    found = re.search(r'action="/start/([^"]+)"', client.ask("").body)
    assert found
    return found[1]
