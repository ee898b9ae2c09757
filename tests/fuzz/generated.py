"""Blocks made from the grammar of moves, right, nearly right and wrong, quickly: by a random generator alone."""

from __future__ import annotations

from random import Random

from .hostile import text

FINGERS = ("1", "2", "3", "4", "1", "2", "3", "4", "T", "t", "5", "0", "")
STRINGS = ("E", "A", "D", "G", "B", "e", "a", "b", "H", "Z", "")
FRETS = ("1", "2", "3", "4", "1", "2", "3", "5", "7", "12", "0", "24", "99", "")
ROOTS = ("C", "D", "E", "F", "G", "A", "B", "Bb", "F#", "Cb", "H", "")
KINDS = (
    *("", "m", "7", "maj7", "m7", "sus2", "sus4", "6", "6/9", "add9", "dim7", "m7b5", "+", "7(b9, #11)", "(no5)", "5"),
    *("7sus4", "13", "/G", "m/E", "/", "((", "x" * 90, "(" * 40),
)
TAILS = ("passing", "silent", "@0:41", "@1:02:03", "@9:99", "@", "passing passing", "# why", "= C = D", "~", "=")
STARTS = (
    *("open", "previous", "after a", "after nothing", "as taught C", "as taught", "x32010/-32-1-", "x02210", "xxxxxx"),
    *("320003/21---3", "133211/134211", "x-10-12-12-11-x", "99x99x", "0000", "xx0232/---1", "previous = G", "- - -"),
)
TUNINGS = (
    "DADGAD",
    "drop D",
    "ukulele",
    "bass",
    "E2 A2 D3 G3 B3 E4",
    "E9 E9 E9 E9",
    "H",
    "eight strings",
    "C0 C0 C0 C0",
)
KEYS = ("say", "cue", "id", "beats", "pattern", "or", "image", "name", "taught_as", "move", "sya", "<<")


def symbol(rng: Random) -> str:
    """A chord symbol, or something like one."""
    return rng.choice(ROOTS) + rng.choice(KINDS) + (rng.choice(KINDS) if rng.random() < 0.1 else "")


def place(rng: Random) -> str:
    """A fret on a string, or a bar."""
    spot = f"{rng.randrange(9)}:{rng.choice(FRETS)}" if rng.random() < 0.2 else rng.choice(STRINGS) + rng.choice(FRETS)
    return f"{spot}-{rng.choice(STRINGS)}{rng.choice(FRETS)}" if rng.random() < 0.15 else spot


def strings(rng: Random) -> str:
    """What follows `strum`."""
    pair = f"{rng.choice(STRINGS)}-{rng.choice(STRINGS)}"
    return rng.choice((pair, pair, "all", " ".join(rng.choices(STRINGS, k=3)), "6-1", ""))


def action(rng: Random) -> str:
    """One action of a line."""
    finger, kind = rng.choice(FINGERS), rng.random()
    if kind < 0.5:
        return f"{finger} to {place(rng)}"
    if kind < 0.75:
        return f"{finger} off"
    other = (
        f"{finger} for {rng.choice(FINGERS)}",
        f"shift {rng.randrange(-30, 30):+d}",
        f"mute {rng.choice(STRINGS)} by {finger}",
        f"mute {rng.choice(STRINGS)}",
        f"strum {strings(rng)}",
    )
    return rng.choice((*other, "hold", "rest", "back", text(rng)))


def line(rng: Random) -> str:
    """One move line with its tails."""
    joint = rng.choice((" and ", ", ", " , and "))
    actions = joint.join(action(rng) for _ in range(rng.choice((1, 1, 1, 1, 2, 3))))
    named = f" {rng.choice('==~')} {symbol(rng)}" if rng.random() < 0.6 else ""
    return actions + named + (f" {rng.choice(TAILS)}" if rng.random() < 0.1 else "")


def step(rng: Random) -> list[str]:
    """The lines of one step, short or long."""
    if rng.random() < 0.7:
        return [f"- {line(rng)}"]
    values = {"name": symbol, "taught_as": symbol, "move": line, "or": lambda r: r.choice(STARTS)}
    keys = rng.sample(KEYS, rng.randrange(1, 4))
    return [f"- move: {line(rng)}", *(f"  {key}: {values.get(key, text)(rng)}" for key in keys)]


def start(rng: Random) -> str:
    """The value of `start`."""
    if rng.random() < 0.5:
        return rng.choice(STARTS)
    return ", ".join(f"{rng.choice(FINGERS)} {place(rng)}" for _ in range(rng.randrange(1, 5)))


def block(rng: Random) -> list[str]:
    """The lines of a block between its fences."""
    head = [f"id: {rng.choice(('a', 'b', 'one-door', text(rng)))}", f"start: {start(rng)}"]
    more = (
        f"title: {text(rng)}",
        f"key: {rng.choice(('G', 'Em', 'H', text(rng)))}",
        f"tuning: {rng.choice(TUNINGS)}",
        f"capo: {rng.choice(('0', '2', '12', '40', 'x'))}",
        f"strum: {strings(rng)}",
        f"teaches: [{symbol(rng)}, bar, {text(rng)}]",
        f"fingers_per_step: {rng.randrange(7)}",
        text(rng),
    )
    head += rng.sample(more, rng.choice((0, 0, 1, 2, 4)))
    steps = [part for _ in range(rng.randrange(1, 8)) for part in step(rng)]
    return [*head, "steps:", *steps]
