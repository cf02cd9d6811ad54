"""``benchcall password``: sets the instructor's password."""

import argparse
import getpass
import sys

from simulator.serve.instructor.door import BadPassword, set_password


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command.

    Parameters
    ----------
    parser : ArgumentParser
        Of the command.
    """
    parser.add_argument(
        "--stdin", action="store_true", help="read it from standard input instead of asking"
    )


def run(options: argparse.Namespace) -> int:
    """Ask twice, or read once, and keep the hash.

    Parameters
    ----------
    options : Namespace
        As parsed.

    Returns
    -------
    int
        0 done, 2 not done. [-]
    """
    if options.stdin:
        password = sys.stdin.readline().rstrip("\n")
    else:
        try:
            password = getpass.getpass("Instructor's password, ten characters or more: ")
            again = getpass.getpass("Once more: ")
        except EOFError:
            sys.stderr.write("No password came; give it with --stdin or type it twice.\n")
            return 2
        if again != password:
            sys.stderr.write("The two differ; nothing was changed.\n")
            return 2
    try:
        set_password(password)
    except (BadPassword, ValueError) as problem:
        sys.stderr.write(f"{problem}\n")
        return 2
    sys.stdout.write("The instructor's password is set. It counts from the next sign-in.\n")
    return 0
