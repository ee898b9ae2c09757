"""What stands on a page for a block, a broken block and an inline mention. Returns markup; writes nothing."""

from __future__ import annotations

from fingerpost.course.model import Block, BrokenBlock, MentionMeaning, Step
from fingerpost.render import wording, wording_notes
from fingerpost.render.figure import figure_svg, picture
from fingerpost.render.look import Look
from fingerpost.render.named import named
from fingerpost.render.parts import chord, heading, items, tag
from fingerpost.render.plain import escaped, html_id
from fingerpost.render.practice import practice_html
from fingerpost.render.step import step_html
from fingerpost.render.voice import Voice
from fingerpost.render.ways_back import ways_back_html

DEFAULT = Look()


def block_html(block: Block, look: Look = DEFAULT) -> str:
    """A whole block: heading, retuning, its steps, the ways back, and what to practise."""
    voice = look.voice(block.fretboard)
    before: list[Step | None] = [None, *block.steps]
    steps = [step_html(step, old, block, look) for step, old in zip(block.steps, before, strict=False)]
    if block.build_up and steps:
        steps[0] = steps[0].removesuffix("</li>") + _build_up(block, look, voice) + "</li>"
    content = [
        heading(look.heading, escaped(block.title), "fp-title") if block.title else "",
        *_setup(block, voice),
        tag("ol", "".join(steps), "fp-steps"),
        ways_back_html(block, look),
        practice_html(block, look),
    ]
    return tag(
        "section",
        "".join(content),
        "fp-block",
        id=html_id(block.id),
        data_tuning=" ".join(str(pitch.midi) for pitch in block.fretboard.tuning.pitches),
        data_capo=str(block.fretboard.capo),
    )


def _setup(block: Block, voice: Voice) -> list[str]:
    """Prompts before the first step: strings to retune, the capo, and both names of the first shape."""
    out = []
    setup = block.retuning
    if setup is not None:
        out += [tag("p", named(text), "fp-retune") for text in wording_notes.retuning(setup, voice)]
    capo = block.fretboard.capo
    change = wording_notes.capo_change(setup.capo_before, setup.capo_after, voice) if setup else ""
    said = [change or (wording_notes.capo_change(0, capo, voice) if capo else "")]
    if capo and block.steps:
        said += [wording_notes.capo_names(block.steps[0].naming, voice), voice.words.say("setup.capo_counts")]
    text = wording_notes.sentences(said)
    return [*out, tag("p", named(text), "fp-capo")] if text else out


def _build_up(block: Block, look: Look, voice: Voice) -> str:
    """The start, finger by finger, in small pictures."""
    shown = []
    for number, step in enumerate(block.build_up, 1):
        ident = f"{block.id}-build-{number}"
        drawn = figure_svg(picture(step.shape, block.fretboard, None, look, step.transition), ident, small=True)
        text = wording.moves(step.transition, voice) if step.transition else voice.words.say("move.start")
        shown.append(tag("figure", drawn + tag("figcaption", named(text)), "fp-figure"))
    label = tag("p", escaped(voice.words.say("label.build")), "fp-build-label")
    return tag("div", label + tag("ol", items(shown), "fp-build-steps"), "fp-build")


def broken_html(broken: BrokenBlock, look: Look = DEFAULT) -> str:
    """The notice in place of a block that could not be read: what is wrong, and the author's text, none of it lost."""
    said = look.words
    title = said.say("broken.title_id", id=broken.id) if broken.id else said.say("broken.title")
    source = (
        tag("p", escaped(said.say("broken.source")), "fp-broken-label")
        + tag("pre", tag("code", escaped(broken.source)))
        if broken.source.strip()
        else tag("p", escaped(said.say("broken.no_source")))
    )
    content = [
        tag("p", tag("strong", escaped(title)), "fp-broken-title"),
        tag("p", escaped(said.say("broken.lead"))),
        tag("ul", items(escaped(message) for message in broken.messages)),
        source,
    ]
    ident = html_id(broken.id) if broken.id else None
    return tag("section", "".join(content), "fp-block fp-broken", id=ident)


def mention_html(mention: MentionMeaning, look: Look = DEFAULT) -> str:
    """An inline mention: a chord with its small picture, a link to a step, or plain words; unresolved: plain words."""
    step, neck = mention.step, mention.fretboard
    if step is None or neck is None or step.naming.shown is None or mention.kind == "now":
        return _mention_words(mention, look)
    voice = look.voice(neck)
    name = chord(step.naming.shown, voice, "fp-name")
    if mention.kind == "chord":
        ident = f"fp-mention-{mention.ordinal}"
        drawn = figure_svg(picture(step.shape, neck, step.naming, look), ident, small=True)
        name = tag("span", drawn + _linked(mention, name, look), "fp-mention")
        return name
    return _linked(mention, name, look)


def mention_words(mention: MentionMeaning) -> str:
    """A mention as plain text, for headings, titles and a search index."""
    return mention.words


def _mention_words(mention: MentionMeaning, look: Look) -> str:
    words = tag("span", escaped(mention.words), "fp-name")
    return _linked(mention, words, look) if mention.kind == "step" and mention.step is not None else words


def _linked(mention: MentionMeaning, content: str, look: Look) -> str:
    if mention.lesson is None or mention.block_id is None or mention.step is None:
        return content
    address = look.links.step(mention.lesson, mention.block_id, html_id(mention.step.id))
    return tag("a", content, "fp-link", href=address)
