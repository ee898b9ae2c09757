"""The file from which a page changes how names of notes and chords are written, when its reader asks for that."""

from __future__ import annotations

import html
import re
from collections.abc import Collection
from pathlib import Path

from fingerpost.render.name_styles import FIELDS, names_in_styles
from fingerpost.site.options import FingerpostOptions

FILE = "names.json"
_NAME = re.compile(r' data-name="([^"]+)"')
_OPTION_OF = {"notes": "note_names"}
"""The course's option where it is not called like the style's field."""


def built_style(options: FingerpostOptions) -> str:
    """The style in which the pages are built, as the file calls it: `english maj7 dim m`."""
    return " ".join(options[_OPTION_OF.get(field, field)] for field in FIELDS)


def names_on(page: str) -> set[str]:
    """The names that a built page shows, in plain English form."""
    return {html.unescape(name) for name in _NAME.findall(page)}


def write_name_styles(names: Collection[str], accidentals: str, site: Path) -> None:
    """Writes the file into the built site."""
    (site / FILE).write_text(names_in_styles(names, accidentals), encoding="utf-8")
