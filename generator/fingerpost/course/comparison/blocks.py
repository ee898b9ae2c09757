"""The blocks of a course before and after: which is which wherever it stands, and what differs in it."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from fingerpost.course.comparison.block_difference import BlockChange, Placed
from fingerpost.course.comparison.doubt import Doubts
from fingerpost.course.comparison.moved import with_moves
from fingerpost.course.comparison.neck import reckoned_otherwise, retuned, same_sound
from fingerpost.course.comparison.places import Pair
from fingerpost.course.comparison.step_difference import Fact, How, StepChange, WordChange
from fingerpost.course.comparison.steps import differs, pair_steps, step_alone, step_change, word_changes
from fingerpost.course.model import Block, Course, Step
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.hand import Hand

StepPair = tuple[Step | None, Step | None]
Hands = tuple[Hand, Hand]
LEAST_SHARED = 0.5
"""The share of steps that two blocks on one page must have in common to be one block under two ids. By our choice."""


def placed_blocks(course: Course, doubts: Doubts) -> tuple[Placed, ...]:
    """Every block whose steps are known, in order, those that a page shows as a notice included."""
    out: list[Placed] = []
    for lesson in course.lessons:
        here = [Placed(lesson.file, block) for block in lesson.blocks]
        broken = [broken.partial for broken in lesson.broken if broken.partial and broken.id]
        here += [Placed(lesson.file, block, False, _sure(lesson.file, block, doubts)) for block in broken]
        out += sorted(here, key=lambda placed: placed.block.span)
    return tuple(out)


def _sure(file: str, block: Block, doubts: Doubts) -> int | None:
    """How many steps stand above the first line in doubt; the start above all others, wherever it is written."""
    first = doubts.get((file, block.span.line), 0)
    if first == math.inf:
        return None
    return sum(first > 0 and (step.ordinal == 0 or step.span.line < first) for step in block.steps)


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
    boards = before.block.fretboard, after.block.fretboard
    return same_sound(*boards) and _shapes(before.block) == _shapes(after.block)


def _most_steps_there(renamed: Mapping[str, str], before: Placed, after: Placed) -> bool:
    if renamed.get(before.file, before.file) != after.file:
        return False
    old, new = set(_shapes(before.block)), set(_shapes(after.block))
    return len(old & new) >= LEAST_SHARED * len(old | new)


def _shapes(block: Block) -> tuple[object, ...]:
    return tuple((step.shape, step.rest) for step in block.steps)


def block_change(pair: Pair, renamed: Mapping[str, str], hands: Hands, place: Fact | None, same: bool) -> BlockChange:
    """What differs in a block. place: where it is taught, if that is another place than before; same: its text is."""
    before, after = pair
    if before is None or after is None:
        return _alone(pair, hands)
    in_order, uncompared = _compared(before, after, same)
    pairs, moved = with_moves(in_order)
    boards = (before.block.fretboard, after.block.fretboard)
    steps = tuple(_steps(pairs, boards, hands, moved))
    words = [change for old, new in pairs if old and new for change in word_changes(old, new)]
    if before.block.title != after.block.title:
        words.insert(0, WordChange("title", None, before.block.title, after.block.title))
    facts = [fact for fact in _facts(before, after, renamed) if fact.before != fact.after]
    changed = {change.after.ordinal for change in steps if change.after is not None}
    alike = [(old, new) for old, new in pairs if old and new and new.ordinal not in changed]
    transposed = sum(not new.rest for _, new in alike) if boards[0].capo != boards[1].capo else 0
    return BlockChange(
        before,
        after,
        (*facts, *((place,) if place else ())),
        steps,
        tuple(words),
        len(alike) - transposed,
        before.sound and after.sound and before.block.practice != after.block.practice,
        retuned=retuned(before.block, after.block),
        transposed=transposed,
        uncompared=uncompared,
        reckoned=sum(reckoned_otherwise(old, new, boards, hands) for old, new in alike),
    )


def _compared(before: Placed, after: Placed, same: bool) -> tuple[tuple[StepPair, ...], int]:
    """The steps that can be compared, and how many can't: those in doubt, unless they are written as they were."""
    steps = (before.block.steps, after.block.steps)
    if before.sure == after.sure and (same or before.sure is None):
        return pair_steps(*steps), 0
    pairs = pair_steps(steps[0][: before.certain], steps[1][: after.certain])
    last = max((index for index, pair in enumerate(pairs) if None not in pair), default=-1)
    paired = pairs[: last + 1]
    return paired, max(len(side) - sum(pair[i] is not None for pair in paired) for i, side in enumerate(steps))


def _alone(pair: Pair, hands: Hands) -> BlockChange:
    before, after = pair
    how, hand = (How.ADDED, hands[1]) if before is None else (How.GONE, hands[0])
    placed = after or before
    assert placed is not None
    block, sure = placed.block, placed.certain
    steps = tuple(step_alone(step, block.fretboard, hand, how) for step in block.steps[:sure])
    return BlockChange(before, after, (), steps, practice_changed=placed.sound, uncompared=len(block.steps) - sure)


def _steps(
    pairs: Iterable[StepPair], boards: tuple[Fretboard, Fretboard], hands: Hands, moved: Container[str]
) -> Iterator[StepChange]:
    for old, new in pairs:
        if old is not None and new is not None:
            change = step_change(old, new, boards, hands)
            if new.id in moved:
                yield replace(change, how=How.MOVED)
            elif differs(change):
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
