"""What a step in the long form adds: an easier shape, and an image beside the page."""

from __future__ import annotations

import posixpath
import re
from dataclasses import dataclass

from fingerpost.course.ground import Ground
from fingerpost.course.heard import heard_of
from fingerpost.course.model import Naming
from fingerpost.course.name_book import NameBook
from fingerpost.course.naming import computed
from fingerpost.course.objections import fault_finding
from fingerpost.course.slip import Slip, error
from fingerpost.course.start import shape_of
from fingerpost.course.words import quoted
from fingerpost.diagnostics import Code, Diagnostic
from fingerpost.music.fingering import likeliest
from fingerpost.music.shape import Shape
from fingerpost.source.syntax import Image, MoveLine, StepSyntax, Token

SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:")


@dataclass(frozen=True)
class Extras:
    """The easier shape with its naming, and the image with its text."""

    easier: Shape | None = None
    easier_naming: Naming | None = None
    image: str | None = None
    image_text: str | None = None


def extras_of(
    step: StepSyntax, line: MoveLine, ground: Ground, book: NameBook
) -> tuple[Extras, tuple[Diagnostic, ...]]:
    """What the step adds, and what is wrong with it."""
    easier, naming, found = _easier(step.easier, ground, book)
    image, wrong = _image(step.image)
    text = step.image.text.text if image and step.image and step.image.text else None
    return Extras(easier, naming, image, text), (*found, *wrong)


def _easier(
    token: Token | None, ground: Ground, book: NameBook
) -> tuple[Shape | None, Naming | None, tuple[Diagnostic, ...]]:
    if token is None:
        return None, None, ()
    try:
        written = shape_of(token, ground)
    except Slip as problem:
        return None, None, (problem.finding,)
    faults = ground.hand.faults(written, ground.fretboard)
    shape = None if faults else likeliest(written, ground.fretboard, ground.hand)
    if shape is None:
        return None, None, (unholdable(written, token, ground),)
    heard = heard_of(shape, ground.fretboard)
    return shape, Naming(None) if heard is None else computed(heard, ground, book), ()


def unholdable(shape: Shape, token: Token, ground: Ground) -> Diagnostic:
    """The finding for a shape that no fingering can make."""
    for fault in ground.hand.faults(shape, ground.fretboard):
        return fault_finding(fault, token.span)
    message = f"No fingering within the hand's limits makes {quoted(token.text)}"
    return error(token.span, Code.IMPOSSIBLE_HAND, message, "a shape that four fingers can hold")


def _image(image: Image | None) -> tuple[str | None, tuple[Diagnostic, ...]]:
    """The file of an image; one from elsewhere is refused, so that a page asks no other host for anything."""
    if image is None:
        return None, ()
    name = image.file.text
    wrong = refusal(name, image.file.span.file)
    if wrong is None:
        return name, ()
    expected = "a file of the course, its path written from this page"
    fix = posixpath.basename(name.replace("\\", "/").rstrip("/"))
    return None, (error(image.file.span, Code.LINK_OUT_OF_TREE, f"The image {quoted(name)} {wrong}", expected, fix),)


def refusal(name: str, page: str) -> str | None:
    """Why an image named so on a page is refused, or None."""
    return next((why for why, is_so in REFUSED if is_so(name, page)), None)


def _is_address(name: str, page: str) -> bool:
    return SCHEME.match(name) is not None or name.startswith("//")


def _is_of_one_machine(name: str, page: str) -> bool:
    return name.startswith(("/", "~"))


def _has_backslashes(name: str, page: str) -> bool:
    return "\\" in name


def leads_out(file: str, page: str) -> bool:
    """Whether a path written on a page leads out of the folder of the sources."""
    joined = posixpath.normpath(posixpath.join(posixpath.dirname(page), file))
    return joined == ".." or joined.startswith("../")


REFUSED = (
    ("is an address of another place", _is_address),
    ("is a path of one machine", _is_of_one_machine),
    ("has backslashes in its path", _has_backslashes),
    ("lies outside the folder of the sources", leads_out),
)
"""What an image's file must not be: (what is wrong, whether this one is so on this page)."""
