"""The reader of a hold."""

from __future__ import annotations

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources, interval
from procgen.load.effectivity import effectivity
from procgen.load.fleet import Fleet
from procgen.load.items import control, door, drive, panels, power
from procgen.load.loads import cross_section, cumulative, note, out_together, tie_down
from procgen.load.names import HoldNames, check_names, names_of
from procgen.load.node import Node
from procgen.load.positions import hand_moves, positions, zone
from procgen.load.restraints import restraint
from procgen.model.effectivity import Effectivity
from procgen.model.hold import Bay, Floor, Hold, Lane, LoadFactors
from procgen.model.stated import Rectangle
from procgen.model.words import OUTSIDE, LoadDirection, RatingKind, Travel
from procgen.units import Dimension


def hold(
    root: Node,
    shared: Fleet,
    holds: tuple[str, ...] | None,
) -> Hold | None:
    """One hold; None where something keeps it from being built. `holds` names all that are described."""
    names = names_of(root, shared.base_names, shared.unit_type_names)
    sources = Sources(root["sources"])
    check_names(root)
    record = Hold(
        name=root["hold"].text(),
        title=root["title"].text(),
        aircraft=root["aircraft"].refer("aircraft type", shared.aircraft_names),
        demonstration=root["demonstration"].flag(),
        sources=sources.read(),
        floor=_floor(root["floor"], sources),
        load_factors=_load_factors(root["load-factors"], sources),
        doors={name: door(name, one, names, sources) for name, one in root["doors"].items()},
        bays={name: _bay(name, one, names) for name, one in root["bays"].items()},
        lanes=tuple(_lane(one, names) for one in root["lanes"].elements()),
        controls={name: control(name, one, names) for name, one in root["controls"].items()},
        panels=panels(root["panels"], names),
        power=power(root["power"], names) if "power" in root else None,
        drives={name: drive(name, one, names) for name, one in root["drives"].items()},
        restraints={name: restraint(name, one, names, sources) for name, one in root["restraints"].items()},
        positions=positions(root, names, sources),
        zones={name: zone(name, one, names, sources) for name, one in root["zones"].items()},
        hand_moves=hand_moves(root["hand-moves"], sources) if "hand-moves" in root else None,
        place=root.place,
        cumulative={name: cumulative(name, one, sources) for name, one in root["cumulative"].items()},
        out_together=out_together(root["out-together"], names),
        cross_section=cross_section(root["cross-section"], sources) if "cross-section" in root else None,
        tie_down=tie_down(root["tie-down"], sources) if "tie-down" in root else None,
        notes=tuple(note(one, sources) for one in root["notes"].elements()),
        effectivity=_effectivity(root, shared) if "effectivity" in root else None,
        variant_of=root["variant-of"].refer("hold", holds) if "variant-of" in root else "",
    )
    return None if root.log.broken else record


def _effectivity(root: Node, shared: Fleet) -> Effectivity:
    return effectivity(root["effectivity"], shared.told_apart.get(root["aircraft"].text("")))


def _floor(node: Node, sources: Sources) -> Floor:
    limits = Group(node["limits"], sources)
    return Floor(
        rectangle=_rectangle(node),
        height=node["height"].size(Dimension.LENGTH),
        surface=node["surface"].text(),
        bears_on_floor=node["bears-on-floor"].flag(),
        running=limits.optional(node["limits"]["running"], Dimension.RUNNING_LOAD),
        area=limits.optional(node["limits"]["area"], Dimension.AREA_LOAD),
        contact=limits.optional(node["limits"]["contact"], Dimension.AREA_LOAD),
        point=limits.optional(node["limits"]["point"], Dimension.MASS),
        line=limits.optional(node["limits"]["line"], Dimension.RUNNING_LOAD),
        place=node.place,
    )


def _rectangle(node: Node) -> Rectangle:
    return Rectangle(interval(node["x"]), interval(node["y"]))


def _load_factors(node: Node, sources: Sources) -> LoadFactors:
    group = Group(node, sources)
    return LoadFactors(
        kind=node["kind"].word(RatingKind),
        by_direction={
            direction: group.limit(node[direction.value], Dimension.ACCELERATION)
            for direction in LoadDirection
        },
        place=node.place,
    )


def _bay(name: str, node: Node, names: HoldNames) -> Bay:
    return Bay(
        name=name,
        rectangle=_rectangle(node),
        is_position=node["position"].flag(),
        door=node["door"].refer("door", names.doors) if "door" in node else None,
        place=node.place,
        bulk=node["bulk"].flag(),
    )


def _lane(node: Node, names: HoldNames) -> Lane:
    through = node["through"].references("bay", names.places)
    for index, element in enumerate(node["through"].elements()):
        name = through[index]
        if through.index(name) < index and name:
            node.log.wrong(
                "lane-passes-twice",
                f"the lane passes “{name}” twice",
                element.place,
                "name each place once, in order; another direction is another lane",
                Related(node["through"].place.child(through.index(name)), "the first time"),
            )
        elif name == OUTSIDE and index > 0:
            node.log.wrong(
                "outside-in-mid-lane",
                f"the lane leads to “{OUTSIDE}”; a lane is written from the door inward",
                element.place,
                "put it first and turn the direction round",
            )
    return Lane(node["go"].word(Travel), through, node.place)
