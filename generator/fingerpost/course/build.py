"""The course from its pages: every block and mention in order, and everything that is wrong with them, at once."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from fingerpost.course.acceptance import Accepting
from fingerpost.course.block import BuiltBlock, build_block
from fingerpost.course.broken import ErrorsByBlock, notice
from fingerpost.course.chord_index import chord_index
from fingerpost.course.ground import Ground, ground_of
from fingerpost.course.in_doubt import chords_by_text, ids_by_text, in_doubt
from fingerpost.course.kept_lines import KeptLines
from fingerpost.course.meant.joining import Joining
from fingerpost.course.meant.other_tuning import other_tuning, tuning_finding
from fingerpost.course.meant.second_reading import denials
from fingerpost.course.meant.start_and_strum import about_what_is_written, as_meant
from fingerpost.course.meant.thread import Joined
from fingerpost.course.meant.unread_line import unread_lines
from fingerpost.course.memory import Memory
from fingerpost.course.mentions import Blocks, Here, last_seen, meaning
from fingerpost.course.model import Block, BrokenBlock, Course, Lesson, MentionMeaning
from fingerpost.course.name_book import NameBook
from fingerpost.course.retuning import retuning
from fingerpost.course.rules import course_findings
from fingerpost.course.settings import Settings
from fingerpost.course.start import StartRead, read_start, stands_alone
from fingerpost.course.teaching import Teaching, Told, teaching_of
from fingerpost.course.trail import Ending, Trail, sighted
from fingerpost.diagnostics import Code, Diagnostic, Severity
from fingerpost.music import chord_symbol
from fingerpost.music.fretboard import Fretboard
from fingerpost.source.page import PageRead
from fingerpost.source.syntax import BlockSyntax, Mention, PageSyntax

Page = PageSyntax | PageRead


def build(
    pages: Sequence[Page],
    settings: Settings,
    memory: Memory | None = None,
    for_pages: bool = True,
    unplaced: Collection[str] = (),
) -> tuple[Course, tuple[Diagnostic, ...]]:
    """The course that the pages make in this order, and the findings about its meaning, sorted by place.

    What reading a page found is not repeated; but where a PageRead is given, a block with an error found in reading is
    broken like one with an error found here. An accepted error breaks no block; `acceptance.settle` takes it out.
    memory: what an earlier build kept; the next build is quicker for it.
    for_pages: False leaves out what no finding needs (tables, build-up, ways back, practice), to check more quickly.
    unplaced: pages of which nobody said where in the course they are taught; they come last, and nothing is said of
    what they may show to the pages before them.
    """
    memory = memory or Memory()
    memory.parts = memory.parts or Memory()
    builder = _Builder(settings, memory, memory.parts, for_pages)
    memory.turn(settings)
    return builder.course(pages, unplaced)


def _syntax(page: Page) -> PageSyntax:
    return page if isinstance(page, PageSyntax) else page.syntax


@dataclass
class _Builder:
    """One build: what grows while the blocks are gone through in order."""

    settings: Settings
    memory: Memory
    parts: Memory
    for_pages: bool
    trail: Trail = field(default_factory=Trail)
    book: NameBook = field(default_factory=NameBook)
    blocks: Blocks = field(default_factory=Blocks)
    told: list[Told] = field(default_factory=list)
    findings: list[Diagnostic] = field(default_factory=list)
    neck: Fretboard | None = None
    joining: Joining = field(default_factory=Joining)
    accepting: Accepting = field(default_factory=Accepting)

    def course(self, pages: Sequence[Page], unplaced: Collection[str]) -> tuple[Course, tuple[Diagnostic, ...]]:
        all_blocks = [block for page in pages for block in _syntax(page).blocks]
        self.trail.later = {block.span: block for block in all_blocks}
        self.joining = Joining.of([_syntax(page).blocks for page in pages])
        drafts = [*self._lessons(pages, unplaced)]
        lessons = tuple(draft.finished(self) for draft in drafts)
        told = {(finding.span, finding.fix) for finding in self.findings if finding.fix}
        self.findings += (one for one in self._course_findings(unplaced) if (one.span, one.fix) not in told)
        decided = tuple((chord_symbol.write(kept), chord_symbol.write(other)) for kept, other in self.settings.ties)
        course = Course(lessons, chord_index(self.trail.sightings, self.parts), decided)
        return course, tuple(sorted(set(self.findings)))

    def _lessons(self, pages: Sequence[Page], unplaced: Collection[str]) -> Iterator[_Draft]:
        """Goes through the pages; those that are unplaced may show anything of theirs until they are reached."""
        waiting = [block for page in pages if _syntax(page).file in unplaced for block in _syntax(page).blocks]
        for block in waiting:
            block_id = "" if block.id is None else block.id.text
            self.trail.await_block(block_id, chords_by_text(block), ids_by_text(block))
        for page in pages:
            if waiting and _syntax(page).file in unplaced:
                self.trail.reach()
                waiting = []
            yield self._lesson(page)

    def _course_findings(self, unplaced: Collection[str]) -> Iterator[Diagnostic]:
        """What the rules of the whole course find; of order only what holds wherever unplaced pages may belong."""
        found = course_findings(self.told, self.settings)
        first = [told for told in self.told if told.file in unplaced]
        if not first:
            return iter(tuple(found))
        others = [told for told in self.told if told.file not in unplaced]
        anywhere = frozenset(course_findings([*first, *others], self.settings))
        return (one for one in found if one.code is not Code.USED_BEFORE_TAUGHT or one in anywhere)

    def _lesson(self, page: Page) -> _Draft:
        draft = _Draft(_syntax(page), isinstance(page, PageRead))
        self.trail.last_on_page = None
        last, unsure = None, False
        errors = ErrorsByBlock(page.findings if isinstance(page, PageRead) else ())
        self.accepting = Accepting(page.acceptances if isinstance(page, PageRead) else ())
        for part in draft.page.parts:
            if isinstance(part, Mention):
                draft.mentions.append((part, Here(last, unsure, last_seen(part, self.trail))))
            else:
                last, unsure = self._block(part, draft, errors.inside(part))
        return draft

    def _block(self, syntax: BlockSyntax, draft: _Draft, in_reading: list[Diagnostic]) -> tuple[Block | None, bool]:
        """Builds a block; gives it, and whether what the hand holds after it is unknown."""
        block_id = syntax.id.text if syntax.id is not None else f"{draft.page.file}:{syntax.span.line}"
        self.trail.later.pop(syntax.span, None)
        ground = ground_of(syntax, self.settings)
        meant, mended = syntax, tuple[Diagnostic, ...]()
        if "start" in syntax.unread or "strum" in syntax.unread:
            meant, mended = as_meant(syntax, in_reading, ground.ground)
        key = (syntax.source if draft.read else syntax, syntax.span)
        start = self._start(meant, ground.ground, key) if ground.sure else StartRead(None)
        built = self._built(block_id, meant, ground.ground, start, key, in_reading) if ground.sure else BuiltBlock(None)
        self.joining.note(block_id, syntax, start, ground.ground, built)
        teaching = self.parts.recall(("teaching", key), lambda: teaching_of(syntax))
        of_block = built.findings if meant is syntax else about_what_is_written(built.findings, syntax)
        here = [*mended, *ground.findings, *of_block, *teaching.findings]
        self.findings += (finding for finding in here if self.joining.is_new(finding, syntax))
        errors = [*in_reading, *(finding for finding in here if self._breaks(finding))]
        sound = built.block is not None and not errors and not built.doubted and syntax.id is not None
        told = self._told(draft.page.file, syntax, built, teaching, sound, key)
        self.told.append(told)
        self._leave(block_id, syntax, built)
        if sound and built.block is not None:
            block = self._keep(draft, built.block, built, told)
            return block, built.held is None or not built.held.sure
        messages = notice(errors, start)
        draft.broken.append(
            BrokenBlock(
                None if syntax.id is None else syntax.id.text, syntax.span, syntax.source, messages, built.block
            )
        )
        self._doubt(syntax, told, errors, start.sure)
        return built.block, True

    def _start(self, syntax: BlockSyntax, ground: Ground, key: Hashable) -> StartRead:
        if not stands_alone(syntax):
            return read_start(syntax, ground, self.trail)
        return self.parts.recall(("start", key), lambda: read_start(syntax, ground, self.trail))

    def _told(
        self, file: str, syntax: BlockSyntax, built: BuiltBlock, teaching: Teaching, sound: bool, key: Hashable
    ) -> Told:
        """The block as the rules see it; the same object as long as nothing of it has changed."""

        def make() -> tuple[BuiltBlock, Told]:
            return built, Told(file, syntax, built.block, built.written, teaching, built.uses, sound, self.settings)

        def stands(kept: tuple[BuiltBlock, Told]) -> bool:
            return kept[0] is built and kept[1].teaching is teaching and kept[1].sound == sound

        return self.parts.recall(("told", key), make, stands)[1]

    def _breaks(self, finding: Diagnostic) -> bool:
        """Whether the block with this finding can't be shown: an error that its author has not accepted."""
        return finding.severity is Severity.ERROR and not self.accepting.take(finding)

    def _built(
        self,
        block_id: str,
        syntax: BlockSyntax,
        ground: Ground,
        start: StartRead,
        key: Hashable,
        in_reading: list[Diagnostic],
    ) -> BuiltBlock:
        """The block, from memory where its text, its place, its start and the names it asked for are the same."""

        def make(joined: Joined | None = None) -> BuiltBlock:
            return on_ground(ground, start, joined)

        def on_ground(on: Ground, begun: StartRead, joined: Joined | None) -> BuiltBlock:
            unread = unread_lines(syntax, in_reading)
            lines = KeptLines.on(on, self.memory.lines)
            return build_block(block_id, syntax, lines, begun, self.book, unread, self.for_pages, joined)

        def stands(built: BuiltBlock) -> bool:
            return all(self.book.used.get(asked) == answer for asked, answer in built.asked.items())

        of_block = (block_id, start, key, self.for_pages)
        built = self.memory.recall(of_block, make, stands)
        if not built.denied:
            return built
        joined = self.joining.around(syntax, start, ground)
        tunings = (*self.joining.tunings(syntax), self.settings.tuning.name)

        def read_again() -> BuiltBlock:
            again = make(joined)
            meant = other_tuning(syntax, again.findings, ground, tunings, lambda on: read_start(syntax, on, self.trail))
            if meant is None:
                return again
            retuned = on_ground(meant.ground, meant.start, None)
            finding = tuning_finding(syntax, meant, min(denials(again.findings)))
            return replace(retuned, findings=(finding, *retuned.findings), denied=True)

        return self.memory.recall((*of_block, joined.key, tunings), read_again, stands)

    def _keep(self, draft: _Draft, block: Block, built: BuiltBlock, told: Told) -> Block:
        """Takes a sound block into its lesson, the trail and the book of names."""
        before, self.neck = self.neck or Fretboard(), block.fretboard
        prompt = retuning(before, block.fretboard)
        block = block if prompt is None else replace(block, retuning=prompt)
        draft.blocks.append(block)
        self.blocks.add(draft.page.file, block)
        self.trail.sight(told.once(sighted))
        for chord in built.shown:
            self.book.note_use(chord)
        return block

    def _doubt(self, syntax: BlockSyntax, told: Told, errors: list[Diagnostic], start_is_sure: bool) -> None:
        """Notes what a block with errors may show once it is mended, so that nothing hangs on its errors."""
        doubtful = in_doubt(told, errors, start_is_sure)
        self.trail.doubt(doubtful.shown, doubtful.promised, doubtful.step_ids)
        self.blocks.unknown.update(doubtful.step_ids)
        if syntax.id is not None:
            self.blocks.unknown.add(syntax.id.text)
        else:
            self.blocks.nameless = self.trail.nameless = True

    def _leave(self, block_id: str, syntax: BlockSyntax, built: BuiltBlock) -> None:
        """Leaves the hand where the block ends, for those that go on from it; after a rest, the shape before it."""
        held, span = built.held, syntax.span if syntax.id is None else syntax.id.span
        ending = Ending(block_id, span, None)
        if held is not None:
            rested = held.before_rest is not None
            ending = Ending(block_id, span, held.before_rest or held.shape, held.sure, held.faults, rested)
        self.trail.last_on_page = ending
        for step in built.block.steps if built.block is not None else ():
            self.trail.by_step.setdefault(step.id, (ending, step))
        if syntax.id is not None:
            self.trail.endings.setdefault(block_id, ending)
            self.trail.block_ids.setdefault(block_id, span)


@dataclass
class _Draft:
    """A lesson while its mentions can't be resolved yet; read: it comes from the reader, so its text tells all."""

    page: PageSyntax
    read: bool
    blocks: list[Block] = field(default_factory=list)
    broken: list[BrokenBlock] = field(default_factory=list)
    mentions: list[tuple[Mention, Here]] = field(default_factory=list)

    def finished(self, builder: _Builder) -> Lesson:
        """The lesson, its mentions resolved now that all blocks are known."""
        meanings: list[MentionMeaning] = []
        for mention, here in self.mentions:
            meant, findings = meaning(mention, here, builder.blocks, builder.trail)
            meanings.append(meant)
            builder.findings += findings
        return Lesson(self.page.file, self.page.title, tuple(self.blocks), tuple(meanings), tuple(self.broken))
