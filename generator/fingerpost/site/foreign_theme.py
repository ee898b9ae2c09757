"""What a theme that is not our own needs, so that blocks of moves look right in it: one style sheet."""

from __future__ import annotations

from importlib import resources

from mkdocs.config.defaults import MkDocsConfig

OUR_THEME = "fingerpost"
FIGURES = "css/fingerpost-figures.css"


def is_foreign(config: MkDocsConfig) -> bool:
    """Whether the course is published with another theme than ours."""
    return config.theme.name != OUR_THEME


def figures_css() -> str:
    """The style sheet of blocks, steps and pictures, which touches nothing else of a page."""
    return (resources.files("fingerpost.render") / "figures.css").read_text(encoding="utf-8")
