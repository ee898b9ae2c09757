"""Where the `moves` blocks of a page stand, and the paragraphs in which mentions may stand.

The original text is scanned by the rules of CommonMark 0.31 for containers, fenced and indented code, HTML and
comments, so that nothing inside a longer fence, indented code or a comment is taken for a block. A comment hides
everything up to its end, empty lines included, wherever it begins.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from fingerpost.diagnostics import Diagnostic
from fingerpost.source.acceptances import Acceptance, Comment, comments_in, in_prose
from fingerpost.source.containers import RULE, TAB, Container, Walk, continued, opened
from fingerpost.source.fence_body import FENCE, FenceRead, Opening, read_fence
from fingerpost.source.headings import Heading, headings_in
from fingerpost.source.links import Link, links_in
from fingerpost.source.meant_fence import meant_fence, no_fence
from fingerpost.source.mentions import Piece, mentions_in
from fingerpost.source.near_mentions import near_mentions
from fingerpost.source.syntax import Fence, Mention
from fingerpost.source.tags import Tag, tags_in

HEADING = re.compile(r"#{1,6}(?=[ \t]|$)")
UNDERLINE = re.compile(r"(?:=+|-+)[ \t]*$")
COMMENT, COMMENT_END = "<!--", re.compile(r"-->")
RAW_HTML = re.compile(r"<(pre|script|style|textarea)(?=[\s>]|$)", re.IGNORECASE)
RAW_HTML_END = {tag: re.compile(rf"</{tag}>", re.IGNORECASE) for tag in ("pre", "script", "style", "textarea")}
HTML_BLOCK = re.compile(
    r"</?(?:address|article|aside|blockquote|body|center|details|dialog|dd|div|dl|dt|fieldset|figcaption|figure|footer"
    r"|form|h[1-6]|head|header|hr|html|iframe|legend|li|link|main|menu|nav|ol|option|p|section|summary|table|tbody|td"
    r"|tfoot|th|thead|title|tr|track|ul)(?=[\s/>]|$)(?![^>]*\smarkdown\b)",
    re.IGNORECASE,
)
"""A line that begins a stretch of HTML up to the next empty line (CommonMark 0.31, 4.6, kind 6): no mention is in it.

Where the tag says `markdown`, what it holds is read. A fence in such a stretch is one all the same, as Python-Markdown
has it.
"""
CODE_OR_COMMENT = re.compile(r"(?<!`)(`+)(?!`).*?(?<!`)\1(?!`)|<!--(?:-?>|.*?-->)|(<!--)")


@dataclass(frozen=True, slots=True)
class Scan:
    """What was found in a text, each in order. title is the words of the first heading of the first level."""

    fences: tuple[Fence, ...] = ()
    mentions: tuple[Mention, ...] = ()
    findings: tuple[Diagnostic, ...] = ()
    title: str | None = None
    acceptances: tuple[Acceptance, ...] = ()
    links: tuple[Link, ...] = ()
    headings: tuple[Heading, ...] = ()
    tags: tuple[Tag, ...] = ()


def lines_of(text: str) -> list[str]:
    """The lines of a text, ended as MkDocs reads them: by LF, CRLF or CR."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def scan(file: str, text: str, first_line: int = 1) -> Scan:
    """Finds the `moves` fences and the mentions of a text whose first line is line `first_line` of the file.

    The text is a page without front matter, or what a site generator hands over: without byte-order mark, a suffix of
    the file. Never raises.
    """
    scanner = _Scanner(file, lines_of(text), first_line)
    scanner.run()
    mentions = mentions_in(file, scanner.paragraphs)
    accepted = tuple(in_prose(scanner.comments, scanner.paragraphs, scanner.fences))
    return Scan(
        tuple(scanner.fences),
        mentions,
        tuple(sorted((*scanner.findings, *near_mentions(file, scanner.paragraphs)))),
        scanner.title,
        accepted,
        links_in(file, scanner.paragraphs),
        headings_in(file, scanner.headings),
        tuple(tags_in(file, (*scanner.paragraphs, *scanner.raw))),
    )


@dataclass(slots=True)
class _Scanner:
    """Reads line by line; stack: the open containers; paragraph: the lines of an open one; html: in HTML."""

    file: str
    lines: list[str]
    first_line: int
    at: int = 0
    stack: tuple[Container, ...] = ()
    paragraph: list[Piece] = field(default_factory=list)
    paragraphs: list[list[Piece]] = field(default_factory=list)
    fences: list[Fence] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)
    comments: list[Comment] = field(default_factory=list)
    headings: list[tuple[int, list[Piece]]] = field(default_factory=list)
    raw: list[list[Piece]] = field(default_factory=list)
    title: str | None = None
    html: bool = False
    bare_item: bool = False
    last_comment_end: int = -1

    def run(self) -> None:
        ends = (number for number in reversed(range(len(self.lines))) if "-->" in self.lines[number])
        self.last_comment_end = next(ends, -1)
        while self.at < len(self.lines):
            self.line(self.lines[self.at])
        self.end_paragraph()

    def line(self, text: str) -> None:
        """One line outside of any code or comment; a fence or a comment that begins here is read to its end."""
        self.at += 1
        if not self.stack and not self.html and text[:1].isalpha():
            return self.words(text, 0)
        walk = Walk(text)
        depth = continued(walk, self.stack)
        if self.bare_item and depth == len(self.stack) and walk.blank:
            depth -= 1  # a list item that begins with an empty line holds no second one
        fresh = opened(walk, depth, in_paragraph=bool(self.paragraph) and depth == len(self.stack))
        lazy = bool(self.paragraph) and depth < len(self.stack) and not fresh and self.goes_on(walk)
        if not lazy and (fresh or depth < len(self.stack)):
            self.end_paragraph()
            self.stack = (*self.stack[:depth], *fresh)
        self.bare_item = bool(fresh) and fresh[-1].is_list and walk.blank
        self.leaf(walk, on_item_line=any(container.is_list for container in fresh))

    def goes_on(self, walk: Walk) -> bool:
        """Whether the line may go on with a paragraph though it leaves its container (a lazy line)."""
        rest = walk.rest
        begins = FENCE.match(rest) or HEADING.match(rest) or RULE.match(rest) or rest.startswith(COMMENT)
        return bool(rest) and not (begins and walk.indent() < TAB)

    def leaf(self, walk: Walk, on_item_line: bool) -> None:
        """What the line holds inside its containers."""
        rest = walk.rest
        if not rest:
            self.end_paragraph()
            self.html = False
        elif walk.indent() >= TAB:
            if self.paragraph:
                self.words(walk.text, walk.words_at)
            else:
                self.meant(walk)
        elif fence := FENCE.match(rest):
            self.fence(walk, fence, on_item_line)
        elif self.html or HTML_BLOCK.match(rest):
            self.end_paragraph()
            self.raw_html(walk)
            self.html = True
        elif raw := RAW_HTML.match(rest):
            self.end_paragraph()
            if raw.group(1).lower() == "script":
                self.raw_html(walk)
            self.skip_to(RAW_HTML_END[raw.group(1).lower()], walk.at)
        elif HEADING.match(rest):
            self.heading(walk, rest)
        elif self.paragraph and UNDERLINE.match(rest):
            self.underline(rest)
        elif RULE.match(rest):
            self.end_paragraph()
        elif not self.meant(walk):
            self.words(walk.text, walk.words_at)

    def raw_html(self, walk: Walk) -> None:
        """Keeps a line of HTML, with those above it that it goes on from, for what it loads or leads to."""
        piece = Piece(walk.text[walk.words_at :], self.first_line + self.at - 1, walk.words_at + 1)
        if self.html and self.raw and self.raw[-1][-1].line == piece.line - 1:
            self.raw[-1].append(piece)
        else:
            self.raw.append([piece])

    def heading(self, walk: Walk, rest: str) -> None:
        self.end_paragraph()
        if self.title is None and not rest.startswith("##"):
            self.title = rest.strip("# \t")
        self.words(walk.text, walk.words_at)
        self.headings.append((len(rest) - len(rest.lstrip("#")), self.paragraph))
        self.end_paragraph()

    def underline(self, rest: str) -> None:
        """The paragraph above becomes a heading."""
        if self.title is None and rest.startswith("="):
            self.title = " ".join(piece.text for piece in self.paragraph)
        self.headings.append((1 if rest.startswith("=") else 2, self.paragraph))
        self.end_paragraph()

    def words(self, text: str, start: int) -> None:
        """Text in which mentions may stand, up to a comment that goes on over the following lines."""
        line, text = self.first_line + self.at - 1, text[start:]
        comment = self.open_comment(text)
        piece = Piece(text[:comment], line, start + 1)
        self.paragraph.append(piece)
        if comment is not None:
            self.skip_to(COMMENT_END, start + comment + len(COMMENT))
        if COMMENT in text:
            self.comments.extend(comments_in(self.file, self.lines, self.first_line, piece, self.at))

    def open_comment(self, text: str) -> int | None:
        """Where a comment begins that does not end on its line; one without any end must begin the line to count."""
        if COMMENT not in text:
            return None
        begins = next((found.start(2) for found in CODE_OR_COMMENT.finditer(text) if found.group(2)), None)
        if begins and self.last_comment_end < self.at:
            return None
        return begins

    def skip_to(self, end: re.Pattern[str], start: int) -> None:
        """Passes over all up to an end mark, in this line from `start` or in a later one; the rest of that is text."""
        at = self.at - 1
        while (found := end.search(self.lines[at], start)) is None:
            at, start = at + 1, 0
            if at >= len(self.lines):
                self.at = at
                return
        self.at = at + 1
        after = self.lines[at][found.end() :]
        if after.strip():
            self.paragraph.append(Piece(after, self.first_line + at, found.end() + 1))

    def end_paragraph(self) -> None:
        if self.paragraph:
            self.paragraphs.append(self.paragraph)
            self.paragraph = []

    def fence(self, walk: Walk, found: re.Match[str], on_item_line: bool) -> None:
        self.end_paragraph()
        marks, info = (found.group(1), found.group(2)) if found.group(1) else (found.group(3), found.group(4))
        indent = walk.indent()
        walk.eat(indent)
        opening = Opening(
            self.file, self.first_line, marks, info, indent, self.stack, self.at - 1, walk.at, on_item_line
        )
        self.take(meant_fence(self.lines, opening) or read_fence(self.lines, opening))

    def meant(self, walk: Walk) -> bool:
        """Reads a block whose marks are none to Markdown, where this line begins one; says whether it does."""
        read = no_fence(self.file, self.first_line, self.lines, self.at - 1, walk)
        if read is not None:
            self.end_paragraph()
            self.take(read)
        return read is not None

    def take(self, read: FenceRead) -> None:
        self.at = read.next
        self.findings.extend(read.findings)
        if read.fence:
            self.fences.append(read.fence)
