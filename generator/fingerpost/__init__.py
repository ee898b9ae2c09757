"""Fingerpost: a course of chord shapes that change by one finger at a time, from Markdown to a static site."""

__version__ = "0.1.0"
