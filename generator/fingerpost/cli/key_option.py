"""The option `--key`, read alike by every command that has it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fingerpost.cli.answer import QuestionError

if TYPE_CHECKING:
    from fingerpost.music.key import Key


def read(text: str | None) -> Key | None:
    """The key that `--key` names, None where it is not given. Raises QuestionError."""
    from fingerpost.music.key import Key

    if text is None:
        return None
    try:
        return Key.parse(text)
    except ValueError as problem:
        raise QuestionError(f"--key is {text!r}: {problem}", "a key such as G, Em or Bb") from problem
