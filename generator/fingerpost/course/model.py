"""The checked model of a course: what every page, picture, list and report is made from. Frozen."""

from __future__ import annotations

from dataclasses import dataclass, field

from fingerpost.diagnostics import Span
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import ChordName
from fingerpost.music.fretboard import Fretboard
from fingerpost.music.shape import Shape
from fingerpost.music.transition import Transition


@dataclass(frozen=True, slots=True)
class Naming:
    """What a shape is called on the page.

    shown: the name in large type (the author's, or the best computed one; None where nothing sounds). strict: the
    computed name beside it where it differs (`C` shown, `C/E` strict). taught_as: the author used `~`; lacks and adds
    are then the notes, as intervals from the shown root, that the name has and the shape lacks, and the other way
    round. omitted: customary omissions of the shown name. ranked: all computed names, best first. sounding: the
    shown name as it sounds with the capo, None without one. refused: where the course decided between two names and the
    bass leaves both open, the other one.
    """

    shown: Chord | None
    strict: Chord | None = None
    taught_as: bool = False
    lacks: tuple[str, ...] = ()
    adds: tuple[str, ...] = ()
    omitted: tuple[str, ...] = ()
    ranked: tuple[ChordName, ...] = ()
    sounding: Chord | None = None
    refused: Chord | None = None


@dataclass(frozen=True, slots=True)
class StringRow:
    """One string of a step's table, which has its rows highest-numbered string first.

    note and interval are None where the string is silent; interval is from the shown root.
    note is the name of the shape's note, spelled by the shown chord (the capo does not change it); sounding is what
    is heard, equal without a capo. changed: another note than before, or newly silent or sounding.
    """

    string: int
    letter: str | None
    fret: int | None
    finger: str | None
    note: str | None
    interval: str | None
    sounding: str | None
    changed: bool


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a block, its start included (ordinal 0).

    id: stable: block id + the change from shape to shape (+ occurrence). transition: from the step before (None for
    the start). rest: the hand is off the neck; shape is then empty.
    """

    id: str
    ordinal: int
    span: Span
    shape: Shape
    naming: Naming
    table: tuple[StringRow, ...]
    transition: Transition | None
    move_text: str = ""
    hold: bool = False
    rest: bool = False
    back: bool = False
    passing: bool = False
    silent: bool = False
    cue: str | None = None
    say: str | None = None
    beats: str | None = None
    pattern: str | None = None
    easier: Shape | None = None
    easier_naming: Naming | None = None
    image: str | None = None
    image_text: str | None = None


@dataclass(frozen=True, slots=True)
class WayBack:
    """Going from one step back to the one before, or round from the last step to the first.

    from_step and to_step are ordinals; transition is the computed change; fingers is how many fingers it moves.
    """

    from_step: int
    to_step: int
    transition: Transition

    @property
    def fingers(self) -> int:
        """How many fingers move."""
        return self.transition.finger_count


@dataclass(frozen=True, slots=True)
class Retuning:
    """What has to be retuned before a block: (string, from pitch, to pitch) as text, and the capo before and after."""

    strings: tuple[tuple[int, str, str], ...]
    capo_before: int
    capo_after: int


@dataclass(frozen=True, slots=True)
class Watch:
    """Something to watch in a change: the marks of the fingers and the strings that it is about, where it is about any.

    kind: `bar`, `rest_of_bar` (of strings that hang on it), `guide` (a finger keeps touching its string), `landing` (of
    a weak finger), `clear` (a finger must not touch these strings), `stretch`, `together` (fingers move at once).
    """

    kind: str
    fingers: tuple[str, ...] = ()
    strings: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PracticeItem:
    """One line of a practice checklist, by kind, with what its sentence needs; render.wording words it.

    kind: one of those listed in course.practice. keep: marks of fingers; ring: strings that must ring; watch: what is
    likely to go wrong, the hardest first.
    """

    kind: str
    from_step: int | None = None
    to_step: int | None = None
    keep: tuple[str, ...] = ()
    ring: tuple[int, ...] = ()
    watch: tuple[Watch, ...] = ()
    clean: int = 0
    tries: int = 0
    minutes: int = 0


@dataclass(frozen=True, slots=True)
class Block:
    """One block: its steps (the start is the first), and what is computed from them.

    build_up: the start put down finger by finger, in the order in which the author wrote the fingers. goes_on: the hand
    holds the start already, from the block before on the page; there is then nothing to build up.
    """

    id: str
    title: str | None
    span: Span
    fretboard: Fretboard
    key: str | None
    teaches: tuple[str, ...]
    steps: tuple[Step, ...]
    build_up: tuple[Step, ...] = ()
    ways_back: tuple[WayBack, ...] = ()
    wrap_around: WayBack | None = None
    retuning: Retuning | None = None
    practice: tuple[PracticeItem, ...] = ()
    goes_on: bool = False


@dataclass(frozen=True, slots=True)
class MentionMeaning:
    """What an inline mention stands for: kind as in the source; words for plain text; step and block where it leads.

    lesson is the file of the page it leads to. Unresolved mentions have step None and are shown as plain text.
    """

    kind: str
    ordinal: int
    words: str
    span: Span
    lesson: str | None = None
    block_id: str | None = None
    step: Step | None = None
    fretboard: Fretboard | None = None


@dataclass(frozen=True, slots=True)
class Lesson:
    """One page that holds blocks or mentions; file is its path from the folder of the sources, with `/`.

    broken: the blocks with errors, with their source, so that the page can show them; none of them is in `blocks`.
    """

    file: str
    title: str | None
    blocks: tuple[Block, ...]
    mentions: tuple[MentionMeaning, ...] = ()
    broken: tuple[BrokenBlock, ...] = ()


@dataclass(frozen=True, slots=True)
class BrokenBlock:
    """A block that is shown as a notice in its place: its id if it has one, its text, and what is wrong with it.

    A block with any error is one: a page must not show what may be wrong. partial: what could be made out of it, for
    an editor; None where no start is known.
    """

    id: str | None
    span: Span
    source: str
    messages: tuple[str, ...]
    partial: Block | None = None


@dataclass(frozen=True, slots=True)
class ShapeMet:
    """A shape of a chord as the index shows it, and the steps where it stands, as (lesson file, block id, step id)."""

    shape: Shape
    fretboard: Fretboard
    places: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class ChordEntry:
    """A chord of the index under the name that the course shows: where first taught, and every shape met."""

    symbol: str
    chord: Chord
    first: tuple[str, str, str]
    shapes: tuple[ShapeMet, ...]


@dataclass(frozen=True, slots=True)
class Course:
    """The whole course, lessons in the order in which they are taught."""

    lessons: tuple[Lesson, ...]
    chords: tuple[ChordEntry, ...] = ()
    decided: tuple[tuple[str, str], ...] = field(default=())

    def lesson(self, file: str) -> Lesson | None:
        """The lesson of a source file, or None."""
        return next((lesson for lesson in self.lessons if lesson.file == file), None)
