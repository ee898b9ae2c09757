"""Small pieces of markup that everything on a page is made of. Texts go in plain and come out escaped."""

from __future__ import annotations

import re
from collections.abc import Iterable

from fingerpost.music.chord import Chord
from fingerpost.render.named import named, one_name, unmarked
from fingerpost.render.plain import escaped
from fingerpost.render.voice import Voice


def tag(name: str, content: str, classes: str = "", **attributes: str | None) -> str:
    """An element about content that is markup already; an attribute that is None is left out, `_` becomes `-`."""
    opening = f'<{name} class="{escaped(classes)}"' if classes else f"<{name}"
    for key, value in attributes.items():
        if value is not None:
            opening += f' {key.rstrip("_").replace("_", "-")}="{escaped(unmarked(value))}"'
    return f"{opening}>{content}</{name}>"


def heading(level: int, content: str, classes: str) -> str:
    """A heading; levels below six are written as six."""
    return tag(f"h{min(level, 6)}", content, classes)


def line(label: str, text: str, classes: str) -> str:
    """A line of words behind its label; "" where there is nothing to say."""
    if not text:
        return ""
    return tag("p", f"<b>{escaped(label)}</b> <span>{named(text)}</span>", classes)


def hidden(text: str) -> str:
    """Words for those who listen; a style sheet hides them from sight."""
    return tag("span", escaped(text), "fp-hidden")


def read_as(shown: str, aloud: str, classes: str = "") -> str:
    """A sign with the words it is read as, where they differ."""
    plain, name = unmarked(shown), one_name(shown)
    content = escaped(plain) if name is not None else named(shown)
    if plain != aloud:
        return tag("span", content, classes, role="img", aria_label=aloud, data_name=name)
    return tag("span", content, classes, data_name=name) if classes or name else content


def chord(name: Chord, voice: Voice, classes: str = "fp-chord") -> str:
    """A chord's symbol, read aloud in words."""
    return read_as(voice.chord(name), voice.chord_aloud(name), classes)


def paragraphs(text: str) -> str:
    """An author's words as paragraphs: an empty line parts them, a line end is kept. Nothing in them is markup."""
    blocks = [block.strip() for block in re.split(r"\n\s*\n", text.replace("\r\n", "\n").replace("\r", "\n"))]
    return "".join(
        f"<p>{'<br>'.join(escaped(part.strip()) for part in block.split(chr(10)))}</p>" for block in blocks if block
    )


def items(contents: Iterable[str], classes: str = "") -> str:
    """List items about contents that are markup already."""
    return "".join(tag("li", content, classes) for content in contents)
