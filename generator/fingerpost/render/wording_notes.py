"""The small print of a step and of a block: what a name leaves out or only nearly says, retuning, capo, ways back."""

from __future__ import annotations

from collections.abc import Iterable

from fingerpost.course.model import Naming, Retuning, Step, WayBack
from fingerpost.music.chord import Chord
from fingerpost.music.interval import Interval
from fingerpost.music.pitch import Pitch
from fingerpost.render.catalogue import sentence
from fingerpost.render.voice import Voice


def name_notes(naming: Naming, voice: Voice) -> tuple[str, ...]:
    """The footnotes of a name: `~` first, else the strict name; then what is customarily left out."""
    if naming.shown is None:
        return ()
    out = _taught(naming, naming.shown, voice) if naming.taught_as else _strict(naming, naming.shown, voice)
    if naming.omitted:
        intervals = voice.words.listed(voice.interval(interval) for interval in naming.omitted)
        out.append(voice.words.say("note.omitted", intervals=intervals))
    if naming.refused is not None:
        out.append(voice.words.say("note.refused", name=voice.chord(naming.refused)))
    return tuple(out)


def _taught(naming: Naming, shown: Chord, voice: Voice) -> list[str]:
    said, name = voice.words, voice.chord(shown)
    strict = voice.chord(naming.strict)
    out = [said.say("note.taught", name=name, strict=strict) if strict else said.say("note.taught_only", name=name)]
    lacks, adds = _members(shown, naming.lacks, voice), _members(shown, naming.adds, voice)
    if lacks and adds:
        out.append(said.say("note.lacks_adds", name=name, lacks=lacks, adds=adds))
    elif lacks or adds:
        out.append(said.say("note.lacks" if lacks else "note.adds", name=name, notes=lacks or adds))
    return out


def _members(chord: Chord, intervals: Iterable[str], voice: Voice) -> str:
    """Notes with what they would be in the chord: `B (the fifth)`."""
    return voice.words.listed(
        voice.words.say(
            "note.member",
            note=voice.note(Interval.parse(interval).above(chord.root)),
            interval=voice.interval(interval),
        )
        for interval in intervals
    )


def _strict(naming: Naming, shown: Chord, voice: Voice) -> list[str]:
    if naming.strict is None:
        return []
    same = naming.strict.with_bass(None) == shown.with_bass(None)
    key = "note.strict" if same else "note.strict_other"
    return [voice.words.say(key, name=voice.chord(shown), strict=voice.chord(naming.strict))]


def step_notes(step: Step, voice: Voice) -> tuple[str, ...]:
    """All the small print of a step."""
    out = [*name_notes(step.naming, voice)]
    if step.passing:
        out.append(voice.words.say("note.passing"))
    return tuple(out)


def retuning(setup: Retuning, voice: Voice) -> tuple[str, ...]:
    """A prompt for every string that is retuned: `String 2: from B down to A.`"""
    return tuple(_retuned(string, before, after, voice) for string, before, after in setup.strings)


def _retuned(string: int, before: str, after: str, voice: Voice) -> str:
    old, new = Pitch.parse(before), Pitch.parse(after)
    if old == new:
        return voice.words.say("setup.tune", string=string, after=voice.note(new.note))
    direction = "up" if new.midi > old.midi else "down" if new.midi < old.midi else "over"
    return voice.words.say(
        "setup.retune",
        string=string,
        before=voice.note(old.note),
        after=voice.note(new.note),
        direction=voice.words.say(f"setup.{direction}"),
    )


def capo_change(before: int, after: int, voice: Voice) -> str:
    """What to do with the capo; "" where it stays as it is."""
    if before == after:
        return ""
    key = "capo_off" if after == 0 else "capo_move" if before else "capo_on"
    return voice.words.say(f"setup.{key}", before=before, fret=after)


def capo_names(naming: Naming, voice: Voice) -> str:
    """Both names of a shape under a capo: `G shape, sounds B♭.`; "" without one."""
    if naming.shown is None or naming.sounding is None:
        return ""
    return voice.words.say("setup.capo_names", name=voice.chord(naming.shown), sounding=voice.chord(naming.sounding))


def way_title(way: WayBack, names: tuple[str, str], voice: Voice, round_again: bool) -> str:
    """`Back from Gadd9 to G`."""
    key = "back.round" if round_again else "back.back"
    return voice.words.say(key, from_name=names[0], to_name=names[1])


def way_flag(way: WayBack, voice: Voice) -> str:
    """`takes two fingers`, said only where it is not just one."""
    if way.fingers == 0:
        return voice.words.say("back.none")
    return voice.words.count("back.flag", way.fingers) if way.fingers > 1 else ""


def step_name(step: Step, voice: Voice) -> str:
    """What a step is called in a sentence: its chord, or `step 3` where nothing sounds."""
    if step.naming.shown is not None and not step.rest:
        return voice.chord(step.naming.shown)
    return voice.words.say("label.step", number=step.ordinal + 1)


def step_names(start: Step | None, end: Step | None, voice: Voice) -> tuple[str, str]:
    """What two steps are called side by side: with their numbers where they share a name."""
    names = tuple("" if step is None else step_name(step, voice) for step in (start, end))
    if start is None or end is None or names[0] != names[1]:
        return names[0], names[1]
    return _numbered(start, names[0], voice), _numbered(end, names[1], voice)


def _numbered(step: Step, name: str, voice: Voice) -> str:
    return voice.words.say("label.named_step", name=name, number=step.ordinal + 1)


def sentences(parts: Iterable[str]) -> str:
    """Sentences one after the other, each with a large first letter."""
    return " ".join(sentence(part) for part in parts if part)
