"""The command `fingerpost`: reads its arguments, runs one command and answers with an exit code."""

from __future__ import annotations

import argparse
import difflib
import io
import os
import re
import sys
import traceback
from collections.abc import Sequence
from typing import NoReturn

from fingerpost import __version__
from fingerpost.cli import (
    chain,
    check,
    editor,
    export,
    improve,
    lay_out,
    name,
    neighbours,
    new,
    plan,
    review,
    route,
    spell,
)
from fingerpost.cli.answer import FINE, WRONG_USAGE, QuestionError, complain

COMMANDS = (new, check, editor, review, name, spell, neighbours, route, plan, chain, lay_out, improve, export)

DESCRIPTION = """\
Publishes a guitar course whose lessons are chord shapes that change by one finger at a time.

Writing a course
  fingerpost new my-course     a small course that works, to start from
  fingerpost check             every problem in the course, with its place and the nearest fix
  fingerpost review main..     what a branch changes for the player
  fingerpost lay-out C Am F G7 lessons made of a plan, ready for your words
  fingerpost improve PAGE.md   shorter and easier ways between its chords
  fingerpost editor            for your editor to start: findings while you type
  mkdocs serve                 the course in your browser, following what you write
  mkdocs build                 the course as a folder of files for any web host

Asking about music
  fingerpost name x32010       what a shape is called, and why
  fingerpost spell C7#9        the notes of a chord symbol
  fingerpost neighbours x32010 every shape one finger away
  fingerpost route C Am        the way from chord to chord, one finger at a time
  fingerpost plan C Am F G7    the best order for a set of chords
  fingerpost chain --length 9  a long chain of chords, each one finger from the last
  fingerpost export svg --shape x32010"""

EPILOG = """\
`fingerpost COMMAND --help` says more, with examples. An argument `-` reads the arguments from
standard input, one a line. Exit codes: 0 fine, 1 errors were found, 2 wrong usage or unreadable input."""


class Parser(argparse.ArgumentParser):
    """A parser whose complaints name the nearest thing that would have been right."""

    def error(self, message: str) -> NoReturn:
        """Says what is wrong with the arguments and leaves with exit code 2."""
        complain(*(_unknown_command(message) or (message[:1].upper() + message[1:], f"`{self.prog} --help`")))
        raise SystemExit(WRONG_USAGE)


def _unknown_command(message: str) -> tuple[str, str] | None:
    """What to say where argparse found no such command: that, and the nearest one."""
    found = re.match(r"argument COMMAND: invalid choice: '(.*?)' \(", message)
    if found is None:
        return None
    near = difflib.get_close_matches(found[1], [command.NAME for command in COMMANDS], 1)
    return f"There is no command {found[1]!r}", f"`fingerpost {near[0]}`" if near else "`fingerpost --help`"


def parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    form = argparse.RawDescriptionHelpFormatter
    top = Parser(prog="fingerpost", description=DESCRIPTION, epilog=EPILOG, formatter_class=form)
    top.add_argument("--version", action="version", version=f"fingerpost {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", dest="command", title="commands", parser_class=Parser)
    for command in COMMANDS:
        sub = commands.add_parser(
            command.NAME, help=command.SUMMARY, description=command.__doc__, epilog=command.EXAMPLES,
            formatter_class=form,
        )  # fmt: skip
        command.add_arguments(sub)
        sub.set_defaults(run=command.run)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and returns its exit code; never lets an exception through."""
    _be_patient_with_bytes()
    try:
        args = parser().parse_args(arguments)
        if args.command is None:
            parser().print_help()
            return FINE
        code: int = args.run(args)
        sys.stdout.flush()
        return code
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else WRONG_USAGE
    except QuestionError as problem:
        complain(problem.message, problem.fix)
        return WRONG_USAGE
    except BrokenPipeError:
        # The reader of our output has gone: what is still buffered must not be tried again at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        return 130
    except Exception as fault:
        return _own_fault(fault)


def _be_patient_with_bytes() -> None:
    """Bytes that are no text, in or out, are shown as escapes instead of ending the command."""
    for stream, errors in ((sys.stdin, "replace"), (sys.stdout, "backslashreplace"), (sys.stderr, "backslashreplace")):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=errors)


def _own_fault(fault: Exception) -> int:
    if os.environ.get("FINGERPOST_TRACE"):
        traceback.print_exc()
    complain(
        f"Fingerpost made a mistake of its own here ({type(fault).__name__}: {fault})",
        "set FINGERPOST_TRACE=1, run it again, and report what it prints",
    )
    return WRONG_USAGE
