"""How many straps a load needs at the tie-down points of a hold (limits.md, section 5)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from procgen.limits.figuring import whence
from procgen.limits.shown import shown
from procgen.limits.tiedown import demand, fitting_capacity, lay_by_angles, number_needed, share
from procgen.model.hold import Hold
from procgen.model.loads import StrapType, TieDown, TieDownPoint
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.results.figures import Figure, FigureRow, FigureTable, Other
from procgen.results.tie_down import Lay
from procgen.units import STANDARD_GRAVITY, Quantity, of

MASSES = (of(100, "kg"), of(500, "kg"), of(1000, "kg"))
ANGLES = ((30, 30), (30, 60), (45, 45), (60, 45))
"""The masses, and the angles of straps to the floor and to the x axis in degrees, that the table lists."""
_ALONG = (LoadDirection.FORWARD, LoadDirection.AFT)
_ACROSS = (LoadDirection.LEFT, LoadDirection.RIGHT)
NOTHING = "The description names no tie-down points or straps."
_REMARKS = (
    "A strap counts by its direction cosines, for the directions it opposes: one along, one across, and up.",
    "It counts up to the weaker of strap and fitting. Pulled between its rated directions, a fitting"
    " counts only for what is certain: the parts of its ratings that are used add up to at most one.",
    "In all: enough straps that each direction has its number, when every strap opposes one direction along,"
    " one across, and up.",
)


@dataclass(frozen=True, slots=True)
class Lashing:
    """A kind of strap laid in one way at any of the points: the angles, and what holds it back."""

    strap: StrapType
    to_floor: Fraction
    to_x: Fraction


def tie_down_table(
    hold: Hold,
    masses: Sequence[Quantity] = MASSES,
    straps: Sequence[str] = (),
    angles: Sequence[tuple[Fraction | int, Fraction | int]] = ANGLES,
    points: Sequence[str] = (),
) -> FigureTable:
    """For each mass, kind of strap and way to lay it: the straps needed by direction, and in all.

    `straps` and `points` name those that may be used, none meaning all; a strap may end in the weakest of
    the points. Without tie-down points or straps there are no rows.
    """
    tie_down = hold.tie_down
    factors = _factors(hold)
    rows: list[FigureRow] = []
    if tie_down is not None and tie_down.points and tie_down.straps:
        kinds = [one for name, one in tie_down.straps.items() if not straps or name in straps]
        used = [one for name, one in tie_down.points.items() if not points or name in points]
        lashings = [Lashing(kind, Fraction(v), Fraction(h)) for kind in kinds for v, h in angles]
        rows = [_row(tie_down, used, lashing, mass, factors) for mass in masses for lashing in lashings]
    pairs = (
        ("Numbers go up to the next pair: the hold asks for pairs.",)
        if tie_down and tie_down.in_pairs
        else ()
    )
    return FigureTable(
        name="tie-down",
        title="Straps needed",
        heads=("mass", "strap", "to the floor", "to the x axis"),
        columns=(*(direction.value for direction in factors), "in all"),
        rows=tuple(rows),
        remarks=(*_REMARKS, *pairs) if rows else (NOTHING,),
    )


def _factors(hold: Hold) -> Mapping[LoadDirection, Stated]:
    stated = hold.load_factors.by_direction
    return {d: stated[d] for d in LoadDirection if d in stated and stated[d].quantity.si > 0}


def _row(
    tie_down: TieDown,
    points: Sequence[TieDownPoint],
    lashing: Lashing,
    mass: Quantity,
    factors: Mapping[LoadDirection, Stated],
) -> FigureRow:
    found = {d: _needed(tie_down, points, lashing, mass, d, factor) for d, factor in factors.items()}
    labels = (str(mass), lashing.strap.title, f"{lashing.to_floor}°", f"{lashing.to_x}°")
    return FigureRow(labels, (*found.values(), _in_all(found)))


def _lays(lashing: Lashing, direction: LoadDirection) -> Iterator[Lay]:
    """Every strap at these angles that opposes a direction."""
    for along, across in product(_ALONG, _ACROSS):
        if direction in (along, across, LoadDirection.UP):
            yield lay_by_angles(lashing.to_floor, lashing.to_x, (along, across, LoadDirection.UP))


def _needed(
    tie_down: TieDown,
    points: Sequence[TieDownPoint],
    lashing: Lashing,
    mass: Quantity,
    direction: LoadDirection,
    factor: Stated,
) -> Figure:
    strap = lashing.strap.rating
    weakest, fitting = min(
        (
            (point, fitting_capacity(point.rating, lay))
            for lay in _lays(lashing, direction)
            for point in points
        ),
        key=lambda pair: pair[1],
    )
    each = min(strap.quantity, fitting)
    part = share(next(_lays(lashing, direction)), direction)
    asked, rubbed = demand(mass, factor.quantity), _rubbed(tie_down, mass, direction)
    left = Quantity(max(asked.si - rubbed, Fraction(0)) / asked.unit.factor, asked.unit)
    count = number_needed(left, each, part, in_pairs=tie_down.in_pairs)
    by_strap = strap.quantity <= fitting
    sources, places = whence(
        [factor, strap] if by_strap else [factor, *weakest.rating.values()], weakest.place
    )
    words = (
        f"{mass} × {factor.quantity} = {shown(asked)}"
        + (f", less friction {shown(of(rubbed, 'N'))}" if rubbed else "")
        + f"; each holds {shown(each)} × {shown(of(part * 100, '%'))}"
    )
    others = [
        Other(f"strap: {lashing.strap.title}", strap.quantity.down(2), "", *whence([strap])),
        Other(
            f"fitting: {weakest.title}", fitting.down(2), "", *whence(weakest.rating.values(), weakest.place)
        ),
    ]
    if count is None:
        why = f"such a strap holds nothing {direction}"
        return Figure(counted="straps", demand=True, reasons=(why,), sources=sources, places=places)
    return Figure(
        count=count,
        counted="straps",
        demand=True,
        governs=others[0 if by_strap else 1].title,
        reckoning=words,
        others=(others[1 if by_strap else 0],),
        sources=sources,
        places=places,
    )


def _rubbed(tie_down: TieDown, mass: Quantity, direction: LoadDirection) -> Fraction:
    if tie_down.friction is None or direction is LoadDirection.UP:
        return Fraction(0)
    return mass.si * STANDARD_GRAVITY * tie_down.friction.quantity.si


def _in_all(found: Mapping[LoadDirection, Figure]) -> Figure:
    if any(figure.count is None for figure in found.values()):
        why = "such straps do not hold every direction that has a load factor"
        return Figure(counted="straps", demand=True, reasons=(why,), met=False)
    count = {direction: figure.count or 0 for direction, figure in found.items()}
    sums = [
        (" and ".join(each), sum(count.get(LoadDirection(d), 0) for d in each))
        for each in (_ALONG, _ACROSS, (LoadDirection.UP,))
    ]
    words, most = max(sums, key=lambda pair: pair[1])
    others = tuple(Other(title, f"{number} straps") for title, number in sums if title != words)
    sources = dict.fromkeys(source for figure in found.values() for source in figure.sources)
    places = dict.fromkeys(place for figure in found.values() for place in figure.places)
    return Figure(
        count=most,
        counted="straps",
        demand=True,
        governs=words,
        reckoning=f"{words}: {most}",
        others=others,
        sources=tuple(sources),
        places=tuple(places),
    )
