"""What a stranger writes into an address does nothing."""

from tests.serve.running import Client, kernel_of

ATTACK = "%22%3E%3Cscript%3Ealert(1)%3C/script%3E"


def test_a_theme_in_the_address_is_not_echoed(client: Client) -> None:
    page = client.ask(f"voila/render/plain.ipynb?theme={ATTACK}").body
    client.close_page(kernel_of(page))
    assert "alert(1)" not in page


def test_a_template_in_the_address_changes_nothing(client: Client) -> None:
    answer = client.ask("voila/render/plain.ipynb?template=nope")
    client.close_page(kernel_of(answer.body))
    assert answer.status == 200
    assert 'id="page"' in answer.body


def test_nothing_of_an_address_is_echoed_by_error_pages(client: Client) -> None:
    for path in (f"{ATTACK}", f"start/{ATTACK}", f"voila/render/{ATTACK}.ipynb"):
        answer = client.ask(path)
        assert answer.status == 404
        assert "alert(1)" not in answer.body


def test_a_page_shows_no_source(client: Client) -> None:
    page = client.ask("voila/render/plain.ipynb").body
    client.close_page(kernel_of(page))
    assert "os.environ" not in page


def test_a_page_has_a_language_a_landmark_and_a_way_past_the_strip(client: Client) -> None:
    page = client.ask("voila/render/plain.ipynb").body
    client.close_page(kernel_of(page))
    assert '<html lang="en">' in page
    assert page.count("<main") == 1
    assert 'href="#page"' in page
    assert "https://" not in page
