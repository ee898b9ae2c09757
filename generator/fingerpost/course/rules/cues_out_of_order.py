"""Cues that go back in time.

A cue is where a step stands in the recording. Within a block the steps are played in their order, so their cues can't
go back; where one does, a digit was swapped or a line was moved without its cue. The longest run of cues that are in
order is taken to be right, so one that is too late is told itself, not all those after it.

    - 3 off = Am7 @0:41
    - 3 to G2 = Am @0:14

Write the time at which the step comes in the recording, here perhaps `@0:44`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from fingerpost.course.rules.explanation import Explanation
from fingerpost.course.rules.likely_cue import likely_cue, seconds
from fingerpost.course.slip import warning
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.source.syntax import BlockSyntax, Token

FEW = 3
"""Where more cues than these are out of order, no time is proposed for any of them."""


def cues_out_of_order(block: BlockSyntax) -> Iterator[Diagnostic]:
    """A warning for each cue outside the longest ordered run of its block."""
    cues = [step.line.cue for step in block.steps if step.line is not None and step.line.cue is not None]
    times = [seconds(cue.text) for cue in cues]
    out = _out_of_order(cues, times)
    for at in sorted(out):
        above = next((cues[n] for n in range(at - 1, -1, -1) if n not in out), None)
        below = next((cues[n] for n in range(at + 1, len(cues)) if n not in out), None)
        fix = likely_cue(cues[at], above, below) if len(out) <= FEW else ""
        yield warning(
            cues[at].span, Code.CUES_OUT_OF_ORDER, _clash(cues[at], above, below), _expected(above, below), fix
        )


def _out_of_order(cues: Sequence[Token], times: Sequence[float]) -> set[int]:
    """The fewest cues without which the others are in order."""
    back = [at for at, (one, other) in enumerate(pairwise(times)) if other < one]
    if not back:
        return set()
    one_alone = [at for at in (back[0] + 1, back[0]) if _is_ordered([*times[:at], *times[at + 1 :]])]
    if one_alone:
        return {min(one_alone, key=lambda at: _unlikely(at, cues, times))}
    return set(range(len(times))) - set(_longest_run(times))


def _is_ordered(times: Sequence[float]) -> bool:
    return all(one <= other for one, other in pairwise(times))


def _unlikely(at: int, cues: Sequence[Token], times: Sequence[float]) -> tuple[bool, float]:
    """How unlikely it is that this is the wrong one: nothing says what it was, and without it the rest has a gap."""
    above = cues[at - 1] if at else None
    below = cues[at + 1] if at + 1 < len(cues) else None
    gaps = (other - one for one, other in pairwise([*times[:at], *times[at + 1 :]]))
    return not likely_cue(cues[at], above, below), max(gaps, default=0.0)


def _longest_run(times: Sequence[float]) -> list[int]:
    """The places of a longest run that never goes back (Fredman 1975: the least end of a run of each length)."""
    ends, ended, before = list[float](), list[int](), list[int | None]()
    for at, time in enumerate(times):
        length = bisect_right(ends, time)
        before.append(ended[length - 1] if length else None)
        ends[length : length + 1] = [time]
        ended[length : length + 1] = [at]
    run, last = list[int](), ended[-1] if ended else None
    while last is not None:
        run.append(last)
        last = before[last]
    return run


def _clash(cue: Token, above: Token | None, below: Token | None) -> str:
    if above is not None and seconds(cue.text) < seconds(above.text):
        return f"The cue {quoted(cue.text)} comes before {quoted(above.text)}, the one above it"
    return f"The cue {quoted(cue.text)} comes after {quoted(_text(below))}, the one below it"


def _expected(above: Token | None, below: Token | None) -> str:
    if above is not None and below is not None:
        return f"a time from {above.text} to {below.text}"
    return f"a time of {above.text} or later" if above is not None else f"a time of {_text(below)} or earlier"


def _text(cue: Token | None) -> str:
    return "" if cue is None else cue.text


REASONS = {
    Code.CUES_OUT_OF_ORDER: Explanation(
        "Cues that go back",
        "Steps are played in their order, so their cues in the recording go forward.",
        "- 3 off @0:41\n- 3 to G2 @0:14",
        "- 3 off @0:41\n- 3 to G2 @0:54",
    ),
}
