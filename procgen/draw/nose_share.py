"""The chart of a loading sequence: how much of the weight the nose gear carries after each step."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from procgen.draw.chart import (
    Chart,
    Mark,
    Scale,
    Stroke,
    Text,
    centred,
    kept_in,
    keyed,
    ticks,
    without_overlap,
)
from procgen.draw.frame import LINE, SHEET_WIDTH, Box, wrapped
from procgen.results.stability import Gear, HoldOrder, Stance
from procgen.units import of

_LABEL = 104.0
"""Room for what came or went, left of the plot."""
_LEFT, _RIGHT = _LABEL + 8, SHEET_WIDTH - 66.0
_TOP = 34.0
_ROW = 15.0


def nose_share_chart(title: str, gear: Gear, order: HoldOrder) -> Chart:
    """One row for each stance, the first before any step, and the least share allowed as an upright line.

    A share is cut to a tenth of a percent, so that none looks better than it is.
    """
    least = gear.least_share.quantity.si
    most = max([least, *(stance.nose_share for stance in order.stances)])
    low = min([Fraction(0), *(stance.nose_share for stance in order.stances)])
    across = Scale(low, most * 21 / 20, _LEFT, _RIGHT)
    strokes: list[Stroke] = []
    texts = [Text("nose gear share", 4.0, 12.0, "pg-bold")]
    marks: list[Mark] = []
    points: list[tuple[float, float]] = []
    v = _TOP
    for stance in order.stances:
        lines = wrapped(stance.step or "as it stands", _LABEL)
        high = max(_ROW, LINE * len(lines) + 3)
        texts += [Text(line, 4.0, v + LINE * (n + 1) - 2) for n, line in enumerate(lines)]
        u, middle = across.at(stance.nose_share), v + high / 2
        points.append((u, middle))
        marks.append(Mark("met" if stance.met else "broken", u, middle))
        # At the right edge of the sheet, in one column, so that no dot or line lies on it.
        texts.append(Text(share_text(stance), _RIGHT + 6, middle + 3.6, "" if stance.met else "pg-bold"))
        v += high
    limit = across.at(least)
    strokes.append(Stroke("pg-axis", ((_LEFT, v + 2), (_RIGHT, v + 2))))
    texts += _scale(across, most, v + 15, strokes, _TOP)
    strokes.append(Stroke("pg-load", tuple(points)))
    strokes.append(Stroke("pg-limit", ((limit, _TOP - 6), (limit, v + 2))))
    texts.append(
        kept_in(centred(f"least {gear.least_share.quantity}", limit, 26.0, "pg-bold"), 4, SHEET_WIDTH)
    )
    if order.tail_stand:
        told = centred("A tail stand is needed.", (_LEFT + SHEET_WIDTH) / 2, 12.0, "pg-bold")
        texts.append(kept_in(told, 4, SHEET_WIDTH))
    keys, words, low_v = keyed(list(_KEY), v + 22)
    return Chart(
        title=f"{title}: nose gear share after each step",
        told=_told(gear, order.stances),
        height=low_v + 4,
        strokes=(*strokes, *keys),
        texts=(*texts, *words),
        marks=tuple(marks),
    )


def _scale(across: Scale, most: Fraction, v: float, strokes: list[Stroke], top: float) -> list[Text]:
    found = []
    for tick in ticks(most * 100, 5):
        u = across.at(tick / 100)
        strokes.append(Stroke("pg-grid", ((u, top), (u, v - 13))))
        found.append(centred(str(of(tick, "%")), u, v))
    return list(without_overlap(found, [Box(0, 0, 0, 0)]))


_KEY: Sequence[tuple[str, Sequence[str]]] = (
    ("pg-limit", wrapped("the least share allowed", SHEET_WIDTH - 40)),
    ("pg-load", wrapped("after each step, from top to bottom; a dot is enough, a cross too little", 250)),
)


def share_text(stance: Stance) -> str:
    """The share in percent, cut to a tenth, and said in a word where it is too little."""
    share = of(stance.nose_share * 100, "%").down(1)
    return share if stance.met else f"{share} !"


def _told(gear: Gear, stances: Sequence[Stance]) -> str:
    said = ", ".join(
        f"{stance.step or 'as it stands'} {of(stance.nose_share * 100, '%').down(1)}"
        f"{'' if stance.met else ' (too little)'}"
        for stance in stances
    )
    return f"At least {gear.least_share.quantity}: {said}."
