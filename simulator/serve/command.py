"""The command line: ``benchcall`` alone opens the bench."""

import argparse
import errno
import logging
import socket
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import TYPE_CHECKING, NoReturn

if TYPE_CHECKING:
    from simulator.serve.settings import Settings

FIRST_PORT = 8866
PORTS_TRIED = 20
HIGHEST_PORT = 65535
STOPPED = 130  # what a shell calls an end from the keyboard [-]


class OneSentence(argparse.ArgumentParser):
    """A parser whose complaint is one sentence."""

    def error(self, message: str) -> NoReturn:
        """Say what was wrong and stop.

        Parameters
        ----------
        message : str
            What the parser found.
        """
        sentence = message[:1].upper() + message[1:].rstrip(".")
        self.exit(2, f"{sentence}. See {self.prog} --help.\n")


def port(text: str) -> int:
    """A port number as typed.

    Parameters
    ----------
    text : str
        What follows ``--port``.

    Returns
    -------
    int
        A port that could be listened on. [-]

    Raises
    ------
    argparse.ArgumentTypeError
        With what was wrong.
    """
    if not (text.isascii() and text.isdigit()):
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to 65535, not {text!r}")
    if not 1 <= int(text) <= HIGHEST_PORT:
        raise argparse.ArgumentTypeError(f"a port lies between 1 and 65535, and {text} does not")
    return int(text)


def host(text: str) -> str:
    """An address to listen on, as typed.

    Parameters
    ----------
    text : str
        What follows ``--host``.

    Returns
    -------
    str
        Without blanks around it.

    Raises
    ------
    argparse.ArgumentTypeError
        When there is none.
    """
    if not text.strip():
        raise argparse.ArgumentTypeError("an address to listen on is needed, such as 127.0.0.1")
    return text.strip()


def places(text: str) -> int:
    """A number of pages as typed.

    Parameters
    ----------
    text : str
        What follows ``--places``.

    Returns
    -------
    int
        At least one. [-]

    Raises
    ------
    argparse.ArgumentTypeError
        With what was wrong.
    """
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 1000):
        raise argparse.ArgumentTypeError(f"places are a whole number from 1 to 1000, not {text!r}")
    return int(text)


def base_url(text: str) -> str:
    """A path in front of every address, as typed.

    Parameters
    ----------
    text : str
        What follows ``--base-url``.

    Returns
    -------
    str
        With a slash at both ends.
    """
    inner = text.strip("/")
    return f"/{inner}/" if inner else "/"


# Module and help of each; a module is loaded only when its own word is typed.
SUBCOMMANDS = {
    "readings": ("simulator.serve.commands.readings", "print what the tools would read"),
    "bench": ("simulator.serve.commands.bench", "time pages, answers and solutions"),
    "equipment": ("simulator.serve.commands.equipment", "fit a unit to its published data"),
    "policies": ("simulator.serve.commands.policies", "play all calls with simulated trainees"),
    "variants": ("simulator.serve.commands.variants", "find versions of a call that are as hard"),
    "password": ("simulator.serve.commands.password", "set the instructor's password"),
}


def build_parser(wanted: str) -> OneSentence:
    """The whole command line.

    Parameters
    ----------
    wanted : str
        The subcommand that was typed; only its own module is loaded.

    Returns
    -------
    OneSentence
        Ready to parse.
    """
    parser = OneSentence(
        prog="benchcall",
        description="A practice bench for diagnosing air conditioners. Alone, it opens the bench.",
    )
    parser.add_argument("--port", type=port, help=f"port (default: {FIRST_PORT} or the next free)")
    parser.add_argument(
        "--host", type=host, default="127.0.0.1", help="address (default: this computer only)"
    )
    parser.add_argument("--no-browser", action="store_true", help="do not open a browser")
    parser.add_argument("--places", type=places, default=40, help="pages at once (default: 40)")
    parser.add_argument(
        "--no-fork", action="store_true", help="start each page's kernel alone, as lessons change"
    )
    parser.add_argument("--base-url", type=base_url, default="/", help="path a proxy puts in front")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    for name, (module, told) in SUBCOMMANDS.items():
        sub = commands.add_parser(name, help=told)
        if name == wanted:
            loaded = import_module(module)
            loaded.add_arguments(sub)
            sub.set_defaults(run=loaded.run)
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Do what the command line asks.

    Parameters
    ----------
    arguments : sequence of str, optional
        Instead of the process's own.

    Returns
    -------
    int
        Exit status: 0 done, 1 failed, 2 not understood, 130 stopped from the keyboard. [-]
    """
    typed = list(sys.argv[1:] if arguments is None else arguments)
    wanted = next((word for word in typed if word in SUBCOMMANDS), "")
    try:
        options = build_parser(wanted).parse_args(typed)
        return int(options.run(options)) if options.command else _open_bench(options)
    except KeyboardInterrupt:
        return STOPPED


def _open_bench(options: argparse.Namespace) -> int:
    try:
        chosen = options.port or _free_port(options.host)
        _require_free(options.host, chosen)
    except OSError as error:
        return _fail(f"Cannot listen on {options.host}: {_reason(error)}.")
    except PortTaken as taken:
        return _fail(str(taken))
    return _serve(options, chosen)


def _serve(options: argparse.Namespace, chosen: int) -> int:
    from simulator.serve.guard import start_log
    from simulator.serve.paths import lessons_directory, log_file
    from simulator.serve.settings import Settings

    try:
        start_log(log_file("server"))
    except (OSError, ValueError) as error:
        return _fail(f"The data folder cannot be used: {_reason(error)}.")
    if not lessons_directory().is_dir():
        return _fail(f"There is no lessons folder at {lessons_directory()}.")
    from simulator.serve.application import serve

    settings = Settings(
        host=options.host,
        port=chosen,
        base_url=options.base_url,
        open_browser=not options.no_browser,
        places=options.places,
        forks=not options.no_fork,
    )
    logging.getLogger("traitlets").propagate = True
    try:
        serve(settings, lambda address: _say(_welcome(address, settings)))
    except OSError as error:
        return _fail(f"Cannot listen on port {chosen}: {_reason(error)}.")
    return 0


class PortTaken(Exception):
    """The port that was asked for is in use."""


def _free_port(host: str) -> int:
    for candidate in range(FIRST_PORT, FIRST_PORT + PORTS_TRIED):
        if _is_free(host, candidate):
            return candidate
    with _socket_for(host) as probe:
        probe.bind((host, 0))
        return int(probe.getsockname()[1])


def _require_free(host: str, chosen: int) -> None:
    if not _is_free(host, chosen):
        raise PortTaken(f"Port {chosen} is already in use; choose another with --port.")


def _is_free(host: str, candidate: int) -> bool:
    with _socket_for(host) as probe:
        if sys.platform != "win32":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host, candidate))
        except OSError as error:
            if error.errno == errno.EADDRINUSE:
                return False
            raise
    return True


def _socket_for(host: str) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    return socket.socket(family, socket.SOCK_STREAM)


def _welcome(address: str, settings: "Settings") -> str:
    from simulator.serve.settings import LOOPBACK

    note = ""
    if settings.host not in LOOPBACK:
        note = "Anyone who can reach this computer can open it, under its name or address.\n"
    return f"Benchcall is open at {address}\n{note}Press Ctrl-C to close it.\n"


def _reason(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).rstrip(".").lower()


def _say(text: str) -> None:
    sys.stdout.write(text)
    sys.stdout.flush()


def _fail(sentence: str) -> int:
    sys.stderr.write(sentence + "\n")
    return 2


if __name__ == "__main__":
    sys.exit(main())
