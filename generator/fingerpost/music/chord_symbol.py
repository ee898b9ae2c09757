"""Chord symbols: read as people write them, written in a course's style, spoken in words."""

from fingerpost.music.chord_reader import SymbolError, read
from fingerpost.music.chord_writer import SymbolStyle, note_spoken, note_text, spoken, without, write, write_exact

__all__ = ["SymbolError", "SymbolStyle", "note_spoken", "note_text", "read", "spoken", "without", "write", "write_exact"]
