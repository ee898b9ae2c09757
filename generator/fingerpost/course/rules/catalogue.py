"""Collects what each finding means from the files of the rules; the guide's list is made from it.

Every file of this folder that explains codes holds them under `REASONS`, those of one idea together.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules

from fingerpost.course import rules
from fingerpost.course.rules.explanation import Explanation
from fingerpost.diagnostics import Code


def _reasons() -> Iterator[tuple[Code, Explanation]]:
    for file in iter_modules(rules.__path__, f"{rules.__name__}."):
        if file.name != __name__:
            yield from getattr(import_module(file.name), "REASONS", {}).items()


_COLLECTED = dict(_reasons())

CATALOGUE: dict[Code, Explanation] = {code: _COLLECTED[code] for code in Code}
"""One entry a code, in the order of the codes."""


def explain(code: Code) -> Explanation:
    """What a finding of this code means."""
    return CATALOGUE[code]
