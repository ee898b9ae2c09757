"""The clean course, and the same course written otherwise: nothing must be found in any of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

COURSE = Path(__file__).parents[3] / "course"
OPTIONS = {"ties": ["Am7 not C6"]}
PREFERRED = frozenset({"Am7"})
"""The names that the options prefer."""
BLOCK = re.compile(r"^```moves\n(.*?)^```$", re.DOTALL | re.MULTILINE)


def lessons() -> dict[str, str]:
    """The students' pages of the demo course in the order of the navigation, by file."""
    nav = (COURSE.parent / "mkdocs.yml").read_text("utf-8").partition("- Lessons:")[2].partition("- For teachers:")[0]
    return {file: (COURSE / file).read_text("utf-8") for file in re.findall(r": ([a-z0-9-]+\.md)$", nav, re.MULTILINE)}


def _in_blocks(change: Callable[[str], str]) -> Callable[[str], str]:
    return lambda text: BLOCK.sub(lambda found: f"```moves\n{change(found[1])}```", text)


def _turned(body: str) -> str:
    """The keys of a block in another order, `steps` first."""
    head, steps, rest = body.partition("steps:\n")
    return steps + rest + "".join(reversed(head.splitlines(keepends=True)))


def _listed(body: str) -> str:
    return re.sub(
        r"^teaches: \[(.*)\]$", lambda m: "teaches:\n" + "\n".join(f"- {e}" for e in m[1].split(", ")), body, flags=re.M
    )


def _long(body: str) -> str:
    return re.sub(r"^- (?!move:)(.+?) = (\S+)$", r"- move: \1\n  name: \2", body, flags=re.M)


def _short(body: str) -> str:
    return re.sub(r"^- move: ([^\n]+)\n  name: (\S+)\n(?!  )", r"- \1 = \2\n", body, flags=re.M)


REFORMATTED: dict[str, Callable[[str], str]] = {
    "comments": _in_blocks(lambda body: re.sub(r"^(- [^\n]*off)$", r"# why\n\1 # because", body, flags=re.M)),
    "order of keys": _in_blocks(_turned),
    "blank lines": _in_blocks(lambda body: re.sub(r"^(- |steps:)", r"\n\1", body, flags=re.M)),
    "quotes": _in_blocks(lambda body: re.sub(r"^title: ([^'\n]*)$", r"title: '\1'", body, flags=re.M)),
    "a list below": _in_blocks(_listed),
    "the long form": _in_blocks(_long),
    "the short form": _in_blocks(_short),
    "steps indented": _in_blocks(lambda body: re.sub(r"^(- |  )", r"  \1", body, flags=re.M)),
    "line ends": lambda text: text.replace("\n", "\r\n"),
    "a byte-order mark": lambda text: "\ufeff" + text,
}
