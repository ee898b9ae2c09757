"""The blocks of a course before and after: which is which wherever it stands, and what differs in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import partial

from fingerpost.course.comparison.difference import BlockChange, Fact, How, Placed, StepChange, WordChange
from fingerpost.course.comparison.steps import differs, pair_steps, step_alone, step_change, word_changes
from fingerpost.course.model import Block, Course, Step
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand

Pair = tuple[Placed | None, Placed | None]
StepPair = tuple[Step | None, Step | None]
Hands = tuple[Hand, Hand]
LEAST_SHARED = 0.5
"""The share of steps that two blocks on one page must have in common to be one block under two ids. By our choice."""


def placed_blocks(course: Course) -> tuple[Placed, ...]:
    """Every block whose steps are known, in order, those that a page shows as a notice included."""
    out: list[Placed] = []
    for lesson in course.lessons:
        here = [Placed(lesson.file, block) for block in lesson.blocks]
        here += [Placed(lesson.file, broken.partial, False) for broken in lesson.broken if broken.partial and broken.id]
        out += sorted(here, key=lambda placed: placed.block.span)
    return tuple(out)


def unreadable_blocks(course: Course) -> frozenset[str]:
    """The ids of blocks whose steps can't be made out at all."""
    broken = (block for lesson in course.lessons for block in lesson.broken)
    return frozenset(block.id for block in broken if block.id is not None and block.partial is None)


def pair_blocks(before: Sequence[Placed], after: Sequence[Placed], renamed: Mapping[str, str]) -> tuple[Pair, ...]:
    """Each block with what it became: by id, then by the same steps, then by most steps on the same page.

    renamed: pages by their name before and after. In the order of `after`; blocks that are gone come last.
    """
    by_id = {placed.block.id: index for index, placed in reversed(list(enumerate(before)))}
    partner = {index: by_id[placed.block.id] for index, placed in enumerate(after) if placed.block.id in by_id}
    left = [index for index in range(len(before)) if index not in partner.values()]
    for alike in (_same_steps, partial(_most_steps_there, renamed)):
        for index, placed in enumerate(after):
            found = None if index in partner else next((i for i in left if alike(before[i], placed)), None)
            if found is not None:
                partner[index] = found
                left.remove(found)
    both = ((before[partner[i]] if i in partner else None, placed) for i, placed in enumerate(after))
    return (*both, *((before[index], None) for index in left))


def _same_steps(before: Placed, after: Placed) -> bool:
    return before.block.fretboard == after.block.fretboard and _shapes(before.block) == _shapes(after.block)


def _most_steps_there(renamed: Mapping[str, str], before: Placed, after: Placed) -> bool:
    if renamed.get(before.file, before.file) != after.file:
        return False
    old, new = set(_shapes(before.block)), set(_shapes(after.block))
    return len(old & new) >= LEAST_SHARED * len(old | new)


def _shapes(block: Block) -> tuple[object, ...]:
    return tuple((step.shape, step.rest) for step in block.steps)


def block_change(pair: Pair, renamed: Mapping[str, str], hands: Hands, place: Fact | None) -> BlockChange:
    """What differs in a block. place: where it is taught, if that is another place than before."""
    before, after = pair
    if before is None or after is None:
        return _alone(pair, hands)
    pairs = pair_steps(before.block, after.block)
    steps = tuple(_steps(pairs, (before.block.fretboard, after.block.fretboard), hands))
    words = [change for old, new in pairs if old and new for change in word_changes(old, new)]
    if before.block.title != after.block.title:
        words.insert(0, WordChange("title", None, before.block.title, after.block.title))
    facts = [fact for fact in _facts(before, after, renamed) if fact.before != fact.after]
    same_neck = before.block.fretboard == after.block.fretboard
    return BlockChange(
        before,
        after,
        (*facts, *((place,) if place else ())),
        steps,
        tuple(words),
        len(after.block.steps) - sum(change.after is not None for change in steps) if same_neck else 0,
        before.block.practice != after.block.practice,
    )


def _alone(pair: Pair, hands: Hands) -> BlockChange:
    before, after = pair
    how, hand = (How.ADDED, hands[1]) if before is None else (How.GONE, hands[0])
    placed = after or before
    assert placed is not None
    block = placed.block
    steps = tuple(step_alone(step, block.fretboard, hand, how) for step in block.steps)
    return BlockChange(before, after, (), steps, practice_changed=True)


def _steps(pairs: Iterable[StepPair], boards: tuple[Fretboard, Fretboard], hands: Hands) -> Iterator[StepChange]:
    for old, new in pairs:
        if old is not None and new is not None:
            change = step_change(old, new, boards, hands)
            if differs(change):
                yield change
        elif new is not None:
            yield step_alone(new, boards[1], hands[1], How.ADDED)
        elif old is not None:
            yield step_alone(old, boards[0], hands[0], How.GONE)


def _facts(before: Placed, after: Placed, renamed: Mapping[str, str]) -> Iterator[Fact]:
    old, new = before.block, after.block
    yield Fact("id", old.id, new.id)
    if renamed.get(before.file, before.file) != after.file:
        yield Fact("page", before.file, after.file)
    yield Fact("shown", _shown(before), _shown(after))
    yield Fact("key", old.key, new.key)
    yield Fact("tuning", str(old.fretboard.tuning), str(new.fretboard.tuning))
    yield Fact("capo", str(old.fretboard.capo), str(new.fretboard.capo))
    yield Fact("teaches", _listed(old.teaches), _listed(new.teaches))


def _shown(placed: Placed) -> str:
    return "as a block" if placed.sound else "as a notice of its errors"


def _listed(names: Iterable[str]) -> str | None:
    """Names in a fixed order, since their order means nothing; None for none."""
    return ", ".join(sorted(names)) or None
