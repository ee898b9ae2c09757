"""The message catalogue: every message that the code asks for is there, and a translation may lack some."""

from __future__ import annotations

import re
from pathlib import Path

import fingerpost.render
import pytest
from fingerpost.render import catalogue
from fingerpost.render.catalogue import PLURAL_RULES, NoSuchWords, Words, languages, sentence, words

ROOM = Path(fingerpost.render.__file__).parent
ENGLISH = words("en")


def asked_for() -> set[str]:
    """Keys that stand in the code as they are; files of the course's own pages look like some."""
    sources = "\n".join(path.read_text(encoding="utf-8") for path in ROOM.glob("*.py"))
    table = {match.split(".")[0] for match in ENGLISH.messages}
    return {
        key
        for key in re.findall(r'"([a-z]+\.[a-z_0-9]+)"', sources)
        if key.split(".")[0] in table and not key.endswith(".md")
    }


@pytest.mark.parametrize("key", sorted(asked_for()))
def test_every_message_asked_for_is_there(key: str) -> None:
    assert any(known == key or known.startswith(f"{key}.") for known in ENGLISH.messages), key


def test_the_code_asks_for_most_of_what_is_there() -> None:
    assert len(asked_for()) > 60


def test_every_counted_message_has_the_form_for_many() -> None:
    forms = {key.rsplit(".", 1)[0] for key in ENGLISH.messages if key.endswith((".one", ".few", ".many"))}
    assert forms
    for key in forms:
        assert ENGLISH.has(f"{key}.other"), key


def test_numbers_choose_their_form() -> None:
    assert ENGLISH.count("back.flag", 1) == "takes one finger"
    assert ENGLISH.count("back.flag", 2) == "takes two fingers"
    assert [PLURAL_RULES["slavic"](n) for n in (1, 2, 5, 11, 21, 22)] == ["one", "few", "many", "many", "one", "few"]


def test_lists_are_joined_as_the_language_does() -> None:
    assert ENGLISH.listed([]) == ""
    assert ENGLISH.listed([1]) == "1"
    assert ENGLISH.listed([1, 2, 3]) == "1, 2 and 3"


def test_a_message_that_is_not_there_says_which() -> None:
    with pytest.raises(NoSuchWords, match=r"'en' has no message 'move\.fly'"):
        ENGLISH.say("move.fly")


@pytest.mark.parametrize("language", ["xx", "../../en", "", "e n"])
def test_a_language_without_a_catalogue_is_refused(language: str) -> None:
    with pytest.raises(NoSuchWords):
        words(language)
    assert "en" in languages()


def test_english_stands_in_for_what_a_translation_lacks(monkeypatch: pytest.MonkeyPatch) -> None:
    real = catalogue._read
    german = {"language": {"and": "und"}, "stays": {"none": "Kein Finger bleibt liegen."}}
    monkeypatch.setattr(catalogue, "_read", lambda language: german if language == "de" else real(language))
    made: Words = words.__wrapped__("de")
    assert made.say("stays.none") == "Kein Finger bleibt liegen."
    assert made.listed([1, 2]) == "1 und 2"
    assert made.say("hand.thumb") == "the thumb"


def test_a_sentence_begins_with_a_large_letter_and_keeps_the_rest() -> None:
    assert sentence("the G string") == "The G string"
    assert sentence("") == ""


def test_no_message_says_that_something_is_easy_or_that_pain_is_usual() -> None:
    texts = " ".join(str(text) for text in ENGLISH.messages.values()).casefold()
    assert "no pain" not in texts
    assert "health professional" in texts
