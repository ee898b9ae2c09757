"""How commands answer: results on standard output, complaints on standard error, and what the exit codes mean."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator
from typing import Any

from fingerpost.report.visible import visible

FINE, FOUND_ERRORS, WRONG_USAGE = 0, 1, 2


class QuestionError(Exception):
    """An argument that can't be answered. message: what is wrong; fix: what to write instead ("" if unknown)."""

    def __init__(self, message: str, fix: str = "") -> None:
        """Both are for the person at the terminal."""
        super().__init__(message)
        self.message, self.fix = message, fix


def complain(message: str, fix: str = "") -> None:
    """Says on standard error what is wrong and what to do about it."""
    stop = "" if message.endswith((".", "!", "?", "^")) else "."
    said = f"fingerpost: {message}{stop}" + (f" Try: {fix}" if fix else "")
    print("\n".join(map(visible, said.split("\n"))), file=sys.stderr)


def say_json(value: Any) -> None:
    """One object on one line of standard output."""
    # ASCII only: no sign of an asker's text acts on the terminal.
    print(json.dumps(value, ensure_ascii=True))


def each(arguments: Iterable[str]) -> Iterator[str]:
    """The arguments, `-` replaced by the lines of standard input; empty lines are passed over."""
    for argument in arguments:
        if argument == "-":
            yield from (line.strip() for line in sys.stdin if line.strip())
        else:
            yield argument


def answer_each(arguments: Iterable[str], answer: Callable[[str], None]) -> int:
    """Answers each argument; one that can't be answered is complained about and does not stop the others."""
    code = FINE
    for argument in each(arguments):
        try:
            answer(argument)
        except QuestionError as problem:
            sys.stdout.flush()
            complain(problem.message, problem.fix)
            code = WRONG_USAGE
    return code
