"""Reading made markup back: whether its elements nest, and what stands in which."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())
BLOCKS = frozenset("section div p ul ol li table figure blockquote pre h1 h2 h3 h4 h5 h6".split())


@dataclass
class Element:
    """An element with its attributes, the elements around it, and the text in it."""

    name: str
    attributes: dict[str, str | None]
    around: tuple[Element, ...]
    text: str = ""

    @property
    def classes(self) -> list[str]:
        return (self.attributes.get("class") or "").split()

    def inside(self, name: str) -> bool:
        return any(element.name == name for element in self.around)


@dataclass
class Markup(HTMLParser):
    """All elements of a text of markup in order; faults tells what does not nest."""

    elements: list[Element] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    open: list[Element] = field(default_factory=list)
    text: str = ""

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in BLOCKS and any(element.name == "p" for element in self.open):
            self.faults.append(f"<{tag}> inside <p>")
        element = Element(tag, dict(attrs), tuple(self.open))
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(Element(tag, dict(attrs), tuple(self.open)))

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:
            return
        if not self.open or self.open[-1].name != tag:
            self.faults.append(f"</{tag}> closes {self.open[-1].name if self.open else 'nothing'}")
        else:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        self.text += data
        for element in self.open:
            element.text += data

    def all(self, name: str, class_: str | None = None) -> list[Element]:
        return [e for e in self.elements if e.name == name and (class_ is None or class_ in e.classes)]


def read(markup: str) -> Markup:
    """Reads a text of markup to its end."""
    out = Markup()
    out.feed(markup)
    out.close()
    out.faults += [f"<{element.name}> is never closed" for element in out.open]
    ids = [element.attributes["id"] for element in out.elements if "id" in element.attributes]
    out.faults += [f"id {ident} twice" for ident in sorted({i for i in ids if ids.count(i) > 1}, key=str)]
    return out
