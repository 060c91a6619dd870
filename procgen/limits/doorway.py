"""What goes through a door (limits.md, section 6).

An upright piece, L long and w wide, is pushed end first through a door of clear width D in a wall of
thickness t, into a hold that is B deep behind it, and turned in plan until it lies along the hold. With the
angle a between piece and hold, s and c its sine and cosine, the piece sticks out of the hold by at least
e = L s + w c - B when it touches the far wall. At each angle, from 90 degrees to 0, it must find room:

- in the wall: the part of it there, e c / s + min(e s / c, w s) wide, is at most D, unless the door lets it
  through at this angle whatever its length (w + t c <= D s);
- in front: its leading corner stays short of the hold's end;
- behind: the corner that swings back into the hold stays clear of the other end.

For each angle, the places it may stand in are one interval that moves steadily with the angle, so a piece
that has room at every angle can be turned, and one that lacks it somewhere cannot. Both limits are known: a
thick wall at the end of a hold gives the corner of two corridors, L = (D c + B s - w) / (s c) at the worst
angle; with t = 0 and room on both sides, the worst angle is at most that of s = w / D, where L = B D / w.
A piece that is turned only when all of it is inside comes to (B - w c) / s there: less, so never too much.
Lengths are decided in whole numbers; a clearance of one nanometre counts as none.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from procgen.limits.angle_polynomials import COSINE, ONE, SINE, Clause, Polynomial, fails_at, plus, times
from procgen.results.packages import CrossSection, Doorway, Longest, PackageTable
from procgen.units import Quantity, of

_NM = 10**9
_MM = 10**6
"""Nanometres in a metre, and in a millimetre."""
_WALK = 400
_FLAT = 1e-9
"""Steps of the walk over the angles, and the least cosine it divides by."""


@dataclass(frozen=True, slots=True)
class _Plan:
    """The plan view in whole nanometres, each cut to the safe side: door, wall, depth, and the room from the
    door's rear edge to the end of the hold `ahead` and to the other end `behind`.
    """

    door: int
    wall: int
    depth: int
    ahead: int
    behind: int
    width: int


def package_table(
    door: Doorway,
    section: CrossSection,
    hold_length: Quantity,
    widths: Sequence[Quantity],
    heights: Sequence[Quantity],
) -> PackageTable:
    """The longest piece for each height and width."""
    return PackageTable(
        tuple(
            tuple(longest(door, section, hold_length, width, height) for width in widths)
            for height in heights
        )
    )


def longest(
    door: Doorway, section: CrossSection, hold_length: Quantity, width: Quantity, height: Quantity
) -> Longest:
    """The longest upright piece of this width and height: the best of straight, sideways and turned."""
    return ways(door, section, hold_length, width, height)[0]


def ways(
    door: Doorway, section: CrossSection, hold_length: Quantity, width: Quantity, height: Quantity
) -> tuple[Longest, ...]:
    """The longest piece of this width and height in each way that it may go in, the best way first; one
    answer without a way where none is as long as it is wide.
    """
    depth = section.width_up_to(height)
    if height > door.height:
        return (Longest(width, height, None, "", f"the door is {door.height} high"),)
    if depth is None:
        return (Longest(width, height, None, "", f"the hold is {section.height} high"),)
    found = _by_way(door, depth, hold_length, width)
    if found[0][0] * _MM < _up(width):
        return (Longest(width, height, None, "", "no piece this wide goes in that is as long as wide"),)
    return tuple(
        Longest(width, height, of(length, "mm") if length * _MM >= _up(width) else None, way, why)
        for length, way, why in found
    )


@lru_cache(maxsize=4096)
def _by_way(
    door: Doorway, depth: Quantity, hold_length: Quantity, width: Quantity
) -> tuple[tuple[int, str, str], ...]:
    """The ways in at a depth, the best first, kept: pieces of every height that find the same depth go in
    alike.
    """
    found = [
        _straight(door, depth, hold_length, width),
        _sideways(door, depth, hold_length, width),
        _turned(door, depth, hold_length, width),
    ]
    return tuple(sorted(found, key=lambda one: one[0], reverse=True))


def _straight(door: Doorway, depth: Quantity, hold_length: Quantity, width: Quantity) -> tuple[int, str, str]:
    if width > door.width or width > hold_length:
        return 0, "straight", "the door is narrower"
    return _down(depth) // _MM, "straight", "it reaches the far wall"


def _sideways(door: Doorway, depth: Quantity, hold_length: Quantity, width: Quantity) -> tuple[int, str, str]:
    if width > depth:
        return 0, "sideways", "the hold is less deep"
    return _down(min(door.width, hold_length)) // _MM, "sideways", "the door is no wider"


def _turned(door: Doorway, depth: Quantity, hold_length: Quantity, width: Quantity) -> tuple[int, str, str]:
    """Turned towards either end; the better one."""
    to_forward = Quantity(
        (hold_length.si - door.from_end.si - door.width.si) / hold_length.unit.factor, hold_length.unit
    )
    found = [
        _turned_one_way(door, depth, hold_length, width, behind) for behind in (door.from_end, to_forward)
    ]
    return max(found, key=lambda one: one[0])


def _turned_one_way(
    door: Doorway, depth: Quantity, hold_length: Quantity, width: Quantity, behind: Quantity
) -> tuple[int, str, str]:
    plan = _Plan(
        door=_down(door.width),
        wall=_up(door.thickness),
        depth=_down(depth),
        ahead=_down(hold_length) - _up(behind),
        behind=_down(behind),
        width=_up(width),
    )
    if plan.width > min(plan.door, plan.depth):
        return 0, "turned", "the door or the hold is narrower"
    most = _down(hold_length) // _MM
    length = _most(lambda millimetres: _obstacle(plan, millimetres) is None, min(most, _guess(plan) + 1))
    if length == most:
        return length, "turned", "the hold is no longer"
    name, u = _obstacle(plan, length + 1) or ("", Fraction(0))
    return length, "turned", f"{name} at {math.degrees(2 * math.atan(u)):.0f} degrees to the hold"


def _obstacle(plan: _Plan, millimetres: int) -> tuple[str, Fraction] | None:
    """What keeps a piece this long from being turned, and at which tan(a / 2); None when nothing does."""
    for clause in _clauses(plan, millimetres * _MM - 1):
        u = fails_at(clause)
        if u is not None:
            return clause.name, u
    return None


def _clauses(plan: _Plan, length: int) -> tuple[Clause, ...]:
    """What must hold at every angle for a piece of this length (see the head of this module)."""
    s, c, one = SINE, COSINE, ONE
    width = plan.width
    out = plus(times(length, s), times(width, c), times(-plan.depth, one))
    inside = times(-1, out)
    rear_outside = plus(times(length, s), times(-plan.depth, one))
    hold_length = plan.ahead + plan.behind
    rear_fits = plus(
        times(plan.door, s, one), times(-width, s, s), times(plan.behind, s, one), times(-1, out, c)
    )
    tip = times(-length, c)
    tip_fits_corner = plus(times(plan.ahead, one, c), times(tip, c), times(-1, out, s))
    tip_fits_end = plus(times(plan.ahead, one), times(-width, s), tip)
    tip_fits_strip = plus(
        times(plan.ahead, s, one), times(-width, s, s), times(-(plan.depth + plan.wall), c, one)
    )
    corner_in_door = plus(times(plan.door, s, c), times(-1, out, one))
    end_in_door = plus(times(plan.door, one, s), times(-width, s, s), times(-1, out, c))
    length_fits = plus(times(hold_length, one), times(-width, s), tip)
    return (
        Clause("it jams in the door", (corner_in_door, end_in_door), _crossing(plan)),
        Clause("its rear corner meets the end of the hold", (inside, rear_fits, rear_outside)),
        Clause(
            "its front meets the end of the hold",
            (inside, tip_fits_corner, tip_fits_end, tip_fits_strip),
        ),
        Clause("it is longer than the hold, corner to corner", (length_fits, rear_outside)),
    )


def _crossing(plan: _Plan) -> Fraction:
    """The tan(a / 2) of the least angle at which the door lets a piece of this width through whatever its
    length, w + t c <= D s; from above, so that no angle below it is left out.
    """
    short: Polynomial = plus(times(plan.door, SINE), times(-plan.width, ONE), times(-plan.wall, COSINE))

    def passes(step: int) -> bool:
        u = Fraction(step, 10**15)
        return short[0] + short[1] * u + short[2] * u * u >= 0

    steps = 10**15
    return Fraction(_least(passes, steps), 10**15)


def _guess(plan: _Plan) -> int:
    """About the length, in mm, that the door alone allows, from a walk over the angles in floating point:
    where to start looking, and never the answer.
    """
    end = float(_crossing(plan))
    door, depth, width = float(plan.door), float(plan.depth), float(plan.width)
    least = math.inf
    for step in range(1, _WALK + 1):
        angle = 2 * math.atan(end * step / _WALK)
        s, c = math.sin(angle), math.cos(angle)
        if c > _FLAT:
            least = min(least, (depth - width * c) / s + max(door * c, (door - width * s) / c))
    return math.floor(min(least, 2.0**62) / _MM)


def _most(enough: Callable[[int], bool], high: int) -> int:
    """The greatest whole number up to `high` that is enough, where less is never worse; 0 if none is.

    Looks near `high` first.
    """
    step, low = 1, high
    while low > 0 and not enough(low):
        high, low, step = low, max(0, low - step), 2 * step
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if enough(middle) else (low, middle)
    return low


def _least(enough: Callable[[int], bool], high: int) -> int:
    """The least whole number up to `high` that is enough, where more is never worse."""
    low = 0
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle + 1, high)
    return low


def _down(length: Quantity) -> int:
    return math.floor(length.si * _NM)


def _up(length: Quantity) -> int:
    return math.ceil(length.si * _NM)
