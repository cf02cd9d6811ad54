"""A page names the scripts it will need before its kernel has started."""

import re
from pathlib import Path

from simulator.serve.web.front_end import first_scripts
from tests.serve.running import Client, kernel_of


def test_the_pieces_are_read_from_the_first_script(tmp_path: Path) -> None:
    (tmp_path / "voila.js").write_text("Promise.all([a.e(12),a.e(7)]);b.e(12)", encoding="utf-8")
    (tmp_path / "12.voila.js").write_text("", encoding="utf-8")
    assert first_scripts([str(tmp_path / "no"), str(tmp_path)]) == ["voila.js", "12.voila.js"]


def test_an_unknown_build_asks_for_nothing_ahead(tmp_path: Path) -> None:
    assert first_scripts([str(tmp_path)]) == []


def test_every_script_asked_for_ahead_exists(client: Client) -> None:
    page = client.ask("voila/render/plain.ipynb").body
    client.close_page(kernel_of(page))
    ahead = re.findall(r'<link rel="preload" as="script" href="/([^"]+)"', page)
    assert len(ahead) > 20
    assert client.ask(ahead[0]).status == 200
    assert client.ask(ahead[-1]).status == 200
