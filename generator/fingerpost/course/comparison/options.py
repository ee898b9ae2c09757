"""The options of a course before and after: each that differs, as its author writes it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import fields
from typing import Any

from fingerpost.course.comparison.step_difference import Fact
from fingerpost.course.settings import OPTIONS, Settings
from fingerpost.music.chord import Chord
from fingerpost.music.chord_symbol import write

_TABLES = ("limits", "costs", "change_costs")


def option_facts(before: Settings, after: Settings) -> Iterator[Fact]:
    """Options that differ; of a table of amounts, each amount that does; of redirects, those that do."""
    for name in OPTIONS:
        old, new = getattr(before, name), getattr(after, name)
        if old == new:
            continue
        if name in _TABLES:
            yield from _amounts(name, old, new)
        elif name == "redirects":
            yield Fact(name, _redirects(old, new), _redirects(new, old))
        else:
            yield Fact(name, _written(name, old), _written(name, new))


def _amounts(table: str, old: Any, new: Any) -> Iterator[Fact]:
    for amount in fields(old):
        one, other = getattr(old, amount.name), getattr(new, amount.name)
        if one != other:
            yield Fact(f"{table}.{amount.name}", _plain(one), _plain(other))


def _redirects(these: Collection[tuple[str, str]], others: Collection[tuple[str, str]]) -> str | None:
    """The redirects that only one side has."""
    known = frozenset(others)
    return ", ".join(f"{old} to {new}" for old, new in these if (old, new) not in known) or None


def _ties(ties: Collection[tuple[Chord, Chord]]) -> str | None:
    return ", ".join(f"{write(kept)} not {write(other)}" for kept, other in ties) or None


_OWN: dict[str, Callable[[Any], str | None]] = {"ties": _ties}


def _written(name: str, value: object) -> str | None:
    return _OWN.get(name, _plain)(value)


def _plain(value: object) -> str | None:
    """A value as it stands in mkdocs.yml."""
    if isinstance(value, tuple):
        return ", ".join(map(str, value))
    return None if value is None else str(value).lower() if isinstance(value, bool) else str(value)
