"""How each role looks where no style sheet is at hand: attributes of SVG presentation, on light paper.

A page's own style sheet overrides every one of them, since any rule outweighs a presentation attribute. Frets and
marks keep 3:1 against the paper (WCAG 2.2, 1.4.11), words 4.5:1 (1.4.3).
"""

from __future__ import annotations

from fingerpost.render.picture import Role

PAPER = "#fffdf8"
INK = "#20302f"
SOFT = "#596663"
FRET = "#857e6c"
TURN = "#b3461b"
FACE = "system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif"

ATTRIBUTES: dict[Role, dict[str, str]] = {
    Role.FRET: {"stroke": FRET, "stroke-width": "2"},
    Role.NUT: {"stroke": INK, "stroke-width": "7"},
    Role.STRING: {"stroke": SOFT},
    Role.BREAK: {"stroke": SOFT, "stroke-width": "2", "stroke-dasharray": "2 6"},
    Role.FRET_NUMBER: {"fill": SOFT},
    Role.CAPO: {"fill": SOFT},
    Role.CAPO_NAME: {"fill": PAPER, "font-weight": "700"},
    Role.OPEN: {"fill": "none", "stroke": INK, "stroke-width": "2.5"},
    Role.SILENT: {"fill": "none", "stroke": INK, "stroke-width": "3"},
    Role.DAMPED: {"fill": "none", "stroke": INK, "stroke-width": "2.5"},
    Role.NEW: {"stroke": TURN, "stroke-width": "4"},
    Role.STAYS: {"fill": INK},
    Role.NUMERAL: {"fill": PAPER, "font-weight": "700"},
    Role.ARRIVES_EDGE: {"fill": PAPER, "stroke": INK, "stroke-width": "3.5"},
    Role.ARRIVES: {"fill": TURN},
    Role.ARRIVES_NUMERAL: {"fill": PAPER, "font-weight": "700"},
    Role.BEHIND: {"fill": PAPER, "stroke": INK, "stroke-width": "2"},
    Role.BEHIND_NUMERAL: {"fill": INK, "font-weight": "700"},
    Role.WAS: {"fill": PAPER, "stroke": TURN, "stroke-width": "3", "stroke-dasharray": "6 4.5"},
    Role.FREED: {"fill": "none", "stroke": TURN, "stroke-width": "3", "stroke-dasharray": "6 4.5"},
    Role.TRAVEL: {"fill": "none", "stroke": TURN, "stroke-width": "4"},
    Role.TIP: {"fill": TURN},
    Role.ROW: {"fill": INK},
    Role.ROW_NEW: {"fill": TURN, "font-weight": "700"},
    Role.ROW_NAME: {"fill": SOFT},
    Role.HEADING: {"fill": INK, "font-weight": "700"},
    Role.ROW_LINE: {"stroke": TURN, "stroke-width": "3"},
    Role.MAP_TARGET: {"fill": PAPER},
    Role.MAP_NAME: {"fill": INK, "font-weight": "700"},
    Role.MAP_NOTE: {"fill": SOFT},
    Role.MAP_STOP: {"fill": INK},
    Role.MAP_MET: {"fill": PAPER, "stroke": INK, "stroke-width": "2.5"},
    Role.MAP_LINE: {"fill": "none", "stroke": INK, "stroke-width": "2.5"},
    Role.MAP_MANY: {"fill": "none", "stroke": TURN, "stroke-width": "3", "stroke-dasharray": "6 4.5"},
    Role.MAP_COUNT: {"fill": PAPER, "stroke": TURN, "stroke-width": "2"},
    Role.MAP_NUMBER: {"fill": TURN, "font-weight": "700"},
    Role.MAP_NEAR: {"fill": "none", "stroke": SOFT, "stroke-width": "2", "stroke-dasharray": "3 3"},
    Role.CURVE_AXIS: {"stroke": INK, "stroke-width": "2"},
    Role.CURVE_GRID: {"stroke": SOFT, "stroke-width": "1", "stroke-dasharray": "1 5"},
    Role.CURVE_LINE: {"fill": "none", "stroke": INK, "stroke-width": "2.5"},
    Role.CURVE_MEAN: {"fill": "none", "stroke": SOFT, "stroke-width": "2", "stroke-dasharray": "5 4"},
    Role.CURVE_DOT: {"fill": INK},
    Role.CURVE_RING: {"fill": PAPER, "stroke": SOFT, "stroke-width": "2"},
    Role.CURVE_JUMP: {"fill": TURN, "stroke": PAPER, "stroke-width": "1.5"},
    Role.CURVE_LABEL: {"fill": SOFT},
}
