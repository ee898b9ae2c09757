"""Chord symbols: read as people write them, written in a course's style, spoken in words."""

from fingerpost.music.chord_reader import SymbolError, read
from fingerpost.music.chord_spoken import spoken
from fingerpost.music.chord_writer import without, write, write_exact
from fingerpost.music.symbol_style import SymbolStyle, note_spoken, note_text

__all__ = [
    "SymbolError",
    "SymbolStyle",
    "note_spoken",
    "note_text",
    "read",
    "spoken",
    "without",
    "write",
    "write_exact",
]
