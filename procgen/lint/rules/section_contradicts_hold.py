"""The cross-section does not go round the floor, its clear height, or the units that stand in it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from procgen.diagnostics import Related, Severity
from procgen.lint.fit import why_not
from procgen.lint.rule import Complaint, HoldRule
from procgen.model.hold import Hold, Position
from procgen.model.loads import Contour, SectionOutline
from procgen.model.station import Network
from procgen.units import of


def check(hold: Hold, network: Network) -> Iterator[Complaint]:
    """Width at the floor, height of the top corner, and the contours of the units in their positions."""
    section = hold.cross_section
    if section is None or not section.corners:
        return
    floor, corners = hold.floor, section.place.child("corners")
    width, top = section.corners[0][1], section.corners[-1][0]
    across = of(floor.rectangle.y.high.si - floor.rectangle.y.low.si, "m")
    if width < across:
        yield Complaint(
            f"the cross-section is {width} wide at the floor, but the floor is {across} wide",
            corners.child(0, "width"),
            "correct the outline, or y of the floor",
            (Related(floor.place.child("y"), "the floor"),),
        )
    if top < floor.height:
        yield Complaint(
            f"the cross-section ends {top} above the floor, but the clear height is {floor.height}",
            corners.child(len(section.corners) - 1, "z"),
            "correct one of the two: the outline reaches at least as high as the hold is clear",
            (Related(floor.place.child("height"), "the clear height"),),
        )
    if width >= across and top >= floor.height:
        yield from _contours(hold, network, section)


def _contours(hold: Hold, network: Network, section: SectionOutline) -> Iterator[Complaint]:
    told: set[str] = set()
    for position in hold.positions.values():
        for unit_type in network.unit_types.values():
            contour = network.contours.get(unit_type.contour)
            if contour is None or contour.code in told or why_not(hold, position, unit_type):
                continue
            beyond = _beyond(hold, position, contour, section)
            if beyond:
                told.add(contour.code)
                yield Complaint(
                    f"a unit of contour “{contour.code}” in position “{position.name}” {beyond}",
                    section.place.child("corners"),
                    "correct the cross-section, the contour or y of the bay",
                    (
                        Related(contour.place, f"contour “{contour.code}”"),
                        Related(hold.bays[position.name].place.child("y"), f"bay “{position.name}”"),
                    ),
                    (("position", position.name),),
                )


def _beyond(hold: Hold, position: Position, contour: Contour, section: SectionOutline) -> str:
    span = hold.bays[position.name].rectangle.y
    middle = (span.low.si + span.high.si) / 2
    turn = -1 if middle < 0 else 1
    for y, z in contour.outline:
        half = _half_width(section, z.si)
        if half is None:
            return f"is {z} high, above the cross-section"
        reach = abs(middle + turn * y.si)
        if reach > half:
            return (
                f"reaches {of(reach, 'm').up(3)} from the centreline at {z} above the floor,"
                f" where the cross-section leaves {of(half, 'm').down(3)}"
            )
    return ""


def _half_width(section: SectionOutline, z: Fraction) -> Fraction | None:
    for (low, narrow), (high, wide) in pairwise(section.corners):
        if low.si <= z <= high.si:
            return (narrow.si + (wide.si - narrow.si) * (z - low.si) / (high.si - low.si)) / 2
    return None


RULE = HoldRule("section-contradicts-hold", Severity.WARNING, check)
