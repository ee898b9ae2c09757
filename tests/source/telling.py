"""Tells what was read as lines that a person can write down and compare."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from fingerpost.diagnostics import Diagnostic, Span
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import (
    Action,
    AfterStart,
    AsTaughtStart,
    BlockSyntax,
    ExchangeFinger,
    FingersStart,
    LiftFinger,
    Mention,
    MoveLine,
    MuteString,
    NameSaid,
    OpenStart,
    Place,
    PlaceFinger,
    PreviousStart,
    ShapeStart,
    ShiftHand,
    Start,
    StepSyntax,
    StrumStrings,
    Token,
)


def page(read: PageRead) -> list[str]:
    """A whole page: its title, its parts in order and its findings."""
    lines = [f"title {read.syntax.title}"] if read.syntax.title else []
    for part in read.syntax.parts:
        lines.extend(_mention(part) if isinstance(part, Mention) else _block(part))
    return [*lines, *map(finding, read.findings)]


def finding(found: Diagnostic) -> str:
    """A finding: place, weight, code, and its words."""
    words = "; ".join(
        part for part in (found.message, found.expected and f"expected {found.expected}", found.fix) if part
    )
    return f"{place(found.span)} {found.severity} {found.code}: {words}"


def place(span: Span) -> str:
    """`line:column-end`, or `line:column-line:end` for several lines."""
    end = f"{span.end_column}" if span.line == span.end_line else f"{span.end_line}:{span.end_column}"
    return f"{span.line}:{span.column}-{end}"


def _token(token: Token) -> str:
    return f"{token.text!r} {place(token.span)}"


def _mention(mention: Mention) -> Iterator[str]:
    words = ", ".join(map(_token, mention.words))
    yield f"mention {mention.ordinal} {mention.kind} {place(mention.span)}: {words}"


def _block(block: BlockSyntax) -> Iterator[str]:
    yield f"block {place(block.span)}"
    for name in ("id", "title", "key", "tuning", "capo", "fingers_per_step"):
        if token := getattr(block, name):
            yield f"  {name} {_token(token)}"
    if block.start:
        yield f"  start {start(block.start)}"
    if block.strum:
        yield f"  {action(block.strum)}"
    if block.teaches:
        yield f"  teaches {', '.join(map(_token, block.teaches))}"
    for step in block.steps:
        yield from _step(step)


def _step(step: StepSyntax) -> Iterator[str]:
    yield f"  step {place(step.span)}: {move(step.line) if step.line else 'unread'}"
    for name in ("say", "id", "beats", "pattern", "easier"):
        if token := getattr(step, name):
            yield f"    {name} {_token(token)}"
    if step.image:
        text = f", {_token(step.image.text)}" if step.image.text else ""
        yield f"    image {_token(step.image.file)}{text}"


def move(line: MoveLine) -> str:
    """A move line: its actions, then what else it says."""
    parts = ["; ".join(map(action, line.actions)), *_name(line.name)]
    parts.extend([f"at {line.cue.text}"] if line.cue else [])
    parts.extend(token.text for token in (line.passing, line.silent) if token)
    return " | ".join(parts)


def start(value: Start) -> str:
    """The value of `start`."""
    return " | ".join([_form(value), *_name(value.name)])


def _form(value: Start) -> str:
    match value.form:
        case OpenStart():
            return "open"
        case PreviousStart():
            return "previous"
        case ShapeStart(shape):
            return f"shape {shape.text}"
        case AfterStart(name):
            return f"after {name.text}"
        case AsTaughtStart(symbol):
            return f"as taught {symbol.text}"
        case FingersStart(actions):
            return "; ".join(map(action, actions))


def _name(said: NameSaid | None) -> list[str]:
    return [f"{'claims' if said.strict else 'taught as'} {said.symbol.text}"] if said else []


def action(what: Action) -> str:
    """One action, told apart from how it was written."""
    match what:
        case PlaceFinger(finger=number, place=where):
            return f"finger {number.text} {_where(where)}"
        case LiftFinger(finger=number):
            return f"finger {number.text} lifts"
        case ExchangeFinger(finger=number, replaced=other):
            return f"finger {number.text} takes the place of {other.text}"
        case ShiftHand(by=by):
            return f"hand {by.text}"
        case MuteString(string=string, finger=number):
            return f"string {string.text} damped by {number.text}" if number else f"string {string.text} not struck"
        case StrumStrings(ranges=ranges):
            return "strum " + (" ".join(f"{low.text}..{high.text}" for low, high in ranges) or "every string")
        case _:
            return type(what).__name__.lower()


def _where(where: Place) -> str:
    if where.low == where.high:
        return f"on string {where.low.text} fret {where.fret.text}"
    return f"bars {where.low.text}..{where.high.text} fret {where.fret.text}"


def tokens(value: object) -> Iterator[Token]:
    """Every token in a piece of syntax."""
    if isinstance(value, Token):
        yield value
    elif isinstance(value, tuple):
        for part in value:
            yield from tokens(part)
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from tokens(getattr(value, field.name))
