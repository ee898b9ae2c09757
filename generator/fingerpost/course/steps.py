"""The steps of a block: each line done in turn, the shape after it named, and what is wrong with it said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from fingerpost.course.extras import Extras, extras_of
from fingerpost.course.ground import Ground
from fingerpost.course.ids import StepIds
from fingerpost.course.kept_lines import KeptLines
from fingerpost.course.meant.likely_move import LINES_AHEAD, likely_move, names_hold, possible_move
from fingerpost.course.meant.unread_line import Unread, with_letter_left_out
from fingerpost.course.model import Naming, Step, StringRow
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import Named
from fingerpost.course.perform import Held, Performed, Stuck
from fingerpost.course.slip import error
from fingerpost.course.sound import sound_findings
from fingerpost.course.table import table
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic, Span
from fingerpost.music.shape import Shape
from fingerpost.music.transition import transition
from fingerpost.source.syntax import Back, Hold, MoveLine, NameSaid, Rest, StepSyntax, StrumStrings

MOST_SECOND_THOUGHTS = 8
"""For how many slips of a block the likely move is sought, so that a hostile block costs little. By our own choice."""

MOST_LETTERS_SOUGHT = 3
"""In how many unreadable lines of a block a letter that was left out is sought; the same."""

MOST_FINDINGS = 100
"""After so many the rest of a block is not judged, and a last finding says so. By our own choice."""

USUAL = 1.25
"""Up to here a reading of the vocabulary counts as one that a lesson is likely to mean. By our own choice."""

FURTHEST = LINES_AHEAD + 2

DOUBTFUL = frozenset(
    {Code.NAME_IS_WRONG, Code.NAME_IS_LOOSE, Code.FINGER_NOT_DOWN, Code.IMPOSSIBLE_HAND, Code.IMPOSSIBLE_MOVE}
)
"""Findings that hang on what the hand holds; not reported while that is in doubt."""


@dataclass
class Walk:
    """Goes through the lines of one block; steps, their lines and findings grow, `held` is what the hand holds now.

    for_pages: whether the steps get their tables. doubted: what it holds was in doubt anywhere. covered: strings on
    which a finger was put down while the hand was in doubt, so that no name tells what lies behind it. struck_as_read:
    False as long as nobody knows which strings are struck, so that no name ends the doubt about the sound.
    """

    block_id: str
    lines: KeptLines
    book: NameBook
    held: Held
    steps: list[Step] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)
    written: list[StepSyntax | None] = field(default_factory=list)
    second_thoughts: int = MOST_SECOND_THOUGHTS
    for_pages: bool = True
    covered: frozenset[int] = frozenset()
    letters_sought: int = 0
    struck_as_read: bool = True

    def __post_init__(self) -> None:
        self.ids = StepIds(self.block_id)
        self.doubted = False

    @property
    def ground(self) -> Ground:
        """What the block is played on."""
        return self.lines.ground

    def begin(self, said: NameSaid | None, span: Span, text: str) -> None:
        """Makes the start the first step."""
        shape = self.held.shape
        named = self._named(shape, said)
        self._report(named.findings)
        if said is not None and said.strict:
            self.held = replace(self.held, sure=self.held.sure or (named.holds and self.struck_as_read))
        naming = named.naming
        rows = self._table(shape, None, naming)
        self.written.append(None)
        self.steps.append(Step(self.ids.start(shape), 0, span, shape, naming, rows, None, text))

    def go(self, steps: Sequence[StepSyntax], unread: Mapping[Span, Unread]) -> None:
        """Does every line. A line that can't be done is reported and leaves the hand as it was, in doubt.

        unread: what is known of the steps that could not be read, by their spans.
        """
        self.doubted = not self.held.sure
        for index, step in enumerate(steps):
            if len(self.findings) >= MOST_FINDINGS:
                self.findings.append(_left(step, len(steps) - index))
                self.held, self.doubted = replace(self.held, sure=False), True
                break
            if step.line is None:
                self._unread(step, unread.get(step.span), steps[index + 1 : index + FURTHEST])
            else:
                self._line(step, step.line, steps[index : index + FURTHEST])
            self.doubted = self.doubted or not self.held.sure

    def _unread(self, step: StepSyntax, unread: Unread | None, ahead: Sequence[StepSyntax]) -> None:
        """Goes on as if the line had been written as was likely meant, unless its own name denies that."""
        before = self.held
        self.held = replace(before, sure=False)
        if unread is None:
            return
        offered = None if unread.meant is None else self._as_offered(before, unread.meant)
        if offered is not None:
            self.held = offered.held
        elif not unread.finding.fix and before.sure and self.letters_sought < MOST_LETTERS_SOUGHT:
            self.letters_sought += 1
            if meant := with_letter_left_out(step, unread.finding.span, before, ahead, self.ground):
                self.findings.append(replace(unread.finding, fix=meant.text))
                self.held = meant.held

    def _as_offered(self, held: Held, meant: MoveLine) -> Performed | None:
        """What the line does that the finding about this one offers; None where it can't be done or denies itself."""
        try:
            done = self.lines.perform(held, meant)
        except Stuck:
            return None
        return done if not done.findings and self._named_line(done, meant).holds else None

    def _line(self, step: StepSyntax, line: MoveLine, ahead: Sequence[StepSyntax]) -> None:
        try:
            done = self.lines.perform(self.held, line)
        except Stuck as stuck:
            self._stuck(stuck, step, line, ahead)
            return
        done = self._minding_what_lay_behind(done)
        before = self.held
        if any(finding.code is Code.IMPOSSIBLE_HAND for finding in done.findings):
            self._out_of_reach(done, step, line, ahead)
            return
        named = self._named_line(done, line)
        meant, named = self._meant_otherwise(before, done, named, ahead)
        if meant is None:
            self._report((*done.findings, *named.findings))
            self._sound(before, done.held, line, named)
            self.held = done.held
            self._settle(named, line)
        self._add(step, line, before, done.held, named)

    def _minding_what_lay_behind(self, done: Performed) -> Performed:
        """The same, in doubt again where a finger goes behind which something unknown may lie."""
        if not self.struck_as_read:
            return replace(done, held=replace(done.held, sure=False))
        if self.held.sure and not self.covered:
            return done
        before, after = set(self.held.shape.presses), set(done.held.shape.presses)
        gone = {string for press in before - after for string in press.strings}
        if not self.held.sure:
            self.covered |= {string for press in after - before for string in press.strings}
            return done
        uncovered = self.covered & gone
        if not uncovered:
            return done
        self.covered -= uncovered
        self.held = replace(self.held, sure=False)
        return replace(done, held=replace(done.held, sure=False))

    def _settle(self, named: Named, line: MoveLine) -> None:
        """A name that agrees ends the doubt about the hand."""
        self.struck_as_read = self.struck_as_read or _has(line, StrumStrings)
        if line.name is not None and line.name.strict and named.holds and not named.findings and self.struck_as_read:
            self.held = replace(self.held, sure=True)

    def _stuck(self, stuck: Stuck, step: StepSyntax, line: MoveLine, ahead: Sequence[StepSyntax]) -> None:
        meant = likely_move(self.held, ahead, stuck.index, self.ground) if self._may_think() else None
        finding = stuck.finding if meant is None else replace(stuck.finding, fix=meant.text)
        self._report((finding,))
        before = self.held
        if meant is None:
            self.held = replace(before, sure=False)
            return
        self.held = meant.held
        self._add(step, line, before, meant.held, self._named(meant.held.shape, line.name))

    def _out_of_reach(self, done: Performed, step: StepSyntax, line: MoveLine, ahead: Sequence[StepSyntax]) -> None:
        """Reports a hand that none can make with the nearest that one can; goes on with that if the names tell so."""
        before, index, thinks = self.held, len(line.actions) - 1, self._may_think()
        meant = likely_move(before, ahead, index, self.ground) if thinks else None
        fix = meant.text if meant is not None else possible_move(before, line, index, self.ground) if thinks else ""
        self._report([replace(f, fix=fix) if f.code is Code.IMPOSSIBLE_HAND else f for f in done.findings])
        named = self._named_line(done, line)
        self._report(named.findings if meant is None else ())
        self.held = done.held if meant is None else meant.held
        self._add(step, line, before, self.held, named)

    def _may_think(self) -> bool:
        self.second_thoughts -= 1
        return self.second_thoughts >= 0 and self.held.sure

    def _meant_otherwise(
        self, before: Held, done: Performed, named: Named, ahead: Sequence[StepSyntax]
    ) -> tuple[Held | None, Named]:
        """Where a name is denied: the hand by the move that was likely meant, if the move is the slip and not the name.

        The next names tell; where they don't, a shape that has no common name was hardly meant. Else the finding about
        the name offers that move too.
        """
        line = ahead[0].line
        denied = line is not None and line.name is not None and line.name.strict and not named.holds
        if line is None or line.name is None or not denied or len(line.actions) != 1 or not self._may_think():
            return None, named
        meant = likely_move(before, ahead, 0, self.ground)
        if meant is None:
            return None, named
        nameless = replace(line, name=None)
        here, there = (names_hold(held, nameless, ahead[1:], self.ground) for held in (done.held, meant.held))
        uncommon = is_uncommon(named.naming)
        if (there and not here) or (here == there and uncommon):
            self._report((*done.findings, _other_move(line.actions[0].span, line.name, named, meant.text)))
            self.held = meant.held
            return meant.held, named
        return None, _offering(named, meant.text)

    def _named_line(self, done: Performed, line: MoveLine) -> Named:
        return self._named(None if done.held.resting else done.held.shape, line.name)

    def _named(self, shape: Shape | None, said: NameSaid | None) -> Named:
        return self.lines.name(shape, said, self.book)

    def _sound(self, before: Held, after: Held, line: MoveLine, named: Named) -> None:
        if before.resting or after.resting:
            return
        holds = line.name is not None and line.name.strict and not named.findings
        found = sound_findings(line, before.shape, after.shape, self.ground.fretboard, holds)
        self.findings.extend(found if before.sure else ())

    def _report(self, findings: Sequence[Diagnostic]) -> None:
        self.findings.extend(f for f in findings if self.held.sure or f.code not in DOUBTFUL)

    def _add(self, step: StepSyntax, line: MoveLine, before: Held, after: Held, named: Named) -> None:
        extras, found = extras_of(step, line, self.ground, self.book)
        self.findings.extend(found)
        self.written.append(step)
        self.steps.append(self._step(step, line, before, after, named, extras))

    def _step(self, step: StepSyntax, line: MoveLine, before: Held, after: Held, named: Named, extras: Extras) -> Step:
        naming, board = named.naming, self.ground.fretboard
        told = self.steps[-1].shape if before.resting and not after.resting else before.shape
        own = None if step.id is None else step.id.text
        return Step(
            id=own or self.ids.change(_or_rest(before), _or_rest(after)),
            ordinal=len(self.steps),
            span=step.span,
            shape=after.shape,
            naming=naming,
            table=self._table(after.shape, told, naming),
            transition=transition(told, after.shape, board),
            move_text=line.text.text,
            hold=_has(line, Hold),
            rest=_has(line, Rest),
            back=_has(line, Back),
            passing=line.passing is not None,
            silent=line.silent is not None,
            cue=None if line.cue is None else line.cue.text,
            say=None if step.say is None else step.say.text,
            beats=None if step.beats is None else step.beats.text,
            pattern=None if step.pattern is None else step.pattern.text,
            easier=extras.easier,
            easier_naming=extras.easier_naming,
            image=extras.image,
            image_text=extras.image_text,
        )

    def _table(self, shape: Shape, before: Shape | None, naming: Naming) -> tuple[StringRow, ...]:
        if not self.for_pages:
            return ()
        return table(shape, before, naming.shown, naming.sounding, self.ground.fretboard)


def _left(step: StepSyntax, left: int) -> Diagnostic:
    count = "one more step was" if left == 1 else f"{left} more steps were"
    message = f"This block has {MOST_FINDINGS} findings or more above this line; {count} not judged"
    return error(step.span, Code.BLOCK_UNREADABLE, message, "a block whose steps hold together")


def _or_rest(held: Held) -> Shape | None:
    return None if held.resting else held.shape


def _has(line: MoveLine, kind: type) -> bool:
    return any(isinstance(action, kind) for action in line.actions)


def _other_move(span: Span, said: NameSaid, named: Named, meant: str) -> Diagnostic:
    denial = next(finding for finding in named.findings if finding.code is Code.NAME_IS_WRONG)
    message = f"This move does not make {quoted(said.symbol.text)}"
    return error(span, Code.NAME_IS_WRONG, message, f"`{meant}`, or the name {denial.fix}", meant)


def is_uncommon(naming: Naming) -> bool:
    """Whether what sounds has no name that a lesson is likely to mean, so that it was hardly meant."""
    best = naming.ranked[0].ranked if naming.ranked else None
    return best is not None and (best.foreign or best.reading.usual > USUAL)


def _offering(named: Named, move: str) -> Named:
    """The naming with the move that would make the name right among what is expected."""
    found = (
        replace(finding, expected=f"{finding.expected}; or the move `{move}`")
        if finding.code is Code.NAME_IS_WRONG
        else finding
        for finding in named.findings
    )
    return replace(named, findings=tuple(found))
