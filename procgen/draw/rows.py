"""The list outside by the door: doors, panels and controls with their state, one row each.

In the view of parts, which shows no state, also each drive and the bays that its rollers lie in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from procgen.draw.frame import LINE, Box, text_width, wrapped
from procgen.model.hold import Hold

_GAP = 6.0
"""Between the end of a name and its state, and between columns."""
_INDENT = 6.0
"""How far what lies behind a panel is set in."""
_SPACE = 2.0
"""Between rows."""


@dataclass(frozen=True, slots=True)
class Row:
    """One door, panel, control or drive: its name in lines, and where the text of its state ends."""

    name: str
    kind: str
    lines: tuple[tuple[str, float, float], ...]
    state_at: tuple[float, float]
    box: Box


@dataclass(frozen=True, slots=True)
class _Entry:
    name: str
    kind: str
    title: str
    states: tuple[str, ...]
    indent: float = 0.0


def listed(hold: Hold, area: Box, columns: int = 1, *, states: bool = True) -> tuple[Row, ...]:
    """Rows from the top of an area downwards, as far as they need, in columns of equal width.

    Without `states` there is no room kept for them: names only, and drives too.
    """
    entries = list(_entries(hold))
    if not states:
        entries = [replace(entry, states=("",)) for entry in (*entries, *_drives(hold))]
    width = min((area.width - _GAP * (columns - 1)) / columns, max(map(_natural, entries), default=0.0))
    texts = [_lines(entry, width - entry.indent) for entry in entries]
    total = sum(len(lines) for lines, _ in texts)
    rows: list[Row] = []
    column, used, above = 0, 0, 0.0
    for entry, (lines, states_own) in zip(entries, texts, strict=True):
        if column + 1 < columns and (used + len(lines) / 2) * columns > total * (column + 1):
            column, above = column + 1, 0.0
        left = area.left + column * (width + _GAP)
        top = area.top + above
        box = Box(left + entry.indent, top, left + width, top + len(lines) * LINE)
        rows.append(_row(entry, lines, box, states_own))
        used += len(lines)
        above += len(lines) * LINE + _SPACE
    return tuple(rows)


def _row(entry: _Entry, lines: tuple[str, ...], box: Box, states_own: bool) -> Row:
    shown = lines[:-1] if states_own else lines
    placed = tuple((line, box.left + 2, box.top + LINE * (n + 1) - 3) for n, line in enumerate(shown))
    return Row(entry.name, entry.kind, placed, (box.right - 2, box.bottom - 3), box)


def _natural(entry: _Entry) -> float:
    """The width at which an entry and its widest state stand on one line."""
    widest = max(text_width(state, bold=True) for state in entry.states)
    return entry.indent + 4 + text_width(entry.title) + _GAP + widest + 1


def _lines(entry: _Entry, width: float) -> tuple[tuple[str, ...], bool]:
    """The lines of an entry, and whether the state has the last one for itself."""
    widest = max(text_width(state, bold=True) for state in entry.states)
    lines = wrapped(entry.title, width - 4)
    if not widest or text_width(lines[-1]) + _GAP + widest <= width - 4:
        return lines, False
    return (*lines, ""), True


def _entries(hold: Hold) -> Iterator[_Entry]:
    """Doors first, then each panel with what lies behind it, then what can be reached at once."""
    for door in hold.doors.values():
        yield _Entry(door.name, "door", door.title, ("CLOSED", "OPEN"))
    for panel in hold.panels.values():
        yield _Entry(panel.name, "panel", panel.title, ("CLOSED", "OPEN"))
        for control in hold.controls.values():
            if control.behind == panel.name:
                yield _Entry(control.name, "control", control.title, state_words(control.positions), _INDENT)
    for control in hold.controls.values():
        if control.behind not in hold.panels:
            yield _Entry(control.name, "control", control.title, state_words(control.positions))


def _drives(hold: Hold) -> Iterator[_Entry]:
    """Each drive, and where its rollers lie, as they are hatched."""
    for drive in hold.drives.values():
        yield _Entry(drive.name, "drive", f"{drive.title}: rollers in {', '.join(drive.under)}", ("",))


def state_words(positions: tuple[str, ...]) -> tuple[str, ...]:
    """The positions of a control as they are shown."""
    return (*(position.upper() for position in positions), "X")
