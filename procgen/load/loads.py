"""Readers of what else limits loads: cumulative limits, cross-section, tie-down, gear, contours, notes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources
from procgen.load.names import HoldNames
from procgen.load.node import Node
from procgen.model.loads import (
    Allowances,
    Contour,
    CumulativeLine,
    EmptyAircraft,
    LandingGear,
    Note,
    NoteAbout,
    SectionOutline,
    StationWind,
    StrapType,
    TieDown,
    TieDownPoint,
)
from procgen.model.stated import Stated
from procgen.model.words import LoadDirection
from procgen.units import Dimension, Quantity


def cumulative(name: str, node: Node, sources: Sources) -> CumulativeLine:
    """A cumulative limit; its points stand in order of x."""
    group = Group(node, sources)
    elements = node["points"].elements()
    points = tuple(
        (one["x"].quantity(Dimension.LENGTH), group.limit(one["max"], Dimension.MASS)) for one in elements
    )
    _in_order("x", elements, [x for x, _ in points], "the points of a limit stand in order of x")
    return CumulativeLine(
        name=name,
        title=node["name"].text(name.replace("-", " ")),
        from_end=node["from"].word(LoadDirection),
        points=points,
        place=node.place,
    )


def cross_section(node: Node, sources: Sources) -> SectionOutline:
    """A cross-section; its corners stand from the floor upwards."""
    group = Group(node, sources)
    group.needs_source(node["corners"], group.source)
    elements = node["corners"].elements()
    corners = tuple(
        (one["z"].quantity(Dimension.LENGTH), one["width"].size(Dimension.LENGTH)) for one in elements
    )
    heights = [z for z, _ in corners]
    _in_order("z", elements, heights, "the corners stand from the floor upwards")
    if heights and heights[0].si != 0 and not node.log.broken:
        node.log.wrong(
            "points-out-of-order",
            f"the outline begins at {heights[0]}, not at the floor",
            elements[0]["z"].place,
            "begin with the corner at the floor: z: 0 m",
        )
    return SectionOutline(corners, group.source, node.place)


def _in_order(key: str, elements: Sequence[Node], found: Sequence[Quantity], law: str) -> None:
    for (before, low), (after, high) in pairwise(zip(elements, found, strict=True)):
        if high <= low and not (after.log.spoilt(after.place) or after.log.spoilt(before.place)):
            after.log.wrong(
                "points-out-of-order",
                f"{key} of {high} comes after {low}; {law}",
                after[key].place,
                "put them in order, or correct one of the two",
                Related(before[key].place, "the one before"),
            )


def tie_down(node: Node, sources: Sources) -> TieDown:
    """Tie-down points and straps."""
    return TieDown(
        points={name: _point(name, one, sources) for name, one in node["points"].items()},
        straps={name: _strap(name, one, sources) for name, one in node["straps"].items()},
        in_pairs=node["in-pairs"].flag(),
        friction=Group(node, sources).optional(node["friction"], Dimension.RATIO),
        place=node.place,
    )


def _point(name: str, node: Node, sources: Sources) -> TieDownPoint:
    return TieDownPoint(
        name=name,
        title=node["name"].text(name),
        x=node["x"].quantity(Dimension.LENGTH),
        y=node["y"].quantity(Dimension.LENGTH),
        rating=_ratings(node, sources),
        z=node["z"].quantity(Dimension.LENGTH) if "z" in node else None,
        place=node.place,
    )


def _ratings(node: Node, sources: Sources) -> Mapping[LoadDirection, Stated]:
    group, rating = Group(node, sources, node["rating"].key), node["rating"]
    return {
        direction: group.limit(rating[direction.value], Dimension.FORCE)
        for direction in LoadDirection
        if direction.value in rating
    }


def _strap(name: str, node: Node, sources: Sources) -> StrapType:
    group = Group(node, sources, node["rating"].key)
    return StrapType(name, node["name"].text(), group.limit(node["rating"], Dimension.FORCE), node.place)


def note(node: Node, sources: Sources) -> Note:
    """A note; it names its document as a limit does."""
    source = sources.ref(node["source"])
    if source is None:
        node.log.doubt(
            "limit-without-source",
            "no document is named for a note",
            node["text"].key if node["text"].given else node.place,
            "add “source: NAME PAGE”, with the name of a document under “sources”",
        )
    return Note(node["about"].word(NoteAbout), node["text"].text(), source, node.place)


def out_together(node: Node, names: HoldNames) -> tuple[tuple[str, str], ...]:
    """Pairs of restraints that may be out of service together."""
    pairs = [one.references("restraint", names.restraints) for one in node.elements()]
    for index, pair in enumerate(pairs):
        if len(pair) == 2 and pair[0] == pair[1]:
            node.log.wrong(
                "listed-twice",
                f"“{pair[0]}” stands twice in a pair",
                node.place.child(index, 1),
                "name two different restraints",
                Related(node.place.child(index, 0), "the first time"),
            )
    return tuple((pair[0], pair[1]) for pair in pairs if len(pair) == 2)


def gear(node: Node, sources: Sources) -> LandingGear:
    """Where the wheels stand: the main gear aft of the nose gear."""
    group = Group(node, sources)
    record = LandingGear(
        nose=node["nose"].quantity(Dimension.LENGTH),
        main=node["main"].quantity(Dimension.LENGTH),
        least_share=group.limit(node["nose-share"], Dimension.RATIO),
        source=group.source,
        place=node.place,
    )
    if record.main <= record.nose and not node.log.spoilt(node.place):
        node.log.wrong(
            "interval-reversed",
            f"the main gear stands at {record.main}, the nose gear at {record.nose}; x runs aft",
            node["main"].place,
            "correct one of the two",
            Related(node["nose"].place, "the nose gear"),
        )
    return record


def empty(node: Node, sources: Sources) -> EmptyAircraft:
    """The aircraft before loading."""
    group = Group(node, sources)
    group.needs_source(node["mass"], group.source)
    return EmptyAircraft(
        mass=node["mass"].size(Dimension.MASS),
        arm=node["arm"].quantity(Dimension.LENGTH),
        source=group.source,
        place=node.place,
    )


def contour(code: str, node: Node, sources: Sources) -> Contour:
    """The outline of a contour."""
    group = Group(node, sources)
    group.needs_source(node["outline"], group.source)
    corners = tuple(
        (one["y"].quantity(Dimension.LENGTH), one["z"].quantity(Dimension.LENGTH))
        for one in node["outline"].elements()
    )
    return Contour(code, corners, group.source, node.place)


def allowances(node: Node) -> Allowances:
    """What a station allows for work by hand."""
    return Allowances(
        hand_action=node["hand-action"].size(Dimension.TIME),
        check=node["check"].size(Dimension.TIME),
        present=node["present"].size(Dimension.TIME),
        push=node["push"].size(Dimension.SPEED) if "push" in node else None,
        place=node.place,
        stow=node["stow"].size(Dimension.TIME) if "stow" in node else None,
    )


def station_wind(node: Node) -> StationWind:
    """A station's own wind limits."""
    return StationWind(
        opening=node["opening"].size(Dimension.SPEED) if "opening" in node else None,
        open=node["open"].size(Dimension.SPEED) if "open" in node else None,
        reason=node["reason"].text(),
        place=node.place,
    )
