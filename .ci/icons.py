"""Draws the icons of an installed course, theme/img/*.png, from theme/img/icon.svg. Run it when that file changes."""

from pathlib import Path

from resvg_py import svg_to_bytes

IMAGES = Path(__file__).resolve().parents[1] / "theme" / "img"
CORNERS = ' rx="96"'


def full_to_the_edge(svg: str) -> str:
    """For a device that cuts its own outline: no corners, all marks in the inner circle (W3C Manifest, maskable)."""
    inner = svg.replace(CORNERS, "")
    ground, _, marks = inner.partition("/>")
    drawing, end = marks[: -len("</svg>\n")], "</svg>"
    return f'{ground}/><g transform="translate(38.4 38.4) scale(.85)">{drawing}</g>{end}'


def main() -> None:
    """Writes every size."""
    svg = (IMAGES / "icon.svg").read_text("utf-8")
    whole = svg.replace(CORNERS, "")
    for name, drawing, size in (
        ("icon-48.png", svg, 48),
        ("icon-192.png", svg, 192),
        ("icon-512.png", svg, 512),
        ("icon-maskable-512.png", full_to_the_edge(svg), 512),
        ("icon-180.png", whole, 180),
    ):
        (IMAGES / name).write_bytes(bytes(svg_to_bytes(svg_string=drawing, width=size, height=size)))


if __name__ == "__main__":
    main()
