"""Names of notes, strings and chords inside sentences, marked so that a page can show them in another style.

A sentence is plain text until it becomes markup, so a name in it is put between three characters of Unicode's private
use area, with its plain English form before what is shown: a page's script finds the other styles by that form.
"""

from __future__ import annotations

import re

from fingerpost.render.plain import escaped

_OPEN, _BETWEEN, _CLOSE = "\ue000", "\ue001", "\ue002"
_MARKED = re.compile(f"{_OPEN}([^{_OPEN}-{_CLOSE}]*){_BETWEEN}([^{_OPEN}-{_CLOSE}]*){_CLOSE}")


def marked(name: str, shown: str) -> str:
    """A name for a sentence. name: as a course's source writes it, `Bb` or `Cmaj7`; shown: in the course's style."""
    return f"{_OPEN}{name}{_BETWEEN}{shown}{_CLOSE}"


def unmarked(text: str) -> str:
    """The sentence as a reader sees it."""
    return _MARKED.sub(r"\2", text) if _OPEN in text else text


def named(text: str) -> str:
    """The sentence as the content of an element, each name in an element of its own that says which name it is."""
    content = escaped(text)
    return _MARKED.sub(r'<span data-name="\1">\2</span>', content) if _OPEN in content else content


def one_name(text: str) -> str | None:
    """The plain form of the name, where the text is just one name and nothing else."""
    found = _MARKED.fullmatch(text)
    return found[1] if found else None
