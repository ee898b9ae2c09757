"""What the check says to a slip: whether it is found, where, with which fix, and what else is said."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from fingerpost.course.acceptance import settle
from fingerpost.course.build import build
from fingerpost.course.memory import Memory
from fingerpost.course.model import Block, Course
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Diagnostic, Edit, Severity
from fingerpost.source.page import PageRead, read_page

from .oracle import contradiction
from .places import Slip

ABOVE = re.compile(r"Write `(.+)` above this line\.")
BEFORE = re.compile(r"put (\S+) before this page")
HERE = re.compile(r"Write (\S+) here\.")
BELOW = re.compile(r"Write `(.+)` below this line\.")


@dataclass(frozen=True)
class Verdict:
    """What became of one slip. changes: it has the student do, see or hear something else. said: findings in all.

    denied: what in the text contradicts it, by the oracle; "" where the slip has made another right course.
    """

    slip: Slip
    changes: bool
    denied: str
    caught: bool
    line: bool
    column: bool
    fixed: bool
    said: int
    findings: tuple[Diagnostic, ...]


@dataclass
class Judge:
    """The clean course; pages that a slip leaves as they are are read once, blocks that follow unchanged built once.

    preferred: the names that the options of the course prefer.
    """

    texts: dict[str, str]
    settings: Settings
    preferred: frozenset[str] = frozenset()
    memory: Memory = field(default_factory=Memory)
    reads: dict[str, PageRead] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.reads = {file: read_page(file, text) for file, text in self.texts.items()}
        self.clean, self.found = self.checked({})
        self.model = taught(self.clean)

    def checked(self, over: dict[str, str], order: Sequence[str] = ()) -> tuple[Course, tuple[Diagnostic, ...]]:
        """The course with some pages otherwise, perhaps in another order, and what is found."""
        pages = [read_page(file, over[file]) if file in over else self.reads[file] for file in order or self.texts]
        course, found = build(pages, self.settings, self.memory, for_pages=False)
        return course, settle((*(finding for page in pages for finding in page.findings), *found), ()).standing

    def verdict(self, slip: Slip) -> Verdict:
        """What the check says."""
        course, found = self.checked({slip.file: "\n".join(slip.lines)}, slip.order)
        changes = bool([f for f in found if f.severity is Severity.ERROR]) or taught(course) != self.model
        here = [f for f in found if _is_there(f, slip)]
        exact = [f for f in here if f.span.file != slip.file or f.span.line != slip.line or _touches(f, slip)]
        fixed = any(self.mends(finding, slip) for finding in here)
        texts = {**self.texts, slip.file: "\n".join(slip.lines)}
        denied = contradiction({file: texts[file] for file in slip.order or texts}, self.preferred)
        return Verdict(slip, changes, denied, bool(found), bool(here), bool(exact), fixed, len(found), found)

    def mends(self, finding: Diagnostic, slip: Slip) -> bool:
        """Whether doing what the finding says gives a course without findings."""
        if before := BEFORE.match(finding.fix):
            return not self.checked({}, _put_before(slip.order or tuple(self.texts), before[1], finding.span.file))[1]
        file = finding.span.file
        lines = slip.lines if file == slip.file else tuple(self.texts[file].split("\n"))
        texts = (_edited(lines, [edit]) for edit in finding.edits) if finding.edits else _fixed(lines, finding)
        clean = "\n".join(self.texts[file].split("\n"))
        other = {} if file == slip.file else {slip.file: "\n".join(slip.lines)}
        for text in texts:
            new = "\n".join(text)
            if (new == clean and not other) or not self.checked({**other, file: new}, slip.order)[1]:
                return True
        return False


def _is_there(finding: Diagnostic, slip: Slip) -> bool:
    """Whether the finding stands where the slip may be told."""
    span = finding.span
    return (span.file, span.line) in slip.also or (span.file == slip.file and span.line in (slip.line, *slip.near))


def _put_before(order: Sequence[str], moved: str, page: str) -> tuple[str, ...]:
    rest = [file for file in order if file != moved]
    at = rest.index(page)
    return (*rest[:at], moved, *rest[at:])


def _touches(finding: Diagnostic, slip: Slip) -> bool:
    """Whether the finding points into the token, or at it and little more."""
    start, end = finding.span.column - 1, finding.span.end_column - 1
    if finding.span.end_line != finding.span.line:
        return False
    return start < max(slip.token[1], slip.token[0] + 1) and end > slip.token[0]


def _edited(lines: Sequence[str], edits: Sequence[Edit]) -> list[str]:
    out = list(lines)
    for edit in sorted(edits, reverse=True):
        line = out[edit.span.line - 1]
        out[edit.span.line - 1] = line[: edit.span.column - 1] + edit.text + line[edit.span.end_column - 1 :]
    return out


def _fixed(lines: Sequence[str], finding: Diagnostic) -> list[list[str]]:
    """The page with the fix written where it belongs, in each way in which a reader could take it."""
    at, fix = finding.span.line - 1, finding.fix
    out = list(lines)
    if above := ABOVE.fullmatch(fix):
        return [[*out[:at], above[1], *out[at:]]]
    last = next(n for n in range(at + 1, len(out) + 1) if n == len(out) or not out[n].startswith("  "))
    if below := BELOW.fullmatch(fix):
        return [[*out[:last], below[1], *out[last:]]]
    if fix == "Leave this step out.":
        return [[*out[:at], *out[last:]]]
    if fix == "Put the next step above this one.":
        after = next(n for n in range(last + 1, len(out) + 1) if n == len(out) or not out[n].startswith("  "))
        return [[*out[:at], *out[last:after], *out[at:last], *out[after:]]]
    if here := HERE.fullmatch(fix):
        fix = here[1]
    line, column, end = out[at], finding.span.column - 1, finding.span.end_column - 1
    ways = [line[:column] + fix + line[end:]]
    ways += [line[: found.start()] + fix + line[found.end() :]
             for found in (*re.finditer(r"[^,\]\[]+", line), *re.finditer(r"[^\s,\]\[]+", line))
             if found.start() <= column <= found.end()]  # fmt: skip
    if value := re.match(r"\s*(?:- )?(?:[a-z_]+: )?", line):
        ways += [value[0] + fix, line[: len(line) - len(line.lstrip(" -"))] + fix]
    move = re.match(r"- (?:move: )?(\S+ (?:off|(?:to|for) [^ ,]+))", line)
    if move:
        ways.append(line[: move.start(1)] + fix + line[move.end(1) :])
    put = [found for found in re.finditer(r"[1-4T] [^ ,]+", line) if found.start() <= column < found.end()]
    ways += [line[: found.start()] + fix + line[found.end() :] for found in put]
    return [[*out[:at], way, *out[at + 1 :]] for way in ways]


def taught(course: Course) -> list[object]:
    """All that a student of the course sees, hears or does: two courses that are alike in this differ in nothing."""
    return [
        (
            lesson.file,
            [_block(block) for block in lesson.blocks],
            [str(broken.id) for broken in lesson.broken],
            [(mention.kind, mention.words) for mention in lesson.mentions],
        )
        for lesson in course.lessons
    ]


def _block(block: Block) -> object:
    steps = [
        (
            s.shape,
            s.naming.shown,
            s.naming.taught_as,
            s.rest,
            s.back,
            s.passing,
            s.say,
            s.beats,
            s.pattern,
            s.cue,
            s.image,
        )
        for s in block.steps
    ]
    return (block.id, block.title, block.key, block.fretboard, block.teaches, steps)
