"""Whether made markup holds nothing but what our own pages are made of."""

from __future__ import annotations

from html.parser import HTMLParser

# Of the words of a page, of a block, of a table, of a picture.
ELEMENTS = frozenset(
    "p h1 h2 h3 b strong em small code pre ul ol li a div section span "
    "figure figcaption img input label ins table caption thead tbody tr th td "
    "button output time dl dt dd details summary template abbr kbd h4 br hr thead tfoot "
    "svg g title desc circle line path polygon rect text".split()
)
ATTRIBUTES = frozenset(
    "class id href src alt loading type role scope xmlns viewbox width height x y x1 x2 y1 y2 cx cy r rx d points "
    "fill stroke stroke-width stroke-dasharray font-family font-size font-weight text-anchor dominant-baseline "
    "tabindex hidden disabled value min max step name for open checked title lang colspan rowspan datetime".split()
)
ADDRESSES = frozenset(("href", "src", "action", "formaction", "poster", "data", "xlink:href", "srcset"))


class Foreign(HTMLParser):
    """Collects every element, attribute and address that is none of ours."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[str] = []
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        if tag not in ELEMENTS:
            self.found.append(f"<{tag}>")
        for name, value in attrs:
            self.seen.add(f"@{name}")
            if name not in ATTRIBUTES and not name.startswith(("data-", "aria-")):
                self.found.append(f"{tag} {name}={value}")
            if name in ADDRESSES and not is_local(value or ""):
                self.found.append(f"{tag} {name}={value}")

    def handle_comment(self, data: str) -> None:
        self.found.append(f"<!--{data[:40]}")

    def handle_decl(self, decl: str) -> None:
        self.found.append(f"<!{decl[:40]}")

    def unknown_decl(self, data: str) -> None:
        self.found.append(f"<![{data[:40]}")

    def handle_pi(self, data: str) -> None:
        self.found.append(f"<?{data[:40]}")


def is_local(address: str) -> bool:
    """Whether an address stays in the course: a place of a page, or a file beside it."""
    first = "".join(address.split()).partition("/")[0].partition("#")[0].partition("?")[0]
    return ":" not in first and not address.strip().startswith(("//", "\\"))


def foreign(markup: str) -> list[str]:
    """What stands in the markup and is none of ours."""
    parser = Foreign()
    parser.feed(markup)
    parser.close()
    return parser.found
