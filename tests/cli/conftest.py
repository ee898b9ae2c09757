"""A command line, asked: what the tests of several commands share."""

from __future__ import annotations

import io
import sys

import pytest
from fingerpost.cli.main import main


@pytest.fixture
def ask(capsys, monkeypatch):
    """Runs a command: exit code, standard output, standard error."""

    def run(*arguments: str, stdin: str = "") -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "stdin", io.StringIO(stdin))
        capsys.readouterr()
        code = main(list(arguments))
        return (code, *capsys.readouterr())

    return run


@pytest.fixture
def refused(ask):
    """Asks what can't be answered: nothing on standard output, exit code 2, a sentence that says this, no traceback."""

    def run(arguments: list[str], says: str) -> None:
        code, out, err = ask(*arguments)
        assert (code, out) == (2, "")
        assert says in err
        assert "Traceback" not in err

    return run
