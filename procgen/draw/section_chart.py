"""The cross-section of a hold, seen from behind, with the contours of the units that stand in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from procgen.draw.chart import Chart, Point, Scale, Stroke, Text, centred, keyed, without_overlap
from procgen.draw.frame import LINE, SHEET_WIDTH, wrapped
from procgen.model.hold import Hold
from procgen.model.loads import Contour, SectionOutline
from procgen.model.unit import UnitType

_LEFT, _RIGHT = 22.0, SHEET_WIDTH - 22.0
_HEAD = 34.0
_FOOT = 30.0
_STYLES = 5


def section_chart(
    hold: Hold, outline: SectionOutline, contours: Mapping[str, Contour], unit_types: Mapping[str, UnitType]
) -> Chart:
    """One panel for each set of contours that stand in the same places across, one below the other.

    A contour is described as it stands right of the centreline; left of it, it is drawn mirrored.
    """
    strokes: list[Stroke] = []
    texts: list[Text] = []
    told: list[str] = []
    top = 0.0
    for places, codes in _panels(hold, contours).items():
        panel = _panel(outline, places, codes, contours, top)
        strokes += panel[0]
        texts += panel[1]
        samples = [
            (_css(n), wrapped(_who(hold, code, places, unit_types), SHEET_WIDTH - 40))
            for n, code in enumerate(codes)
        ]
        keys, words, top = keyed(samples, panel[2])
        strokes += keys
        texts += words
        told += [" ".join(lines) for _, lines in samples]
        top += 10
    if not told:
        strokes, texts, top = _panel(outline, (), (), contours, 0.0)
    corners = ", ".join(f"{width} wide at {height}" for height, width in outline.corners)
    return Chart(
        title=f"Cross-section of {hold.name} from behind, with contours",
        told=f"The hold is {corners}. " + " ".join(f"{one}." for one in told),
        height=top + 2,
        strokes=tuple(strokes),
        texts=tuple(texts),
    )


def _panels(hold: Hold, contours: Mapping[str, Contour]) -> dict[tuple[Fraction, ...], list[str]]:
    """Contours by the places across (middles of bays, y) in which they stand."""
    places: dict[str, set[Fraction]] = {}
    for position in hold.positions.values():
        span = hold.bays[position.name].rectangle.y
        for code in position.contours:
            if code in contours:
                places.setdefault(code, set()).add((span.low.si + span.high.si) / 2)
    panels: dict[tuple[Fraction, ...], list[str]] = {}
    for code in contours:
        if code in places:
            panels.setdefault(tuple(sorted(places[code])), []).append(code)
    return panels


def _panel(
    outline: SectionOutline,
    places: Sequence[Fraction],
    codes: Sequence[str],
    contours: Mapping[str, Contour],
    top: float,
) -> tuple[list[Stroke], list[Text], float]:
    wide = max(width.si for _, width in outline.corners)
    high = outline.corners[-1][0].si
    across = Scale(-wide / 2, wide / 2, _LEFT, _RIGHT)
    low = top + _HEAD + float(high / wide) * (_RIGHT - _LEFT)
    up = Scale(Fraction(0), high, low, top + _HEAD)
    strokes = [Stroke("pg-floor", tuple(_hold_points(outline, across, up)), closed=True)]
    strokes.append(Stroke("pg-guide", ((across.at(Fraction(0)), low), (across.at(Fraction(0)), top + _HEAD))))
    texts = [Text("LEFT", 4.0, top + 12, "pg-bold")]
    texts.append(Text("RIGHT", SHEET_WIDTH - 40, top + 12, "pg-bold"))
    names: list[Text] = []
    for y in places:
        for n, code in enumerate(codes):
            points = tuple(_contour_points(contours[code], y, across, up))
            strokes.append(Stroke(_css(n), points, closed=True))
            u = across.at(y) + (n - (len(codes) - 1) / 2) * 22
            names.append(centred(code, u, (low + top + _HEAD) / 2, "pg-bold pg-halo"))
    widest = max(outline.corners, key=lambda corner: corner[1].si)
    sizes = [
        centred(f"widest {widest[1]}, at {widest[0]}", SHEET_WIDTH / 2, top + 12),
        centred(
            f"clear height {outline.corners[-1][0]}, {outline.corners[-1][1]} wide", SHEET_WIDTH / 2, top + 26
        ),
        centred(f"floor {outline.corners[0][1]} wide", SHEET_WIDTH / 2, low + LINE),
    ]
    return (
        strokes,
        [*texts, *without_overlap([*names, *sizes], [text.box for text in texts])],
        low + _FOOT - 8,
    )


def _hold_points(outline: SectionOutline, across: Scale, up: Scale) -> Iterator[Point]:
    """The outline once around: up on the right, down on the left."""
    for z, width in outline.corners:
        yield across.at(width.si / 2), up.at(z.si)
    for z, width in reversed(outline.corners):
        yield across.at(-width.si / 2), up.at(z.si)


def _contour_points(contour: Contour, y: Fraction, across: Scale, up: Scale) -> Iterator[Point]:
    side = -1 if y < 0 else 1
    for outboard, z in contour.outline:
        yield across.at(y + side * outboard.si), up.at(z.si)


def _css(n: int) -> str:
    return f"pg-line pg-line-{n % _STYLES}"


def _who(hold: Hold, code: str, places: Sequence[Fraction], unit_types: Mapping[str, UnitType]) -> str:
    """The contour, the unit types that have it, and the positions that take it."""
    types = [kind.code for kind in unit_types.values() if kind.contour == code]
    takes = [name for name, position in hold.positions.items() if code in position.contours]
    return f"{code}: {', '.join(types) or 'no unit type'}, in {', '.join(takes)}"
