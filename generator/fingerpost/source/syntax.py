"""What the text of a page says, before anything is known about music: tokens with their places."""

from __future__ import annotations

from dataclasses import dataclass

from fingerpost.diagnostics import Span


@dataclass(frozen=True, order=True, slots=True)
class Token:
    """A piece of the author's text, as it was written, and where it stands."""

    text: str
    span: Span

    def piece(self, start: int, length: int) -> Span:
        """A stretch of this token: at least one code point, and none beyond its end, where something is missing."""
        start = max(0, min(start, len(self.text) - 1))
        return self.span.part(start, min(start + max(1, length), max(1, len(self.text))))


@dataclass(frozen=True, slots=True)
class Place:
    """A fret on a string (`G2`, `4:2`) or on neighbouring strings (`E1-e1`, `1 to 4:2-1:2`).

    low and high are the string tokens (a letter or a number) of the first and the last string named; equal for one
    string. fret and high_fret are the fret tokens; a bar has one fret, so they must agree.
    """

    low: Token
    fret: Token
    high: Token
    high_fret: Token
    span: Span


@dataclass(frozen=True, slots=True)
class PlaceFinger:
    """`3 to G2`, and `3 G2` in a start: a finger and where it goes."""

    finger: Token
    place: Place
    span: Span


@dataclass(frozen=True, slots=True)
class LiftFinger:
    """`3 off`."""

    finger: Token
    span: Span


@dataclass(frozen=True, slots=True)
class ExchangeFinger:
    """`3 for 2`: the first finger takes the place of the second."""

    finger: Token
    replaced: Token
    span: Span


@dataclass(frozen=True, slots=True)
class ShiftHand:
    """`shift +2`: the whole hand slides by so many frets."""

    by: Token
    span: Span


@dataclass(frozen=True, slots=True)
class MuteString:
    """`mute D by 2`: a finger damps the string; `mute D`: it is not struck (finger is None)."""

    string: Token
    finger: Token | None
    span: Span


@dataclass(frozen=True, slots=True)
class StrumStrings:
    """`strum A-e`, `strum A D B`: pairs (first, last) of string tokens, equal for a single string; none for `all`."""

    ranges: tuple[tuple[Token, Token], ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Hold:
    """`hold`: no change."""

    span: Span


@dataclass(frozen=True, slots=True)
class Rest:
    """`rest`: the hand leaves the neck."""

    span: Span


@dataclass(frozen=True, slots=True)
class Back:
    """`back`: the shape before the rest."""

    span: Span


Action = PlaceFinger | LiftFinger | ExchangeFinger | ShiftHand | MuteString | StrumStrings | Hold | Rest | Back


@dataclass(frozen=True, slots=True)
class NameSaid:
    """A name that the author gives: `= Em7` claims it (strict is True), `~ Em6` teaches by it (strict is False).

    mark is the `=` or `~`, or in the long form the key.
    """

    symbol: Token
    strict: bool
    mark: Token | None = None


@dataclass(frozen=True, slots=True)
class MoveLine:
    """One move line, taken apart."""

    text: Token
    actions: tuple[Action, ...]
    name: NameSaid | None = None
    cue: Token | None = None
    passing: Token | None = None
    silent: Token | None = None


@dataclass(frozen=True, slots=True)
class OpenStart:
    """`open`: no finger is down, all strings are struck."""

    span: Span


@dataclass(frozen=True, slots=True)
class ShapeStart:
    """A shape as text, such as `x32010/-32-1-`."""

    shape: Token


@dataclass(frozen=True, slots=True)
class PreviousStart:
    """`previous`: where the last block of this page ended."""

    span: Span


@dataclass(frozen=True, slots=True)
class AfterStart:
    """`after ID`: where the block (or step) of that id ended."""

    id: Token


@dataclass(frozen=True, slots=True)
class AsTaughtStart:
    """`as taught C`: the shape in which that chord was taught."""

    symbol: Token


@dataclass(frozen=True, slots=True)
class FingersStart:
    """`2 E3, 1 A2, 3 e3`: fingers put down one by one, perhaps with a strum and mutes."""

    actions: tuple[Action, ...]


StartForm = OpenStart | ShapeStart | PreviousStart | AfterStart | AsTaughtStart | FingersStart


@dataclass(frozen=True, slots=True)
class Start:
    """The value of `start`, with the name that it may claim."""

    text: Token
    form: StartForm
    name: NameSaid | None = None


@dataclass(frozen=True, slots=True)
class Image:
    """`image: file.png A text that says what is to be seen.`"""

    file: Token
    text: Token | None


@dataclass(frozen=True, slots=True)
class StepSyntax:
    """One step as written; `name` and `taught_as` of the long form are in `line.name`.

    line is None where the move could not be read: a finding says so, and the step is left out of the model. unread:
    its words then; unread_name: the name that the long form gives beside them.
    """

    span: Span
    line: MoveLine | None
    say: Token | None = None
    id: Token | None = None
    beats: Token | None = None
    pattern: Token | None = None
    easier: Token | None = None
    image: Image | None = None
    unread: Token | None = None
    unread_name: NameSaid | None = None


@dataclass(frozen=True, slots=True)
class BlockSyntax:
    """One `moves` block as written. span is the whole fence; source is the text between its fence lines.

    unread: keys that are written but whose value could not be read; findings have said so. unread_start and
    unread_strum: the words of such a start and `strum`.
    """

    span: Span
    source: str
    id: Token | None = None
    title: Token | None = None
    start: Start | None = None
    strum: StrumStrings | None = None
    key: Token | None = None
    tuning: Token | None = None
    capo: Token | None = None
    teaches: tuple[Token, ...] = ()
    fingers_per_step: Token | None = None
    steps: tuple[StepSyntax, ...] = ()
    unread: tuple[str, ...] = ()
    unread_start: Token | None = None
    unread_strum: Token | None = None

    @property
    def names(self) -> tuple[NameSaid, ...]:
        """The names that are given to the start and to the steps that could be read, in this order."""
        said = (None if self.start is None else self.start.name, *(step.line.name for step in self.steps if step.line))
        return tuple(name for name in said if name is not None)


@dataclass(frozen=True, slots=True)
class Mention:
    """An inline mention: kind is `chord`, `step` or `now`; words are what follows the colon.

    ordinal counts the mentions of a page from 0; span is that of the whole code span, backticks included.
    """

    kind: str
    words: tuple[Token, ...]
    span: Span
    ordinal: int


@dataclass(frozen=True, slots=True)
class Fence:
    """Where a `moves` fence stands. body_starts gives, for each line of `body`, how much of its line stands before it.

    prefix is what stands before the fence on its line (indentation, quote marks, list indent).
    first_line and last_line are the lines of the opening and closing fence, counted from 1.
    opening is the fence and its info string as written; closed is False where the closing fence is missing: last_line
    is then the last line that belongs to the block.
    miswritten: it does not say that it is a block, so the page shows its text; a finding says so.
    """

    prefix: str
    body: tuple[str, ...]
    body_starts: tuple[int, ...]
    span: Span
    first_line: int
    last_line: int
    opening: str = "```moves"
    closed: bool = True
    miswritten: bool = False

    @property
    def lines(self) -> tuple[Token, ...]:
        """The lines of the body with their places."""
        numbered = enumerate(zip(self.body, self.body_starts, strict=True), self.first_line + 1)
        file = self.span.file
        return tuple(Token(text, Span(file, line, at + 1, line, at + 1 + len(text))) for line, (text, at) in numbered)


@dataclass(frozen=True, slots=True)
class PageSyntax:
    """A page taken apart: blocks and mentions in the order in which they stand.

    parts holds both, sorted by place, since a mention is judged by what the hand holds where it stands.
    """

    file: str
    title: str | None
    parts: tuple[BlockSyntax | Mention, ...]

    @property
    def blocks(self) -> tuple[BlockSyntax, ...]:
        """The blocks alone."""
        return tuple(part for part in self.parts if isinstance(part, BlockSyntax))

    @property
    def mentions(self) -> tuple[Mention, ...]:
        """The mentions alone."""
        return tuple(part for part in self.parts if isinstance(part, Mention))
