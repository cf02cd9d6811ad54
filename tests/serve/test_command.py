"""The command line answers a mistake with one sentence."""

import socket
from pathlib import Path

import pytest

from simulator.serve import application
from simulator.serve.command import main
from simulator.serve.paths import data_directory, lessons_directory
from tests.serve.running import RunningBench


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--port", "abc"], "whole number"),
        (["--port", ""], "whole number"),
        (["--port", "-1"], "whole number"),
        (["--port", "80.5"], "whole number"),
        (["--port", "0"], "between 1 and 65535"),
        (["--port", "65536"], "between 1 and 65535"),
        (["--host", " "], "address"),
        (["--places", "none"], "whole number"),
        (["--places", "0"], "whole number"),
        (["--colour"], "--colour"),
        (["mend"], "mend"),
        (["--port"], "--port"),
    ],
)
def test_a_mistake_gets_one_sentence(
    arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    said = capsys.readouterr().err
    assert words in said
    assert said.count("\n") == 1
    assert "Traceback" not in said


def test_a_port_in_use_is_said_in_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert main(["--port", str(port), "--no-browser"]) == 2
    assert capsys.readouterr().err == (
        f"Port {port} is already in use; choose another with --port.\n"
    )


def test_an_unknown_name_to_listen_on_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--host", "no such name", "--no-browser"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("Cannot listen on no such name: ")
    assert said.count("\n") == 1


def test_an_address_of_another_computer_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--host", "192.0.2.1", "--no-browser"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("Cannot listen on 192.0.2.1: ")
    assert said.count("\n") == 1


def test_a_data_folder_that_is_a_file_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path / "file"))
    assert main(["--no-browser"]) == 2
    assert capsys.readouterr().err.startswith("The data folder cannot be used: ")


def test_data_among_the_lessons_is_refused(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BENCHCALL_DATA", str(lessons_directory() / "data"))
    with pytest.raises(ValueError, match="must not lie inside"):
        data_directory()
    assert main(["--no-browser"]) == 2
    assert "must not lie inside" in capsys.readouterr().err


def test_ctrl_c_before_it_is_open_ends_quietly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setenv("BENCHCALL_DATA", str(tmp_path))
    monkeypatch.setattr(application, "serve", stopped)
    assert main(["--no-browser"]) == 130
    said = capsys.readouterr()
    assert (said.out, said.err) == ("", "")


def test_it_listens_on_this_computer_only_and_says_where(test_bench: RunningBench) -> None:
    assert test_bench.address.startswith("http://127.0.0.1:")
