"""Speaks with your editor while you write: findings as you type, names and the hand's state, completion, jumps."""

from __future__ import annotations

import argparse
import importlib.util
import sys

from fingerpost.cli.answer import FINE, WRONG_USAGE, complain

NAME = "editor"
SUMMARY = "findings while you type, in an editor"
EXAMPLES = """\
This command is started by an editor, not by hand: it speaks the Language Server Protocol over standard input and
output. Tell yours to start `fingerpost editor` for Markdown files; the course is found by its mkdocs.yml.

It reads what `fingerpost check` reads, and what you have typed and not saved. Nothing that mkdocs.yml names is run.

examples:
  fingerpost editor
  fingerpost editor --stdio"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Adds the argument that many editors give to every server; there is no other way of speaking."""
    parser.add_argument("--stdio", action="store_true", help="speak over standard input and output, as always")


def run(args: argparse.Namespace) -> int:
    """Speaks with the editor until it says goodbye; exit code 2 where that can't be."""
    if any(importlib.util.find_spec(name) is None for name in ("pygls", "lsprotocol")):
        complain("This needs the package pygls, which is not installed", "pip install 'fingerpost[editor]'")
        return WRONG_USAGE
    if sys.stdin.isatty():
        complain("This command is started by an editor and speaks its language", "fingerpost editor --help")
        return WRONG_USAGE
    from fingerpost.editor.server import serve

    serve()
    return FINE
