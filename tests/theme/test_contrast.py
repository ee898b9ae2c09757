"""Contrast of every pair of colours that the course lays on one another, in light and in dark, and in greys.

Ratios and relative luminance: WCAG 2.2, success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (what one must see to
understand a picture, 3:1). Accessibility checkers leave colours inside pictures open; here they are all computed.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

THEME = Path(__file__).resolve().parents[2] / "theme"
LOOK = (THEME / "css/look.css").read_text("utf-8")
LIGHT, DARK = r":root \{", r":root\[data-light=dark\] \{"
DARK_DEVICE = r":root:not\(\[data-light=light\]\) \{"
TEXT = [
    ("ink", "paper"), ("soft", "paper"), ("link", "paper"), ("turn", "paper"), ("on-post", "post"), ("on-turn", "turn"),
    ("paper", "ink"),
]  # fmt: skip
"""Words and numerals: what they are written in, and on what."""
MARKS = [("fret", "paper"), ("post", "paper"), ("turn", "paper"), ("ink", "paper"), ("soft", "paper")]
"""Frets, strings, discs, rings, arrows and the edges of controls, on what they lie."""
PRINTED = {"#000", "#fff", "#999"}
"""Black ink on white paper; #999 only where a line parts one thing from another, as --line on the screen."""
APART = [("ink", "turn")]
"""What stays and what arrives: their shapes differ; in greys the fills differ too."""


def tokens(opening: str) -> dict[str, str]:
    """The colours that the first rule with this opening sets, by name."""
    rule = re.search(opening + r"(.*?)\}", LOOK, re.S)
    assert rule, opening
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6})", rule[1]))


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.2, definitions)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21 (WCAG 2.2, definitions)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_standards_own_ends() -> None:
    # WCAG 2.2: from 1 (the same) to 21 (black on white); #767676 on white is the usual example of just 4.5:1.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#abcdef", "#abcdef") == 1
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
def test_pairs(scheme: str) -> None:
    colours = tokens(scheme)
    for pairs, least in ((TEXT, 4.5), (MARKS, 3.0), (APART, 1.5)):
        for one, other in pairs:
            found = contrast(colours[one], colours[other])
            assert found >= least, f"--{one} on --{other}: {found:.2f}, at least {least}"


def test_dark_is_the_same_whoever_asks_for_it_and_names_every_colour() -> None:
    assert tokens(DARK) == tokens(DARK_DEVICE)
    assert tokens(DARK).keys() == tokens(LIGHT).keys()


def test_no_style_sheet_brings_a_colour_of_its_own() -> None:
    """Print is black on white; every other colour is one of the tokens, so that the pairs above are all there are."""
    for sheet in sorted((THEME / "css").glob("*.css")):
        text = re.sub(r"/\*.*?\*/", "", sheet.read_text("utf-8"), flags=re.S)
        if sheet.name == "look.css":
            text = re.sub(r"--[\w-]+: [^;]+;", "", text)
        colours = set(re.findall(r"#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|oklch)a?\([^)]*\)", text))
        allowed = PRINTED if sheet.name == "print.css" else set()
        assert colours <= allowed, f"{sheet.name}: {colours - allowed}"


def test_every_token_that_is_used_exists() -> None:
    known = set(re.findall(r"--([\w-]+):", "".join(file.read_text("utf-8") for file in (THEME / "css").glob("*.css"))))
    scripts = "".join(file.read_text("utf-8") for file in (THEME / "js").rglob("*.js"))
    known |= set(re.findall(r'setProperty\("--([\w-]+)"', scripts))
    for sheet in sorted((THEME / "css").glob("*.css")):
        used = set(re.findall(r"var\(--([\w-]+)\)", sheet.read_text("utf-8")))
        assert used <= known, f"{sheet.name}: {used - known}"
