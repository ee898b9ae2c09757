"""What a shape is called: the author's name held against what sounds, or the best of the computed ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fingerpost.course.ground import Ground
from fingerpost.course.heard import Heard
from fingerpost.course.meant.name import meant_name
from fingerpost.course.model import Naming
from fingerpost.course.name_book import NameBook, over_bass
from fingerpost.course.slip import Slip, error, note, slip
from fingerpost.course.words import intervals_word, listed, quoted
from fingerpost.diagnostics import Code, Diagnostic, Edit
from fingerpost.music import chord_symbol
from fingerpost.music.chord import Chord
from fingerpost.music.chord_name import Fit, fit
from fingerpost.source.syntax import BlockSyntax, NameSaid, Token

MOST_NAMES_OFFERED = 3


@dataclass(frozen=True)
class Named:
    """A naming and the findings about the name that the author gave; holds is False where that name is wrong."""

    naming: Naming
    findings: tuple[Diagnostic, ...] = ()
    holds: bool = True


def symbol_of(token: Token) -> Chord:
    """The chord that a token names. Raises Slip at the exact part that was not understood."""
    try:
        return chord_symbol.read(token.text)
    except chord_symbol.SymbolError as problem:
        span = token.piece(problem.position, problem.length)
        raise slip(span, Code.SYMBOL_UNREADABLE, problem.message, problem.expected) from None


def chord_or_none(token: Token) -> Chord | None:
    """The chord that a token names, None where it can't be read."""
    try:
        return symbol_of(token)
    except Slip:
        return None


def unreadable_names(block: BlockSyntax) -> Iterator[Diagnostic]:
    """What is wrong with the names of a block themselves, where nothing is known of what sounds in it."""
    for name in block.names:
        try:
            symbol_of(name.symbol)
        except Slip as unread:
            yield unread.finding


def name_shape(heard: Heard | None, said: NameSaid | None, ground: Ground, book: NameBook) -> Named:
    """The naming of what sounds (None: nothing), with the author's name judged."""
    if heard is None:
        return _silence(said)
    if said is None:
        return Named(computed(heard, ground, book))
    try:
        chord = symbol_of(said.symbol)
    except Slip as unread:
        naming = computed(heard, ground, book)
        return Named(naming, (replace(unread.finding, fix=meant_name(said, naming, heard)),))
    fits = fit(chord, heard.pitch_classes, heard.bass)
    agrees = fits.holds and (chord.bass is None or chord.bass.pitch_class == heard.bass)
    if said.strict:
        return _claimed(chord, agrees, fits, heard, said, ground, book)
    return _taught_as(chord, agrees, fits, heard, said, ground, book)


def computed(heard: Heard, ground: Ground, book: NameBook) -> Naming:
    """The naming that the notes alone give: decided ties first, then names that the course uses, then the best."""
    ranked = book.names(heard, ground.key)
    best = book.settled(heard, ranked, ground.ties)
    plain = best.with_bass(None)
    inside = best.bass is not None and best.bass.pitch_class in plain.pitch_classes
    fits = fit(best, heard.pitch_classes, heard.bass)
    return _naming(plain if inside else best, best if inside else None, heard, ground, book, omitted=fits.omitted)


def _silence(said: NameSaid | None) -> Named:
    if said is None:
        return Named(Naming(None))
    message = f"Nothing sounds here, so it can't be {quoted(said.symbol.text)}"
    return Named(Naming(None), (error(said.symbol.span, Code.NAME_IS_WRONG, message, "no name"),), holds=False)


def _claimed(
    chord: Chord, agrees: bool, fits: Fit, heard: Heard, said: NameSaid, ground: Ground, book: NameBook
) -> Named:
    if agrees:
        return Named(_naming(chord, _strict(chord, heard), heard, ground, book, omitted=fits.omitted))
    if _is_loose(chord, fits, heard):
        finding = _loose(said, chord, fits, heard, ground, book)
        strict = _best(heard, ground, book)
        return Named(_naming(chord, strict, heard, ground, book, fits.omitted, True, fits.lacks, fits.adds), (finding,))
    return Named(computed(heard, ground, book), (_wrong(said, chord, fits, heard, ground, book),), holds=False)


def _taught_as(
    chord: Chord, agrees: bool, fits: Fit, heard: Heard, said: NameSaid, ground: Ground, book: NameBook
) -> Named:
    if not agrees:
        strict = _best(heard, ground, book)
        return Named(_naming(chord, strict, heard, ground, book, fits.omitted, True, fits.lacks, fits.adds))
    mark = said.symbol.span
    finding = note(
        mark,
        Code.NAME_WOULD_HOLD,
        f"The notes are {quoted(said.symbol.text)} as it stands, so no footnote is needed",
        f"`=` in place of `~`: = {said.symbol.text}",
        f"= {said.symbol.text}",
        _claiming(said),
    )
    return Named(_naming(chord, _strict(chord, heard), heard, ground, book, omitted=fits.omitted), (finding,))


def _claiming(said: NameSaid) -> tuple[Edit, ...]:
    """The edit that makes a claim of a name that is taught by: another mark, or in the long form another key."""
    if said.mark is None:
        return ()
    return (Edit(said.mark.span, "=" if said.mark.text == "~" else "name"),)


def _is_loose(chord: Chord, fits: Fit, heard: Heard) -> bool:
    """Whether the name only says more than sounds: its root is there, notes are missing, none is foreign."""
    bass_agrees = chord.bass is None or chord.bass.pitch_class == heard.bass
    return bass_agrees and not fits.adds and chord.root.pitch_class in heard.pitch_classes


def _strict(chord: Chord, heard: Heard) -> Chord | None:
    """The same chord over the bass that sounds, where the author left that bass out."""
    if chord.bass is not None or chord.root.pitch_class == heard.bass:
        return None
    return chord.with_bass(chord.note_of(heard.bass))


def _best(heard: Heard, ground: Ground, book: NameBook) -> Chord:
    return book.settled(heard, book.names(heard, ground.key), ground.ties)


def _naming(
    shown: Chord,
    strict: Chord | None,
    heard: Heard,
    ground: Ground,
    book: NameBook,
    omitted: tuple[str, ...] = (),
    taught_as: bool = False,
    lacks: tuple[str, ...] = (),
    adds: tuple[str, ...] = (),
) -> Naming:
    capo = ground.fretboard.capo
    return Naming(
        shown=shown,
        strict=strict if strict != shown else None,
        taught_as=taught_as,
        lacks=lacks,
        adds=adds,
        omitted=omitted,
        ranked=book.names(heard, ground.key),
        sounding=shown.transposed(capo) if capo else None,
        refused=_refused(shown, heard, ground),
    )


def _refused(shown: Chord, heard: Heard, ground: Ground) -> Chord | None:
    """The equal name that the course decided against, where neither root is in the bass."""
    for kept, other in ground.ties:
        roots = (kept.root.pitch_class, other.root.pitch_class)
        if kept == shown.with_bass(None) and heard.bass not in roots:
            return over_bass(other, heard)
    return None


def _offers(said: Chord, heard: Heard, ground: Ground, book: NameBook) -> list[str]:
    """The symbols that would be right, best first; with its bass where the one that was said had one."""
    best = computed(heard, ground, book)
    shown = (best.strict if said.bass is not None else None) or best.shown
    symbols = [chord_symbol.write(shown)] if shown else []
    symbols += [name.symbol for name in best.ranked]
    return list(dict.fromkeys(symbols))[:MOST_NAMES_OFFERED]


def _notes(heard: Heard, chord: Chord) -> str:
    """The notes that sound, from the bass up, spelled by the chord."""
    order = sorted(heard.pitch_classes, key=lambda pitch_class: (pitch_class - heard.bass) % 12)
    return " ".join(str(chord.note_of(pitch_class)) for pitch_class in order)


def _wrong(said: NameSaid, chord: Chord, fits: Fit, heard: Heard, ground: Ground, book: NameBook) -> Diagnostic:
    offers = _offers(chord, heard, ground, book)
    best = book.names(heard, ground.key)[0].chord
    message = f"This is not {quoted(said.symbol.text)}: what sounds is {_notes(heard, best)}"
    message += _difference(chord, fits, heard)
    capo = ground.fretboard.capo
    if capo and (chord.root.pitch_class - capo) % 12 == best.root.pitch_class and chord.kind == best.kind:
        message = f"{quoted(said.symbol.text)} is what sounds above the capo; a name is that of the shape"
    return error(said.symbol.span, Code.NAME_IS_WRONG, message, listed(offers), offers[0])


def _difference(chord: Chord, fits: Fit, heard: Heard) -> str:
    if not fits.lacks and not fits.adds and chord.bass is not None:
        return f", and the lowest note is {chord.note_of(heard.bass)}, not {chord.bass}"
    parts = [f"without {intervals_word(fits.lacks)}"] if fits.lacks else []
    foreign = [str(chord.note_of(p)) for p in sorted(heard.pitch_classes - chord.pitch_classes)]
    parts += [f"with {listed(foreign, 'and')} besides"] if foreign else []
    return f" ({', '.join(parts)})" if parts else ""


def _loose(said: NameSaid, chord: Chord, fits: Fit, heard: Heard, ground: Ground, book: NameBook) -> Diagnostic:
    offers = _offers(chord, heard, ground, book)
    return error(
        said.symbol.span,
        Code.NAME_IS_LOOSE,
        f"{quoted(said.symbol.text)} says more than sounds: {_notes(heard, chord)}, without "
        f"{intervals_word(fits.lacks)}",
        f"{listed(offers)}, or `~ {said.symbol.text}` to teach it by that name with a footnote",
        offers[0],
    )
