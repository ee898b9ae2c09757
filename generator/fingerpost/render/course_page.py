"""A page that the build adds to a course."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class CoursePage:
    """A page made by the build: its title, and its content as markup below a heading of its own."""

    title: str
    html: str

    @property
    def markdown(self) -> str:
        """The page as Markdown source: a heading, then one block of markup without an empty line in it."""
        return f"# {self.title}\n\n{self.html}\n"
