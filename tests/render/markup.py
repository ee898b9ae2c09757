"""Reads markup strictly: every element closed in turn, every attribute quoted, every id its own."""

from __future__ import annotations

from html.parser import HTMLParser

VOID = {"br", "img", "input", "hr"}


class Markup(HTMLParser):
    """The elements of some markup; raises AssertionError where they are not properly nested."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()
        assert not self.open, f"not closed: {self.open}"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID and not (self.get_starttag_text() or "").endswith("/>"):
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> with nothing open"
        assert self.open.pop() == tag, f"</{tag}> closes another element"

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def ids(self) -> list[str]:
        return [attributes["id"] or "" for _, attributes in self.elements if "id" in attributes]

    def named(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]

    def classed(self, name: str) -> list[dict[str, str | None]]:
        return [attributes for _, attributes in self.elements if name in (attributes.get("class") or "").split()]
