"""The practice checklist: its sentences and its boxes, each with a key under which a page remembers it."""

from __future__ import annotations

from fingerpost.course.model import Block, PracticeItem, Step, Watch
from fingerpost.music.shape import Finger
from fingerpost.render.catalogue import sentence
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.parts import heading, tag
from fingerpost.render.plain import escaped
from fingerpost.render.voice import Voice
from fingerpost.render.wording_notes import step_names


def practice_html(block: Block, look: Look) -> str:
    """The list after a block; "" where there is nothing to practise."""
    if not block.practice:
        return ""
    voice = look.voice(block.fretboard)
    title = heading(look.heading + 1, escaped(voice.words.say("practice.title")), "fp-practice-title")
    keys: dict[str, int] = {}
    lines = [_box(item, _key(item, block, keys), block, voice) for item in block.practice]
    return tag("section", title + tag("ul", "".join(lines)), "fp-practice")


def _key(item: PracticeItem, block: Block, seen: dict[str, int]) -> str:
    """A key made of what is practised, not of where it stands, so that it outlives a renumbering."""
    ends = [block.steps[number].id for number in (item.from_step, item.to_step) if number is not None]
    key = "/".join([block.id, item.kind, *ends])
    seen[key] = seen.get(key, 0) + 1
    return key if seen[key] == 1 else f"{key}/{seen[key]}"


def _box(item: PracticeItem, key: str, block: Block, voice: Voice) -> str:
    text = named(item_text(item, block.steps, voice))
    if item.kind in ("stop", "tomorrow"):
        return tag("li", text, f"fp-item fp-item-{item.kind}")
    return tag("li", f'<label><input type="checkbox" data-key="{escaped(key)}"> <span>{text}</span></label>', "fp-item")


def item_text(item: PracticeItem, steps: tuple[Step, ...], voice: Voice) -> str:
    """One line of the checklist in words."""
    said = voice.words
    if item.kind in ("warm-up", "warm_up", "rest"):
        key = "rest" if item.kind == "rest" else "warm_up"
        return said.count(f"practice.{key}", item.minutes) if item.minutes else said.say(f"practice.{key}_plain")
    if not said.has(f"practice.{item.kind}"):
        return said.say("practice.stop")
    out = [said.say(f"practice.{item.kind}", **_values(item, steps, voice)), *_hints(item, voice)]
    return " ".join(map(sentence, out))


def _values(item: PracticeItem, steps: tuple[Step, ...], voice: Voice) -> dict[str, str]:
    ends = [None if number is None else steps[number] for number in (item.from_step, item.to_step)]
    names = step_names(ends[0], ends[1], voice)
    return {
        "from_name": names[0],
        "to_name": names[1],
        "count": voice.words.say("practice.count", clean=item.clean, tries=item.tries) if item.tries else "",
    }


def _watched(watch: Watch, voice: Voice) -> str:
    fingers = voice.fingers([Finger.from_mark(mark) for mark in watch.fingers])
    return voice.words.say(f"practice.watch_{watch.kind}", fingers=fingers, strings=voice.strings(watch.strings))


def _hints(item: PracticeItem, voice: Voice) -> list[str]:
    said, out = voice.words, []
    if item.keep:
        fingers = [Finger.from_mark(mark) for mark in item.keep]
        out.append(said.count("practice.keep", len(fingers), fingers=voice.fingers(fingers)))
    out += [_watched(watch, voice) for watch in item.watch]
    if item.ring:
        out.append(said.count("practice.ring", len(item.ring), strings=voice.strings(item.ring)))
    return out
