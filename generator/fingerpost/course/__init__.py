"""Syntax to meaning: the checked model of a course."""
