"""How the values of options are read: a reader takes what the configuration holds, or says what it expected."""

from __future__ import annotations

import dataclasses
import difflib
import math
import posixpath
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.key import Key
from fingerpost.music.tuning import NAMED, Tuning, parse_tuning

LONGEST_VALUE_SHOWN = 60
PAGE_SUFFIXES = (".markdown", ".mdown", ".mkdn", ".mkd", ".md")


@dataclass(frozen=True, slots=True)
class Problem:
    """An option that could not be taken: its key (dotted where nested), what is wrong, what was expected.

    `ties.1` is the second item of a list; a message names the whole list.
    """

    key: str
    wrong: str
    expected: str
    nearest: str = ""

    @property
    def sentence(self) -> str:
        """The problem in one sentence."""
        names = [part for part in self.key.split(".") if not part.isdecimal()]
        return f"`{'.'.join(names)}` {self.wrong}"


class SettingError(ValueError):
    """A value that an option does not take; inner is the key within a nested option, or the place in a list."""

    def __init__(self, wrong: str, expected: str, nearest: str = "", inner: str = "") -> None:
        super().__init__(f"{wrong}; expected {expected}")
        self.wrong, self.expected, self.nearest, self.inner = wrong, expected, nearest, inner

    def problem(self, key: str) -> Problem:
        """The error as a problem of the option `key`."""
        return Problem(f"{key}.{self.inner}" if self.inner else key, self.wrong, self.expected, self.nearest)


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that is most like `word`, or "" where none is like it."""
    by_fold = {known_word.casefold(): known_word for known_word in known}
    found = difflib.get_close_matches(word.casefold()[:100], list(by_fold), n=1, cutoff=0.5)
    return by_fold[found[0]] if found else ""


def text_of(value: object) -> str:
    """The value as text, also one that Python does not write out."""
    try:
        return str(value)
    except ValueError:  # a number with more digits than Python writes
        return "a number beyond all bounds"


def shown(value: object) -> str:
    """A value as a message quotes it."""
    text = repr(value) if isinstance(value, str) else text_of(value)
    return text if len(text) <= LONGEST_VALUE_SHOWN else text[:LONGEST_VALUE_SHOWN] + "…"


def number(low: int, high: int, whole: bool = True) -> Callable[[object], float]:
    """A reader of numbers from low to high."""
    expected = f"a {'whole ' if whole else ''}number from {low} to {high}"

    def read(value: object) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float) or (whole and not _is_whole(value)):
            raise SettingError(f"is {shown(value)}", expected)
        if not low <= value <= high:
            raise SettingError(f"is {shown(value)}", expected, str(min(max(value, low), high)))
        return int(value) if whole else float(value)

    return read


def _is_whole(value: float) -> bool:
    return isinstance(value, int) or value.is_integer()


def one_of(*words: str) -> Callable[[object], str]:
    """A reader of one word out of a few."""

    def read(value: object) -> str:
        if value not in words:
            raise SettingError(f"is {shown(value)}", "one of " + ", ".join(words), nearest(text_of(value), words))
        return str(value)

    return read


def yes_or_no(value: object) -> bool:
    """A reader of true and false."""
    if not isinstance(value, bool):
        raise SettingError(f"is {shown(value)}", "true or false")
    return value


def tuning(value: object) -> Tuning:
    """A reader of tunings, named or spelled."""
    expected = "a named tuning, or four to eight pitches such as D2 A2 D3 G3 A3 D4"
    try:
        return parse_tuning(" ".join(map(text_of, value)) if isinstance(value, list | tuple) else text_of(value))
    except ValueError:
        raise SettingError(f"is {shown(value)}", expected, nearest(text_of(value), NAMED)) from None


def key_of_course(value: object) -> str | None:
    """A reader of keys; nothing is no key."""
    if value is None:
        return None
    try:
        Key.parse(text_of(value))
    except ValueError:
        raise SettingError(f"is {shown(value)}", "a key such as G, Bb, Em or F#m") from None
    return str(value)


_Amounts = TypeVar("_Amounts")
HIGHEST_FINGER = 4


def amounts(kind: type[_Amounts]) -> Callable[[object], _Amounts]:
    """A reader of a mapping from the field names of `kind`, a dataclass of numbers, to what each of them takes."""
    fields = {field.name: field for field in dataclasses.fields(kind)}  # type: ignore[arg-type]

    def read(value: object) -> _Amounts:
        if not isinstance(value, Mapping):
            raise SettingError(f"is {shown(value)}", "a list of names with their values, such as " + next(iter(fields)))
        for key in value:
            if key not in fields:
                raise SettingError(
                    "is not known", "one of " + ", ".join(fields), nearest(text_of(key), fields), text_of(key)
                )
        default = kind()
        return kind(**{key: _amount(key, amount, getattr(default, key)) for key, amount in value.items()})

    return read


def _amount(key: str, value: object, default: object) -> object:
    """The value of a field whose default shows what it takes: yes or no, a number, or a list of numbers."""
    if isinstance(default, bool):
        wrong, expected = not isinstance(value, bool), "true or false"
    elif isinstance(default, tuple) and key == "fingers":
        fingers = tuple(range(1, HIGHEST_FINGER + 1))
        wrong = not isinstance(value, list | tuple) or not value or any(v not in fingers or v is True for v in value)
        expected = "a list of fingers from 1 to 4"
    elif isinstance(default, tuple):
        wrong = not isinstance(value, list | tuple) or len(value) != len(default) or not all(map(_is_amount, value))
        expected = f"a list of {len(default)} numbers of at least 0"
    else:
        wrong, expected = not _is_amount(value), "a number of at least 0"
    if wrong:
        raise SettingError(f"is {shown(value)}", expected, inner=key)
    return tuple(value) if isinstance(value, list) else value


def _is_amount(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < math.inf


def tied_names(value: object) -> tuple[tuple[Chord, Chord], ...]:
    """A reader of decisions between equal names: a list of `C6 not Am7`, or one such text."""
    texts = [value] if isinstance(value, str) else value
    if not isinstance(texts, list | tuple):
        raise SettingError(f"is {shown(value)}", "a list of decisions, each as C6 not Am7")
    ties: list[tuple[Chord, Chord]] = []
    for item, text in enumerate(map(text_of, texts)):
        try:
            ties.append(_tie(text))
            _check_agrees(ties, text)
        except SettingError as error:
            raise SettingError(error.wrong, error.expected, error.nearest, str(item)) from None
    return tuple(ties)


def _check_agrees(ties: list[tuple[Chord, Chord]], text: str) -> None:
    """Raises SettingError where the last decision keeps another name for notes that were decided before."""
    kept = ties[-1][0]
    for earlier, other in ties[:-1]:
        same = earlier.pitch_classes == kept.pitch_classes
        if same and earlier.with_bass(None).root.pitch_class != kept.with_bass(None).root.pitch_class:
            before = f"{chord_symbol.write(earlier)} not {chord_symbol.write(other)}"
            wrong = f"holds {shown(text)}, and {shown(before)} has decided for the same notes already"
            raise SettingError(wrong, "one decision for the same notes", before)


def _tie(text: str) -> tuple[Chord, Chord]:
    words = text.split()
    if len(words) != 3 or words[1] != "not":
        raise SettingError(f"holds {shown(text)}", "a decision such as C6 not Am7")
    try:
        chosen, refused = chord_symbol.read(words[0]), chord_symbol.read(words[2])
    except chord_symbol.SymbolError as error:
        raise SettingError(
            f"holds {shown(text)}, and {error.message}", "two chord symbols, such as C6 not Am7"
        ) from None
    if chosen.pitch_classes != refused.pitch_classes:
        raise SettingError(f"holds {shown(text)}, whose chords have different notes", "two names for the same notes")
    return chosen, refused


def redirects(value: object) -> tuple[tuple[str, str], ...]:
    """A reader of redirects: old pages, each with the page that it leads to now, perhaps with an anchor."""
    if not isinstance(value, Mapping):
        raise SettingError(f"is {shown(value)}", "old pages with the new ones, each as `old.md: new.md`")
    for old, new in value.items():
        if not _is_page(old):
            raise SettingError(
                f"has {shown(old)}", "a page by its file in the course, such as old.md", inner=text_of(old)
            )
        if not isinstance(new, str) or not _is_page(new.partition("#")[0]):
            expected = "a page by its file in the course, such as new.md or new.md#step"
            raise SettingError(f"is {shown(new)}", expected, inner=text_of(old))
    return tuple((posixpath.normpath(str(old)), str(new)) for old, new in value.items())


def _is_page(value: object) -> bool:
    """Whether this is a path of a Markdown page inside the folder of the sources, and nothing but a path."""
    if not isinstance(value, str) or not value.endswith(PAGE_SUFFIXES) or not value.isprintable():
        return False
    return not posixpath.normpath(value).startswith(("..", "/")) and not set(value) & set(":?#\\")
