"""The markup of plan views: one element a line, the standing parts once, the rest by step."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from procgen.draw.frame import LINE, Box
from procgen.draw.labels import Label
from procgen.draw.layout import Layout
from procgen.draw.names import bay_words, larger
from procgen.draw.picture import Picture
from procgen.draw.scene import Scene
from procgen.draw.symbols import GLYPH_WIDTH, glyph
from procgen.model.hold import Hold
from procgen.model.words import OUTSIDE, RestraintState

_ROLLER = 7.0


def number(value: float) -> str:
    """A coordinate with at most one decimal, always the same text for the same value."""
    text = f"{value:.1f}"
    return "0" if text in ("-0.0", "0.0") else text.removesuffix(".0")


def _text(css: str, u: float, v: float, words: str) -> str:
    named = f' class="{css}"' if css else ""
    return f'<text{named} x="{number(u)}" y="{number(v)}">{escape(words)}</text>'


def _rect(box: Box, css: str, extra: str = "") -> str:
    return (
        f'<rect class="{css}" x="{number(box.left)}" y="{number(box.top)}"'
        f' width="{number(box.width)}" height="{number(box.height)}"{extra}/>'
    )


def base_id(hold: Hold, plan: Layout) -> str:
    """The name of the standing parts of a view on the page's symbol sheet."""
    turned = "upright" if plan.frame.upright else "lying"
    return f"pg-base-{hold.name}-{turned}{'-parts' if plan.numbered else ''}"


def base(hold: Hold, plan: Layout) -> list[str]:
    """The standing parts of a hold's view, as one named group."""
    lines = [f'<g id="{escape(base_id(hold, plan))}" class="pg-base">']
    lines += [_rect(box, "pg-platform") for box in plan.platforms.values()]
    lines.append(_rect(plan.floor, "pg-floor"))
    lines += list(_bays(plan))
    lines += list(_rollers(hold, plan))
    for edges in plan.lines.values():
        for edge in edges:
            lines.append(
                f'<path class="pg-rail" d="M{number(edge.start[0])} {number(edge.start[1])}'
                f'L{number(edge.end[0])} {number(edge.end[1])}"/>'
            )
    for name, box in plan.bay_names.items():
        lines.append(_text("pg-bay-name", box.left, box.bottom - 1.5, bay_words(hold, name)))
    for name, mark in plan.points.items():
        u, v = mark.spot.middle
        lines.append(f'<use href="#pg-point" x="{number(u)}" y="{number(v)}"/>')
        lines.append(_text("pg-halo", mark.label.left, mark.label.bottom - 1.5, name))
    for label in plan.door_names.values():
        lines += ['<g class="pg-name" text-anchor="middle">', *_text_lines(label), "</g>"]
    for row in plan.rows:
        under = f"M{number(row.box.left)} {number(row.box.bottom + 1)}H{number(row.box.right)}"
        lines.append(f'<path class="pg-rule" d="{under}"/>')
        lines += [_text("", u, v, text) for text, u, v in row.lines if text]
    lines.append(_forward(plan))
    lines.append("</g>")
    return lines


def _bays(plan: Layout) -> Iterator[str]:
    """Bays, those that lie over others first; a bay that shares its floor with a larger one is dashed."""
    over = larger(plan.bays)
    for name in sorted(plan.bays, key=lambda one: one not in over):
        box = plan.bays[name]
        shared = name not in over and any(box.overlaps(plan.bays[other]) for other in over)
        yield _rect(box.grown(-2) if shared else box, "pg-bay pg-shared" if shared else "pg-bay")


def _rollers(hold: Hold, plan: Layout) -> Iterator[str]:
    """Hatching where powered rollers lie, across the way they run, one path for each bay."""
    for drive in hold.drives.values():
        sideways = all(str(travel) in ("in", "out") for travel in drive.go)
        upright_lines = sideways == plan.frame.upright
        for bay in drive.under:
            box = plan.bays.get(bay)
            if box is None:
                continue
            u, v = box.middle
            count = int((box.width if upright_lines else box.height) // (2 * _ROLLER)) - 1
            marks = []
            for n in range(count):
                shift = (n - (count - 1) / 2) * _ROLLER
                marks.append(
                    f"M{number(u + shift)} {number(v - 9)}v18"
                    if upright_lines
                    else f"M{number(u - 9)} {number(v + shift)}h18"
                )
            yield f'<path class="pg-roller" d="{"".join(marks)}"/>'


def _forward(plan: Layout) -> str:
    box = plan.forward
    arrow = "▲" if plan.frame.upright else "◀"
    return _text("pg-bold", box.left, box.bottom - 3, f"{arrow} FORWARD")


def parts_markup(hold: Hold, plan: Layout, own_symbols: list[str]) -> str:
    """The view with a number on every restraint, in the order of the description."""
    inner = list(_opening(hold, plan, None))
    inner.append('<g text-anchor="middle">')
    for position, name in enumerate(plan.spots, start=1):
        item = hold.restraints[name]
        u, v = plan.spots[name].middle
        # Three digits are set narrower, so that they stay within their symbol.
        narrow = f' textLength="{number(GLYPH_WIDTH - 1)}" lengthAdjust="spacingAndGlyphs"'
        inner.append(
            f'<g><title>{escape(item.title)}</title><use href="#{glyph(item.kind, "number")}"'
            f' x="{number(u)}" y="{number(v)}"/><text class="pg-bold" x="{number(u)}" y="{number(v + 3.6)}"'
            f"{narrow if position > 99 else ''}>{position}</text></g>"
        )
    inner.append("</g>")
    title = f"Plan view of {hold.name}, {hold.title}"
    desc = f"Bays: {', '.join(hold.bays)}. Every restraint carries its number in the table of restraints."
    return _svg(hold, plan, title, desc, inner, own_symbols, plan.height - 2 * LINE)


def scene_markup(
    hold: Hold, plan: Layout, scene: Scene, laid: Picture, title: str, own_symbols: list[str]
) -> str:
    """The view of one moment."""
    inner = [*_opening(hold, plan, scene), *_unit_marks(laid)]
    if laid.way:
        points = "L".join(f"{number(u)} {number(v)}" for u, v in laid.way)
        inner.append(f'<path class="pg-way" d="M{points}" marker-end="url(#pg-tip)"/>')
    for name, box in plan.spots.items():
        u, v = box.middle
        symbol = glyph(hold.restraints[name].kind, scene.symbol(hold, name))
        inner.append(f'<use href="#{symbol}" x="{number(u)}" y="{number(v)}"/>')
    inner += [_rect(box, "pg-ring", ' rx="3"') for box in laid.rings]
    inner += _row_states(hold, plan, scene)
    inner += _labels(plan, laid)
    extra = max(0, len(laid.caption) - 2) * LINE
    return _svg(hold, plan, title, _told(hold, scene), inner, own_symbols, plan.height + extra)


def _opening(hold: Hold, plan: Layout, scene: Scene | None) -> Iterator[str]:
    yield f'<use href="#{escape(base_id(hold, plan))}"/>'
    for name, edge in plan.door_lines.items():
        is_open = scene is not None and name in scene.state.open_doors
        d = f"M{number(edge.start[0])} {number(edge.start[1])}L{number(edge.end[0])} {number(edge.end[1])}"
        yield f'<path class="pg-door{" pg-open" if is_open else ""}" d="{d}"/>'


def _unit_marks(laid: Picture) -> list[str]:
    lines = []
    for unit in laid.units:
        css = "pg-ghost" if unit.ghost else "pg-unit pg-moves" if unit.moves else "pg-unit"
        lines.append(_rect(unit.box, css, ' rx="2"'))
    lines.append('<g class="pg-unit-name" text-anchor="middle">')
    for unit in laid.units:
        lines += _text_lines(unit.label) if unit.label is not None else []
    lines.append("</g>")
    return lines


def _text_lines(label: Label) -> list[str]:
    u, _ = label.box.middle
    top = label.box.top
    return [_text("", u, top + LINE * n + 9, line) for n, line in enumerate(label.lines)]


def _row_states(hold: Hold, plan: Layout, scene: Scene) -> list[str]:
    lines = ['<g class="pg-state" text-anchor="end">']
    for row in plan.rows:
        if row.name in scene.state.dead:
            text = "X"
        elif row.kind == "control":
            control = hold.controls[row.name]
            text = scene.held.get(row.name) or scene.state.controls.get(row.name, control.rest)
        else:
            shut = scene.state.open_doors if row.kind == "door" else scene.state.open_panels
            text = "open" if row.name in shut else "closed"
        u, v = row.state_at
        lines.append(_text("", u, v, text.upper()))
    return [*lines, "</g>"]


def _labels(plan: Layout, laid: Picture) -> list[str]:
    lines: list[str] = []
    if laid.names:
        lines.append('<g class="pg-name" text-anchor="middle">')
        lines += [line for _, label in laid.names for line in _text_lines(label)]
        lines.append("</g>")
    if laid.person is not None:
        u, v = laid.person.middle
        lines.append(f'<use href="#pg-you" x="{number(u)}" y="{number(v)}"/>')
    left, top = plan.caption.left, plan.caption.top
    if laid.sign:
        lines.append(f'<use href="#pg-{laid.sign}" x="{number(left + 8)}" y="{number(top + 8)}"/>')
    lines += [
        _text("pg-bold", left + 20, top + LINE * (n + 1) - 1, text) for n, text in enumerate(laid.caption)
    ]
    return lines


def _told(hold: Hold, scene: Scene) -> str:
    """The same in words, for those who do not see the drawing."""
    parts = []
    standing = [f"{name} in {bay}" for name, bay in scene.state.units.items() if bay != OUTSIDE]
    if scene.moving is not None:
        parts.append(f"{scene.moving} moves {' to '.join(scene.way)}")
    parts.append(f"Units: {', '.join(standing)}" if standing else "No unit in the hold")
    movable = [item for item in hold.restraints.values() if not item.fixed]
    down = [i.title for i in movable if scene.state.restraints.get(i.name) is RestraintState.LOWERED]
    if len(down) == len(movable):
        parts.append("Every movable restraint is down")
    else:
        parts.append(f"Down: {', '.join(down)}; every other is up" if down else "Every restraint is up")
    return ". ".join(parts) + "."


def _svg(
    hold: Hold, plan: Layout, title: str, desc: str, inner: list[str], own_symbols: list[str], height: float
) -> str:
    turned = "pg-upright" if plan.frame.upright else "pg-lying"
    defs = ["<defs>", *own_symbols, "</defs>"] if own_symbols else []
    return "\n".join(
        [
            f'<svg class="pg-view {turned}" viewBox="0 0 {number(plan.width)} {number(height)}" role="img">',
            f"<title>{escape(title)}</title>",
            f"<desc>{escape(desc)}</desc>",
            *defs,
            *inner,
            "</svg>",
        ]
    )
