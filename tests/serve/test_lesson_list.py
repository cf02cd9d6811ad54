"""The list of pages is made from what the notebooks say of themselves."""

import ast
import json
from pathlib import Path

import pytest

from simulator.serve.paths import lessons_directory
from simulator.serve.web.notebooks import pages
from tests.serve.running import lesson_block, write_notebook

OURS = sorted(lessons_directory().glob("*.ipynb"))


def test_a_notebook_with_an_incomplete_block_is_left_out(tmp_path: Path) -> None:
    write_notebook(tmp_path / "whole.ipynb", **lesson_block("Whole"))
    for missing in lesson_block(""):
        block = lesson_block("Part")
        del block[missing]
        write_notebook(tmp_path / f"no-{missing}.ipynb", **block)
    write_notebook(tmp_path / "odd.ipynb", **(lesson_block("Odd") | {"page": "admin"}))
    (tmp_path / "damaged.ipynb").write_text("{", encoding="utf-8")
    assert [page.notebook for page in pages(tmp_path)] == ["whole.ipynb"]


def test_every_notebook_of_ours_can_be_opened() -> None:
    found = pages(lessons_directory())
    assert [page.notebook for page in found] == [path.name for path in OURS]
    assert {"test-stand", "call", "debrief"} <= {page.kind for page in found}


@pytest.mark.parametrize("path", OURS, ids=lambda path: path.stem)
def test_a_lesson_is_thin(path: Path) -> None:
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    code = [cell for cell in cells if cell["cell_type"] == "code"]
    assert len(code) <= 5
    assert all(cell.get("id") for cell in cells)
    for cell in code:
        source = "".join(cell["source"])
        assert len(source.splitlines()) <= 3
        assert cell["outputs"] == []
        assert cell["execution_count"] is None
        _only_calls(ast.parse(source))


def _only_calls(tree: ast.Module) -> None:
    for node in ast.walk(tree):
        assert not isinstance(
            node, ast.For | ast.While | ast.FunctionDef | ast.Lambda | ast.BinOp | ast.ListComp
        )
        assert not isinstance(node, ast.Import)
        if isinstance(node, ast.ImportFrom):
            assert (node.module or "").split(".")[:2] == ["simulator", "serve"]
        if isinstance(node, ast.Constant):
            assert not isinstance(node.value, int | float)
