"""Markdown text to syntax: where blocks and mentions stand, and what their lines say."""
