"""The message catalogue: every sentence of a page comes from it, so that a translation is a file."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from importlib import resources
from typing import Any

PLURAL_RULES: dict[str, Callable[[int], str]] = {
    "one-other": lambda number: "one" if number == 1 else "other",
    "none": lambda _: "other",
    "zero-one-other": lambda number: "one" if number in (0, 1) else "other",
    "slavic": lambda number: (
        "one"
        if number % 10 == 1 and number % 100 != 11
        else "few"
        if number % 10 in (2, 3, 4) and number % 100 not in (12, 13, 14)
        else "many"
    ),
}


class NoSuchWords(LookupError):  # noqa: N818 - it says what is missing
    """A language that has no catalogue, or a catalogue that lacks a message."""


@dataclass(frozen=True)
class Words:
    """The messages of one language, by dotted key."""

    language: str
    messages: Mapping[str, Any] = field(repr=False, hash=False, compare=False)

    def __hash__(self) -> int:
        return hash(self.language)

    def has(self, key: str) -> bool:
        """Whether there is such a message."""
        return key in self.messages

    def say(self, key: str, **values: object) -> str:
        """The message, filled in. Raises NoSuchWords."""
        if key not in self.messages:
            raise NoSuchWords(f"the catalogue {self.language!r} has no message {key!r}")
        return str(self.messages[key]).format(**values)

    def count(self, key: str, number: int, **values: object) -> str:
        """The message for so many of something; {number} and {number_word} are filled in too."""
        form = PLURAL_RULES[str(self.messages["language.plural"])](number)
        full = f"{key}.{form}" if f"{key}.{form}" in self.messages else f"{key}.other"
        return self.say(full, number=number, number_word=self.number_word(number), **values)

    def several(self, key: str) -> list[Any]:
        """A message that is a list: of texts, or of tables. Raises NoSuchWords."""
        if not isinstance(self.messages.get(key), list):
            raise NoSuchWords(f"the catalogue {self.language!r} has no list {key!r}")
        return list(self.messages[key])

    def number_word(self, number: int) -> str:
        """A small number as a word, a larger one in digits."""
        words: list[str] = self.messages["number.words"]
        return words[number] if 0 <= number < len(words) else str(number)

    def ordinal(self, number: int) -> str:
        """`third` for 3."""
        words: list[str] = self.messages["number.ordinals"]
        return words[number] if 0 <= number < len(words) else str(number)

    def listed(self, items: Iterable[object]) -> str:
        """`1, 2 and 3`."""
        parts = [str(item) for item in items]
        if len(parts) < 2:
            return "".join(parts)
        return f"{self.messages['language.list'].join(parts[:-1])} {self.messages['language.and']} {parts[-1]}"


def sentence(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def _flat(table: Mapping[str, Any], before: str = "") -> dict[str, Any]:
    out: dict[str, Any] = {}
    for key, value in table.items():
        if isinstance(value, Mapping):
            out |= _flat(value, f"{before}{key}.")
        else:
            out[before + key] = value
    return out


@lru_cache(maxsize=16)
def words(language: str = "en") -> Words:
    """The catalogue of a language; English stands in for what a translation lacks. Raises NoSuchWords."""
    english = _flat(_read("en"))
    return Words(language, english if language == "en" else {**english, **_flat(_read(language))})


def languages() -> tuple[str, ...]:
    """The languages that have a catalogue."""
    files = resources.files("fingerpost.render").joinpath("words").iterdir()
    return tuple(sorted(file.name.removesuffix(".toml") for file in files if file.name.endswith(".toml")))


def _read(language: str) -> dict[str, Any]:
    if not language.isascii() or not language.replace("-", "").isalnum():
        raise NoSuchWords(f"{language!r} is no language")
    file = resources.files("fingerpost.render").joinpath("words", f"{language}.toml")
    if not file.is_file():
        raise NoSuchWords(f"there is no catalogue for the language {language!r}; there are {', '.join(languages())}")
    return tomllib.loads(file.read_text(encoding="utf-8"))
