"""One step of a block as markup: its arm with the name, the picture on its table, and the words beside it."""

from __future__ import annotations

from fingerpost.course.model import Block, Naming, Step
from fingerpost.music.shape_text import write_shape
from fingerpost.render import wording, wording_notes, wording_sound
from fingerpost.render.catalogue import sentence
from fingerpost.render.figure import figure_svg, picture, step_picture
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.parts import chord, heading, line, paragraphs, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.short import for_practice
from fingerpost.render.strokes import stroke_groups, strokes
from fingerpost.render.table import string_table
from fingerpost.render.voice import Voice


def step_html(step: Step, before: Step | None, block: Block, look: Look) -> str:
    """A step as an item of the block's list. before: the step it comes from, None for the start."""
    voice = look.voice(block.fretboard)
    arm = heading(look.heading + 1, _arm(step, voice), "fp-arm")
    figure = _figure(step, block, look, voice)
    words = tag("div", _words(step, before, block, look, voice), "fp-words")
    return tag(
        "li",
        arm + tag("div", figure + words, "fp-pair") + for_practice(step, before, block, voice),
        "fp-step",
        id=html_id(step.id),
        data_step=step.id,
        data_kind=kind(step),
        data_shape=write_shape(step.shape),
        data_pitches=pitches(step, block),
        data_cue=step.cue,
        data_beats=step.beats,
        data_pattern=" ".join(stroke_groups(step.pattern or "") or ()) or None,
    )


def kind(step: Step) -> str:
    """start, rest, back, hold, passing or move."""
    flags = {
        "start": step.ordinal == 0,
        "rest": step.rest,
        "back": step.back,
        "hold": step.hold,
        "passing": step.passing,
    }
    return next((name for name, holds in flags.items() if holds), "move")


def pitches(step: Step, block: Block) -> str:
    """MIDI numbers that are heard, highest-numbered string first, for a script that plays them."""
    neck = block.fretboard
    heard = [(string, step.shape.fret(string)) for string in range(step.shape.strings, 0, -1)]
    return "" if step.rest else " ".join(str(neck.sounding_midi(s, fret)) for s, fret in heard if fret is not None)


def _arm(step: Step, voice: Voice) -> str:
    """What the arm carries: the step's number, the name in large type, the strict name and the sounding one small."""
    number = tag("span", str(step.ordinal + 1), "fp-no")
    naming = step.naming
    if step.rest or naming.shown is None:
        label = voice.words.say("label.rest" if step.rest else "label.silence")
        return f"{number} {tag('span', escaped(label), 'fp-chord fp-plain')}"
    return " ".join([number, chord(naming.shown, voice), *_beside(naming, voice)])


def _beside(naming: Naming, voice: Voice) -> list[str]:
    out = []
    if naming.strict is not None:
        out.append(chord(naming.strict, voice, "fp-strict"))
    if naming.sounding is not None:
        words = voice.words.say("label.sounds", name="\0").split("\0")
        name = chord(naming.sounding, voice, "")
        out.append(tag("span", escaped(words[0]) + name + escaped(words[-1]), "fp-sounding"))
    return out


def _figure(step: Step, block: Block, look: Look, voice: Voice) -> str:
    drawn = figure_svg(step_picture(step, block.fretboard, look), step.id)
    table = "" if step.rest else string_table(step.table, voice, look.facing.player_view, block.fretboard.capo > 0)
    return tag("figure", drawn + table, "fp-figure")


def _words(step: Step, before: Step | None, block: Block, look: Look, voice: Voice) -> str:
    return "".join(
        [
            *_instruction(step, before, block.goes_on, voice),
            strokes(step.pattern, step.beats, voice),
            line(voice.words.say("label.cue"), step.cue or "", "fp-cue"),
            "".join(tag("p", named(sentence(note)), "fp-note") for note in wording_notes.step_notes(step, voice)),
            tag("div", paragraphs(step.say), "fp-say") if step.say else "",
            _image(step, look),
            _easier(step, block, look, voice),
            # A theme puts controls of its own here: behind the words, so that nothing comes between picture and move.
            tag("div", "", "fp-controls"),
        ]
    )


def _instruction(step: Step, before: Step | None, goes_on: bool, voice: Voice) -> list[str]:
    """The two lines of words and what is heard of it."""
    say = voice.words.say
    if before is None:
        key = "move.start_held" if goes_on else "move.start" if step.shape.presses else "move.start_open"
        return [line(say("label.start"), say(key), "fp-move"), _sound(wording_sound.strum(step.shape, voice))]
    if step.rest:
        return [line(say("label.rest"), say("move.rest"), "fp-move")]
    if step.back:
        return [line(say("label.back"), say("move.back"), "fp-move"), _sound(wording_sound.strum(step.shape, voice))]
    if before.rest:
        moved = wording.moves(step.transition, voice) if step.transition else say("move.start")
        return [line(say("label.move"), moved, "fp-move"), _sound(wording_sound.strum(step.shape, voice))]
    if step.transition is None:
        return [line(say("label.move"), say("move.unknown"), "fp-move")]
    label = "label.hold" if step.hold else "label.move"
    return [
        line(say("label.stays"), wording.stays(step.transition, voice), "fp-stays"),
        line(say(label), wording.moves(step.transition, voice), "fp-move"),
        "" if step.hold else _sound(wording_sound.sound(before.table, step.table, voice)),
    ]


def _sound(text: str) -> str:
    return tag("p", named(text), "fp-sound")


def _image(step: Step, look: Look) -> str:
    """A picture of the author's; its text is for who does not see it, so it is not repeated beside it."""
    if not step.image:
        return ""
    address, text = escaped(look.links.image(step.image)), escaped(step.image_text or "")
    return tag("figure", f'<img src="{address}" alt="{text}" loading="lazy">', "fp-image")


def _easier(step: Step, block: Block, look: Look, voice: Voice) -> str:
    if step.easier is None:
        return ""
    naming = step.easier_naming
    drawn = figure_svg(picture(step.easier, block.fretboard, naming, look), f"{step.id}-easier", small=True)
    shown = naming.shown if naming else None
    text = voice.words.say("note.easier", name=voice.chord(shown)) if shown else voice.words.say("note.easier_plain")
    return tag("figure", drawn + tag("figcaption", named(text)), "fp-easier")
