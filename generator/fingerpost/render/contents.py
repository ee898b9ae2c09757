"""What a lesson's table of contents lists: its blocks, and in each the steps by the names on their arms."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.course.model import Block, Lesson, Step
from fingerpost.music.chord_symbol import write
from fingerpost.render.look import Look
from fingerpost.render.plain import html_id
from fingerpost.render.voice import Voice


@dataclass(frozen=True, slots=True)
class Entry:
    """A place on the page: the id of its element, and its name as plain text.

    plain: the name's plain English form where it is a chord's, "" else.
    """

    id: str
    name: str
    plain: str


@dataclass(frozen=True, slots=True)
class BlockEntry:
    """A block and its steps. title is "" where the block has none, as when a lesson is told in several short blocks."""

    id: str
    title: str
    steps: tuple[Entry, ...]


def contents(lesson: Lesson, look: Look) -> tuple[BlockEntry, ...]:
    """The contents of a lesson, in the order of the page."""
    return tuple(_block(block, look.voice(block.fretboard).plain) for block in lesson.blocks)


def _block(block: Block, voice: Voice) -> BlockEntry:
    steps = tuple(Entry(html_id(step.id), *_name(step, voice)) for step in block.steps)
    return BlockEntry(html_id(block.id), block.title or "", steps)


def _name(step: Step, voice: Voice) -> tuple[str, str]:
    if step.rest or step.naming.shown is None:
        return voice.words.say("label.rest" if step.rest else "label.silence"), ""
    return voice.chord(step.naming.shown), write(step.naming.shown)
