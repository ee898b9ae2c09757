"""The examples of the writer's guide: found in its pages, run, and put beside what the pages say comes of them.

What an example looks like in a page:

- a longer fence marked `markdown` is a page of a course. After it stands either a line that begins with `Makes:` and
  gives the names of its steps, block by block, or a line `Finds:` and a `text` fence with what the check prints.
- a `console` fence holds commands after `$ ` and exactly what they print.
- a table whose head is Move, From, Gives: each row is a step.
- between `<!-- made: options -->` and `<!-- end -->` stands a list that is written from the tool's own data; so do the
  table of findings (`made: findings`), and of each finding what it is (`made: about CODE`) and what to write instead
  (`made: instead of CODE`).

A line such as "With `ties: [Am7 not C6]`:" before a longer fence sets options of the course for that example.

Run as a program, `python tests/site/guide_examples.py`, it writes into the pages what comes of them now. Then read the
difference: a manual that agrees with a mistake is no better than one that does not.
"""

from __future__ import annotations

import dataclasses
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml
from fingerpost.course.acceptance import settle
from fingerpost.course.build import build
from fingerpost.course.model import Block, Course, Step
from fingerpost.course.rules.catalogue import explain
from fingerpost.course.rules.weights import MENDED, weights
from fingerpost.course.settings import OPTIONS, Settings, explanations
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.change_costs import ChangeCosts
from fingerpost.music.chord_symbol import write
from fingerpost.music.hand import Costs, Limits
from fingerpost.music.shape_text import write_shape
from fingerpost.music.tuning import Tuning
from fingerpost.report import text as report
from fingerpost.source.page import read_page
from fingerpost.workspace.checked import missing_images
from fingerpost.workspace.links import link_faults

ROOT = Path(__file__).resolve().parents[2]
GUIDE = ROOT / "course" / "teachers"
PAGE = "lesson.md"
MARKDOWN = re.compile(
    r"(?:^With `(?P<options>[^`]+)`:\n\n)?^````markdown\n(?P<text>.*?)^````\n\n"
    r"(?P<said>Makes: [^\n]*|Finds:\n\n```text\n.*?^```)",
    re.M | re.S,
)
MADE = re.compile(r"^<!-- made: (?P<what>[\w -]+) -->\n(?P<list>.*?)^<!-- end -->", re.M | re.S)
CONSOLE = re.compile(r"^```console\n(?P<text>.*?)^```", re.M | re.S)
SOURCE_IN_OUR_NOTES = re.compile(r" \(standards\.md[^)]*\)")
ROW = re.compile(r"^\| `(?P<move>[^`]+)` \| `(?P<start>\S+)` \| `(?P<gives>\S+)` (?P<name>\S+) \|$", re.M)


@dataclass(frozen=True)
class Example:
    """One example: the page and line where it stands, what is to be run, and what the page says comes of it."""

    page: str
    line: int
    text: str
    said: str
    options: str = ""

    def __str__(self) -> str:
        return f"{self.page}:{self.line}"


def pages() -> Iterator[tuple[str, str]]:
    """The guide's pages: name and text."""
    for path in sorted(GUIDE.glob("*.md")):
        yield path.name, path.read_text(encoding="utf-8")


def lessons() -> Iterator[Example]:
    """Every example that is a page of a course."""
    for page, text in pages():
        for match in MARKDOWN.finditer(text):
            yield Example(
                page, text.count("\n", 0, match.start()) + 1, match["text"], match["said"], match["options"] or ""
            )


def sessions() -> Iterator[Example]:
    """Every example of the command line."""
    for page, text in pages():
        for match in CONSOLE.finditer(text):
            yield Example(page, text.count("\n", 0, match.start()) + 1, commands(match["text"]), match["text"])


def rows() -> Iterator[tuple[Example, re.Match[str]]]:
    """Every row of a table of moves."""
    for page, text in pages():
        for match in ROW.finditer(text):
            yield Example(page, text.count("\n", 0, match.start()) + 1, match["move"], match["gives"]), match


def played(text: str, options: str = "") -> tuple[Course, list[Diagnostic]]:
    """The course of one page that has no file beside it, and everything that is found in it."""
    settings, problems = Settings.from_mapping(yaml.safe_load(options) or {})
    assert not problems, problems
    read = read_page(PAGE, text)
    course, of_course = build((read,), settings)
    missing = missing_images(read.syntax, lambda path: False)
    found = (*read.findings, *of_course, *missing, *link_faults((read,), course, settings, ()))
    return course, list(settle(found, read.acceptances).standing)


def said_of(text: str, options: str = "") -> str:
    """What a page of the guide should say of an example: the names it makes, or what is found in it."""
    course, found = played(text, options)
    return f"Finds:\n\n```text\n{checked(text, found)}\n```" if found else f"Makes: {makes(course)}"


def checked(text: str, found: list[Diagnostic]) -> str:
    """The findings as `fingerpost check` prints them, without the count."""
    lines = text.split("\n")

    def line_of(_: str, number: int) -> str:
        return lines[number - 1]

    return "\n\n".join("\n".join(report.finding_lines(finding, line_of)) for finding in found)


def makes(course: Course) -> str:
    """The names of all steps: commas between steps, `then` between blocks."""
    return " then ".join(_block(block) for lesson in course.lessons for block in lesson.blocks)


def _block(block: Block) -> str:
    return ", ".join(_step(step) for step in block.steps)


def _step(step: Step) -> str:
    if step.rest or step.passing:
        return "rest" if step.rest else "passing"
    assert step.naming.shown is not None
    return f"`{write(step.naming.shown)}`"


def after_move(start: str, move: str) -> tuple[str, str, list[Diagnostic]]:
    """What a row of a table of moves comes to: the shape, its name and what is found, all allowances given."""
    text = f"```moves\nid: row\nfingers_per_step: 2\nstart: {start}\nsteps:\n- {move}\n```\n"
    course, found = played(text, "hand_shifts: true")
    step = course.lessons[0].blocks[0].steps[-1]
    assert step.naming.shown is not None
    return write_shape(step.shape), write(step.naming.shown), found


def commands(text: str) -> str:
    """The commands of a session, one a line."""
    return "\n".join(line[2:] for line in text.splitlines() if line.startswith("$ "))


def session(asked: str) -> str:
    """The commands with what they print, as a session shows it; run in a copy of the demo course."""
    with tempfile.TemporaryDirectory() as folder:
        here = Path(shutil.copytree(ROOT / "course", Path(folder) / "course")).parent
        shutil.copy(ROOT / "mkdocs.yml", here)
        return "".join(f"$ {command}\n{_printed(command, here)}" for command in asked.splitlines())


def _printed(command: str, here: Path) -> str:
    """What a command prints. Only `fingerpost`, and `head` after it, are run."""
    first, _, rest = command.partition(" | ")
    words = shlex.split(first)
    assert words[0] == "fingerpost", command
    run = [sys.executable, "-c", "import sys; from fingerpost.cli.main import main; sys.exit(main())", *words[1:]]
    out = subprocess.run(run, capture_output=True, text=True, cwd=here, check=False)
    lines = (out.stdout + out.stderr).rstrip("\n").splitlines()
    if head := re.fullmatch(r"head -(\d+)", rest):
        lines = lines[: int(head[1])]
    return "".join(f"{line}\n" for line in lines)


def made(what: str) -> str:
    """What the guide has between two marks, as the tool's own data has it."""
    for begin, make in OF_A_FINDING.items():
        if what.startswith(begin):
            return make(Code(what.removeprefix(begin)))
    return _table_of_findings() if what == "findings" else _list(what)


def _table_of_findings() -> str:
    """Every code with what it stands for, its weight, and whether `--fix` can mend it."""
    rows = (
        f"| [`{code}`](#{code}) | {explain(code).title} | {_weight(code)} | {'yes' if code in MENDED else ''} |\n"
        for code in Code
    )
    return "\n| Code | Finds | Weight | `--fix` |\n| --- | --- | --- | --- |\n" + "".join(rows) + "\n"


def _weight(code: Code) -> str:
    return " or ".join(weights(code))


def _about(code: Code) -> str:
    """What a finding is: its title, why it matters, how much it weighs."""
    told = explain(code)
    mended = ", and `check --fix` can mend it" if code in MENDED else ""
    weight = _weight(code)
    return f"\n**{told.title}.** {told.why}\n\nWeight: {weight}{mended}.\n\n"


def _instead(code: Code) -> str:
    """The example of the explanation, and what to write in its place; fences that hold a fence are longer."""
    told = explain(code)
    return f"\nIn place of\n\n{_fenced(told.example)}\nwrite\n\n{_fenced(told.instead)}\n"


def _fenced(text: str) -> str:
    fence = "`````" if "```" in text else "```"
    return f"{fence}text\n{text}\n{fence}\n"


OF_A_FINDING: dict[str, Callable[[Code], str]] = {"about ": _about, "instead of ": _instead}


def _list(what: str) -> str:
    """A list of amounts or options: the name, what holds if nothing is said, what it means."""
    return "\n" + "".join(f"- **`{name}`** ({default}): {about}\n" for name, default, about in LISTS[what]()) + "\n"


def _options() -> Iterator[tuple[str, str, str]]:
    for name, about in explanations().items():
        yield name, _value(OPTIONS[name].default), about


def _amounts(kind: type[Limits] | type[Costs] | type[ChangeCosts]) -> Iterator[tuple[str, str, str]]:
    for amount in dataclasses.fields(kind):
        about = SOURCE_IN_OUR_NOTES.sub("", str(amount.metadata["about"]))
        yield amount.name, _value(amount.default), about[:1].upper() + about[1:] + "."


def _value(default: object) -> str:
    """A default as it would be written in mkdocs.yml."""
    match default:
        case Limits() | Costs() | ChangeCosts():
            return "see below"
        case Tuning():
            return f"`{default.name}`"
        case bool():
            return f"`{str(default).lower()}`"
        case None | ():
            return "nothing"
        case tuple():
            return f"`[{', '.join(map(str, default))}]`"
        case _:
            return f"`{default}`"


LISTS: dict[str, Callable[[], Iterator[tuple[str, str, str]]]] = {
    "options": _options,
    "limits": lambda: _amounts(Limits),
    "costs": lambda: _amounts(Costs),
    "change_costs": lambda: _amounts(ChangeCosts),
}


def lists() -> Iterator[Example]:
    """Every list that is written from the tool's own data."""
    for page, text in pages():
        for match in MADE.finditer(text):
            yield Example(page, text.count("\n", 0, match.start()) + 1, match["what"], match["list"])


def renewed(text: str) -> str:
    """A page of the guide with what comes of its examples now."""

    def lesson(match: re.Match[str]) -> str:
        return match[0].removesuffix(match["said"]) + said_of(match["text"], match["options"] or "")

    def from_data(match: re.Match[str]) -> str:
        return f"<!-- made: {match['what']} -->\n{made(match['what'])}<!-- end -->"

    def console(match: re.Match[str]) -> str:
        return f"```console\n{session(commands(match['text']))}```"

    return MADE.sub(from_data, CONSOLE.sub(console, MARKDOWN.sub(lesson, text)))


def main() -> None:
    """Renews every page."""
    for path in sorted(GUIDE.glob("*.md")):
        text = path.read_text(encoding="utf-8")
        if (new := renewed(text)) != text:
            path.write_text(new, encoding="utf-8")
            print(path.name)


if __name__ == "__main__":
    main()
