"""Pages that someone might write, right, wrong or hostile, for property tests."""

from __future__ import annotations

from hypothesis import strategies as st

FINGERS = st.sampled_from(["1", "2", "3", "4", "T", "5", ""])
STRINGS = st.sampled_from(["E", "A", "D", "G", "B", "e", "a", "Z", "Bb"])
FRETS = st.sampled_from(["0", "1", "2", "3", "4", "5", "12", "24", "25", "99"])
LETTERED = st.builds("{}{}".format, STRINGS, FRETS)
NUMBERED = st.builds("{}:{}".format, st.integers(0, 9), FRETS)
SPOT = LETTERED | NUMBERED
PLACE = SPOT | st.builds("{}-{}".format, SPOT, SPOT) | st.sampled_from(["E1-e1", "6:2-1:2", "A3-e3"])
SYMBOLS = st.sampled_from(
    ["C", "Am7", "G6/9", "C6", "Am7/G", "D/F#", "H7", "N", "", "Cmaj7#11", "E5", "(no3)", "F##m", "Bbb", "C/E/G", "💥"]
)
TEXT = st.text(max_size=12)
MOVES = st.one_of(
    st.builds("{} to {}".format, FINGERS, PLACE),
    st.builds("{} off".format, FINGERS),
    st.builds("{} for {}".format, FINGERS, FINGERS),
    st.builds("shift {:+d}".format, st.integers(-30, 30)),
    st.builds("mute {} by {}".format, STRINGS, FINGERS),
    st.builds("mute {}".format, STRINGS),
    st.builds("strum {}-{}".format, STRINGS, STRINGS),
    st.sampled_from(["hold", "rest", "back", "strum all"]),
    TEXT,
)
TAILS = st.one_of(
    st.just(""),
    st.builds(" = {}".format, SYMBOLS),
    st.builds(" ~ {}".format, SYMBOLS),
    st.sampled_from([" passing", " silent", " @0:41", " @9:99", " # why"]),
)
LINES = st.builds(
    lambda moves, tails: "- " + " and ".join(moves) + "".join(tails),
    st.lists(MOVES, min_size=1, max_size=3),
    st.lists(TAILS, max_size=3),
)
EXTRAS = st.sampled_from(
    ["say: <script>", "id: own", "or: x32010", "or: zzz", "image: ../../x.png x", "cue: 0:10", "beats: 4"]
)
LONG = st.builds(lambda line, extra: f"- move: {line[2:]}\n  {extra}", LINES, EXTRAS)
SHAPES = st.sampled_from(
    [
        "x32010/-32-1-",
        "x02210",
        "320003/21---3",
        "133211/134211",
        "x-10-12-12-11-x",
        "0000",
        "xxxxxx",
        "99x99x",
        "x1919x",
    ]
)
STARTS = st.one_of(
    SHAPES,
    st.sampled_from(["open", "previous", "after a", "after b", "as taught C", "as taught Am7"]),
    st.builds(", ".join, st.lists(st.builds("{} {}".format, FINGERS, PLACE), min_size=1, max_size=4)),
    TEXT,
)
KEYS = st.one_of(
    st.builds("tuning: {}".format, st.sampled_from(["DADGAD", "ukulele", "bass", "eight strings", "drop Z"])),
    st.builds("capo: {}".format, st.sampled_from(["0", "3", "12", "40", "x"])),
    st.builds("key: {}".format, st.sampled_from(["G", "C#m", "H"])),
    st.builds("strum: {}-{}".format, STRINGS, STRINGS),
    st.builds("teaches: [{}, bar, {}]".format, SYMBOLS, TEXT),
    st.builds("fingers_per_step: {}".format, st.integers(0, 9)),
)


def _block(name: str, keys: list[str], start: str, said: str, steps: list[str]) -> str:
    lines = [f"id: {name}", *keys, f"start: {start}{said}", "steps:", *steps]
    return "```moves\n" + "\n".join(lines) + "\n```\n"


BLOCKS = st.builds(
    _block,
    st.sampled_from(["a", "b", "c", "own", ""]),
    st.lists(KEYS, max_size=3),
    STARTS,
    TAILS,
    st.lists(LINES | LONG, max_size=8),
)
PROSE = st.builds("\nSee `{}: {}`.\n\n".format, st.sampled_from(["chord", "step", "now"]), SYMBOLS | TEXT)
PAGES = st.builds("".join, st.lists(BLOCKS | PROSE, max_size=5))
