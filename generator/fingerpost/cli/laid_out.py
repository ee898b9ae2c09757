"""A plan, searched or read, made into lessons that the check has nothing to say about."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from fingerpost.cli import instrument, plan_options, plan_said
from fingerpost.cli.answer import QuestionError
from fingerpost.cli.plan import searched
from fingerpost.course.build import build
from fingerpost.course.lesson_draft import Draft, Planned, PlannedStep, drafts, is_name
from fingerpost.course.settings import Settings
from fingerpost.diagnostics import Code, Diagnostic, Severity
from fingerpost.music.difficulty import difficulty
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand
from fingerpost.music.shape import Shape
from fingerpost.music.transition import transition
from fingerpost.source.page import read_page
from fingerpost.workspace.edits import chosen, edited

MOST_STEPS, MOST_ROUNDS = 60, 20


class NoPlanError(Exception):
    """There is no plan to lay out."""


def laid_out(args: argparse.Namespace) -> tuple[Draft, ...]:
    """The lessons that are asked for. Raises QuestionError and NoPlanError."""
    if not (args.steps.isascii() and args.steps.isdigit() and 1 <= int(args.steps[:4]) <= MOST_STEPS):
        raise QuestionError(f"--steps is {args.steps!r}; expected a number from 1 to {MOST_STEPS}")
    if not is_name(args.called):
        raise QuestionError(
            f"--called is {args.called!r}; expected small letters, figures and hyphens", "--called winter"
        )
    plan, hand = _plan(args)
    return in_order(drafts(plan, int(args.steps), args.called), plan.fretboard, hand)


def _plan(args: argparse.Namespace) -> tuple[Planned, Hand]:
    if args.chords == ["-"]:
        said = sys.stdin.read()
        if said.lstrip().startswith("{"):
            return from_json(said, instrument.fretboard(args)), Hand()
        args.chords = said.split() or ["-"]
        if args.chords == ["-"]:
            raise QuestionError("Standard input is empty; expected a plan or chords", "`fingerpost plan --json C Am F`")
    planning = plan_options.read(args)
    if searched(planning):
        raise KeyboardInterrupt
    plan = planning.plan
    if plan is None:
        raise NoPlanError("; ".join(plan_said.because(planning)))
    rows = [
        (move, item.step.shape, None if passing else symbol)
        for (move, _, symbol, passing), item in zip(plan_said.rows(planning, plan), plan.steps, strict=True)
    ]
    board, hand = planning.question.fretboard, planning.question.hand
    return planned(plan.start, plan_said.called(planning.wish[plan.order[0]]), rows, board, hand), hand


def planned(
    start: Shape, chord: str, rows: Sequence[tuple[str, Shape, str | None]], board: Fretboard, hand: Hand
) -> Planned:
    """A plan with the points of each change."""
    before, steps = start, []
    for move, shape, name in rows:
        points = difficulty(transition(before, shape, board), board, hand).total
        steps.append(PlannedStep(move, shape, name, points))
        before = shape
    return Planned(start, _named(start, chord, board), tuple(steps), board)


def _named(shape: Shape, chord: str, board: Fretboard) -> str:
    """What a shape is called that was asked for as a shape; a chord as it was asked for."""
    from fingerpost.cli.sound import names_of

    return chord if chord[:1] in "ABCDEFG" else next((name.symbol for name in names_of(shape, board)), chord)


def from_json(said: str, board: Fretboard) -> Planned:
    """A plan as `fingerpost plan --json` or `chain --json` writes it. Raises QuestionError."""
    try:
        first, *more = said.strip().splitlines()
        plan: dict[str, Any] = json.loads(first)
        if plan.get("unreachable"):
            raise NoPlanError("; ".join(map(str, plan.get("because", ()))))
        start = instrument.shape(plan["from"], board)
        rows = [
            (
                _line(step["move"]),
                instrument.shape(step["shape"], board),
                None if step["passing"] else _line(step["symbol"]),
            )
            for step in plan["steps"]
        ]
        chord = _line(plan["chords"][0])
    except (ValueError, KeyError, TypeError, IndexError, AttributeError) as problem:
        raise QuestionError(
            "Standard input is no plan that can be laid out", "one line of `fingerpost plan --json C Am F`"
        ) from problem
    if more:
        raise QuestionError(f"Standard input holds {len(more) + 1} plans; one is laid out at a time", "`head -1`")
    return planned(start, chord, rows, board, Hand())


def _line(text: object) -> str:
    """Text that can stand on a line of a block. Raises ValueError."""
    if (
        not isinstance(text, str)
        or not text.isprintable()
        or not text.isascii()
        or "#" in text.split()
        or len(text) > 80
    ):
        raise ValueError(text)
    return text


def in_order(lessons: Sequence[Draft], board: Fretboard, hand: Hand) -> tuple[Draft, ...]:
    """The lessons with what the check finds mended: what each one teaches, and names that are only taught as such.

    Raises QuestionError where something is left.
    """
    texts = {lesson.file: lesson.text for lesson in lessons}
    settings = Settings(limits=hand.limits, costs=hand.costs, change_costs=hand.change_costs)
    for _ in range(MOST_ROUNDS):
        found = [finding for finding in findings(texts, settings) if finding.severity is not Severity.NOTE]
        if not found:
            return tuple(replace(lesson, text=texts[lesson.file]) for lesson in lessons)
        if not (_mended(texts, found) or _taught_as(texts, found)):
            break
    line = texts[found[0].span.file].split("\n")[found[0].span.line - 1]
    raise QuestionError(f"The plan can't be laid out: in `{line}`, {found[0].message}", found[0].fix)


def _mended(texts: dict[str, str], found: Sequence[Diagnostic]) -> bool:
    """Makes the fixes that are safe and are no change of name; whether there were any."""
    together = chosen(finding for finding in found if finding.edits and finding.code is not Code.NAME_IS_WRONG)
    for file in {finding.span.file for finding in together}:
        edits = [edit for finding in together if finding.span.file == file for edit in finding.edits]
        texts[file] = edited(texts[file], edits)
    return bool(together)


def _taught_as(texts: dict[str, str], found: Sequence[Diagnostic]) -> bool:
    """Turns names that a shape does not have strictly into names that it is taught as; whether there were any."""
    lines = {(finding.span.file, finding.span.line) for finding in found if finding.code is Code.NAME_IS_WRONG}
    for file, number in lines:
        split = texts[file].split("\n")
        split[number - 1] = split[number - 1].replace(" = ", " ~ ", 1)
        texts[file] = "\n".join(split)
    return bool(lines)


def findings(texts: dict[str, str], settings: Settings) -> list[Diagnostic]:
    """What the check says of pages in this order, as a course of their own."""
    pages = tuple(read_page(file, text) for file, text in texts.items())
    _, of_course = build(pages, settings)
    return [*(finding for page in pages for finding in page.findings), *of_course]
