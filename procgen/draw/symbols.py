"""Our own symbols: one outline for each kind of restraint, one letter and filling for each state.

A state shows three times over: by the letter, by the filling (solid, hollow, dashed, crossed), and by
colour where there is any. The sheet of symbols stands once on a page; diagrams use it by name.
"""

from __future__ import annotations

from procgen.model.words import RestraintKind

GLYPH_WIDTH = 15.0
GLYPH_HEIGHT = 14.0

_OUTLINES: dict[RestraintKind, str] = {
    RestraintKind.LOCK: '<rect x="-7" y="-6.5" width="14" height="13"/>',
    RestraintKind.LATCH: '<path d="M-4-6.5H4L7-3.5V3.5L4 6.5H-4L-7 3.5V-3.5Z"/>',
    RestraintKind.GUIDE: '<rect x="-7" y="-6.5" width="14" height="13" rx="6"/>',
    RestraintKind.STOP: '<path d="M-7 6.5V-4L0-7 7-4V6.5Z"/>',
    RestraintKind.RAIL: '<path d="M-7-6.5H7V-4H6V4H7V6.5H-7V4H-6V-4H-7Z"/>',
    RestraintKind.NET: '<path d="M-7.5 0-3.5-6.5H3.5L7.5 0 3.5 6.5H-3.5Z"/>',
}

STATES: dict[str, tuple[str, str]] = {
    "up": ("U", "up: stops the unit"),
    "down": ("D", "down: the unit can pass"),
    "pushed": ("P", "pushed down by the unit as it passes"),
    "held": ("H", "held down by a control"),
    "fixed": ("F", "fixed: always up"),
    "dead": ("X", "out of service"),
    "number": ("", "numbered part"),
}
"""State of a symbol: its letter and what it means."""

_PERSON = (
    '<g id="pg-you"><circle class="pg-person" cx="0" cy="-4" r="2.6"/>'
    '<path class="pg-person" d="M-4 7V2.5A4 4 0 0 1 4 2.5V7Z"/></g>'
)
_NOBODY = (
    '<g id="pg-nobody"><circle class="pg-forbid" cx="0" cy="0" r="6.6"/>'
    '<circle class="pg-person" cx="0" cy="-2.6" r="1.6"/>'
    '<path class="pg-person" d="M-2.6 4V1.4A2.6 2.6 0 0 1 2.6 1.4V4Z"/>'
    '<path class="pg-slash" d="M-4.6-4.6 4.6 4.6"/></g>'
)
_POINT = (
    '<g id="pg-point"><circle class="pg-tie" cx="0" cy="0" r="3.6"/>'
    '<path class="pg-tie" d="M-3.6 0H3.6"/></g>'
)
_ARROW = (
    '<marker id="pg-tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="5" markerHeight="5"'
    ' orient="auto"><path class="pg-tip" d="M0 0 8 4 0 8Z"/></marker>'
)


def glyph(kind: RestraintKind, state: str) -> str:
    """The name of a symbol on the sheet."""
    return f"pg-{kind}-{state}"


def symbol_sheet() -> list[str]:
    """Every symbol, one a line, to stand once on a page before the diagrams that use them."""
    lines = [
        f'<g id="{glyph(kind, state)}" class="pg-i pg-{state}">{outline}'
        + (f'<text y="3.6">{letter}</text>' if letter else "")
        + ('<path d="M-7-6.5 7 6.5M-7 6.5 7-6.5"/>' if state == "dead" else "")
        + "</g>"
        for kind, outline in _OUTLINES.items()
        for state, (letter, _) in STATES.items()
    ]
    return [*lines, _PERSON, _NOBODY, _POINT, _ARROW]


_NETS = {"up": "up, of a net fitted: stops the unit", "down": "down, of a net removed: the unit can pass"}


def legend(kinds: tuple[RestraintKind, ...], *, points: bool = False, shared: bool = False) -> str:
    """What the symbols mean, as a list: outlines of the kinds a hold has, then states, then the rest.

    `points`: it has tie-down points; `shared`: some of its bays share floor with larger ones.
    """
    states = {name: meaning for name, (letter, meaning) in STATES.items() if letter}
    if RestraintKind.NET in kinds:
        states |= _NETS
    rows = [(_use(glyph(kind, "number")), str(kind)) for kind in kinds]
    shown = kinds[0] if kinds else RestraintKind.LOCK
    rows += [(_use(glyph(shown, state)), meaning) for state, meaning in states.items()]
    if points:
        rows.append((_use("pg-point"), "tie-down point"))
    if shared:
        dashed = '<rect class="pg-bay pg-shared" x="-8" y="-7" width="16" height="14"/>'
        rows.append((dashed, "a bay that shares floor with a larger one: one of the two at a time"))
    rows += [
        (_use("pg-you"), "where you stand"),
        (_use("pg-nobody"), "nobody may stand in the hold"),
        ('<path class="pg-way" d="M-7 0H6"/>', "the way the unit moves; dashed box: where it came from"),
        ('<path class="pg-roller" d="M-6-5V5M-3-5V5M0-5V5M3-5V5M6-5V5"/>', "powered rollers in the floor"),
        (
            '<rect class="pg-ring" x="-8" y="-7.5" width="16" height="15" rx="3"/>',
            "worked or looked at in this step",
        ),
    ]
    items = "\n".join(
        f'<li><svg class="pg-key" viewBox="-10 -9 20 18" aria-hidden="true">{mark}</svg> {text}</li>'
        for mark, text in rows
    )
    return f'<ul class="pg-legend">\n{items}\n</ul>'


def _use(name: str) -> str:
    return f'<use href="#{name}"/>'
