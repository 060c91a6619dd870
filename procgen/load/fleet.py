"""The reader of what every station shares: aircraft types, base sizes and unit types."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.diagnostics import Related
from procgen.load.common import Group, Sources
from procgen.load.loads import contour, empty, gear
from procgen.load.node import Node
from procgen.model.effectivity import Configuration, Registered
from procgen.model.loads import Contour
from procgen.model.station import Aircraft
from procgen.model.unit import BaseSize, UnitType
from procgen.units import Dimension, of


@dataclass(frozen=True, slots=True)
class ToldApart:
    """The names by which the aircraft of one type are told apart."""

    configurations: tuple[str, ...]
    registrations: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fleet:
    """What the fleet file says.

    The names stand for every entry, built or not, so that one bad entry does not make its name unknown;
    they are None where the file could not be read at all.
    """

    airline: str
    demonstration: bool
    aircraft: Mapping[str, Aircraft]
    bases: Mapping[str, BaseSize]
    unit_types: Mapping[str, UnitType]
    aircraft_names: tuple[str, ...] | None
    base_names: tuple[str, ...] | None
    unit_type_names: tuple[str, ...] | None
    contours: Mapping[str, Contour] = field(default_factory=dict)
    told_apart: Mapping[str, ToldApart] = field(default_factory=dict)


NO_FLEET = Fleet("", False, {}, {}, {}, None, None, None)


def fleet(root: Node) -> Fleet:
    """The fleet; entries that cannot be built are left out."""
    sources = Sources(root["sources"])
    sources.read()
    aircraft, bases, unit_types = (dict(root[key].items()) for key in ("aircraft", "bases", "unit-types"))
    base_names = tuple(bases) if root["bases"].given else None
    built_aircraft = {name: _aircraft(name, one, sources) for name, one in aircraft.items()}
    contours = {code: contour(code, one, sources) for code, one in root["contours"].items()}
    built_bases = {code: _base(code, one, sources) for code, one in bases.items()}
    built_types = {
        code: _unit_type(code, one, built_bases, base_names, sources) for code, one in unit_types.items()
    }
    sound_types = {code: one for code, one in built_types.items() if one is not None}
    return Fleet(
        airline=root["airline"].text(),
        demonstration=root["demonstration"].flag(),
        aircraft={name: one for name, one in built_aircraft.items() if not root.log.spoilt(one.place)},
        bases={code: one for code, one in built_bases.items() if not root.log.spoilt(one.place)},
        unit_types={code: one for code, one in sound_types.items() if not root.log.spoilt(one.place)},
        aircraft_names=tuple(aircraft) if root["aircraft"].given else None,
        base_names=base_names,
        unit_type_names=tuple(unit_types) if root["unit-types"].given else None,
        contours={code: one for code, one in contours.items() if not root.log.spoilt(one.place)},
        told_apart={name: _told_apart(one) for name, one in aircraft.items()},
    )


def _aircraft(name: str, node: Node, sources: Sources) -> Aircraft:
    return Aircraft(
        name=name,
        title=node["title"].text(),
        place=node.place,
        gear=gear(node["gear"], sources) if "gear" in node else None,
        empty=empty(node["empty"], sources) if "empty" in node else None,
        configurations=_configurations(node),
        registrations=_registrations(node),
    )


def _configurations(node: Node) -> dict[str, Configuration]:
    return {
        name: Configuration(name, one["title"].text(), one.place)
        for name, one in node["configurations"].items()
    }


def _registrations(node: Node) -> dict[str, Registered]:
    known = _keys(node["configurations"])
    return {
        name: Registered(name, one.refer("configuration of this type", known), one.place)
        for name, one in node["registrations"].items()
    }


def _told_apart(node: Node) -> ToldApart:
    """What may be named of an aircraft type: also what could not be built."""
    return ToldApart(_keys(node["configurations"]), _keys(node["registrations"]))


def _keys(node: Node) -> tuple[str, ...]:
    return tuple(str(key) for key in node.data) if isinstance(node.data, dict) else ()


def _base(code: str, node: Node, sources: Sources) -> BaseSize:
    group = Group(node, sources)
    group.needs_source(node, group.source)
    return BaseSize(
        code=code,
        length=node["length"].size(Dimension.LENGTH),
        width=node["width"].size(Dimension.LENGTH),
        source=group.source,
        place=node.place,
    )


def _unit_type(
    code: str, node: Node, bases: Mapping[str, BaseSize], known: tuple[str, ...] | None, sources: Sources
) -> UnitType | None:
    group = Group(node, sources, node["max-gross"].key)
    max_gross = group.limit(node["max-gross"], Dimension.MASS)
    tare = group.optional(node["tare"], Dimension.MASS)
    title = node["title"].text()
    if node["loose"].flag():
        _has_no_body(code, node)
        nought = of(0, "m")
        body = BaseSize("", nought, nought, place=node.place)
        return UnitType(code, title, body, nought, "", max_gross, tare, node.place, loose=True)
    _has_a_body(code, node)
    base = bases.get(node["base"].refer("base size", known))
    height = node["height"].size(Dimension.LENGTH)
    contour_code = node["contour"].text()
    if base is None or node.log.spoilt(base.place):
        return None
    return UnitType(code, title, base, height, contour_code, max_gross, tare, node.place)


_BODY = {"base": "base: K", "height": "height: 1143 mm", "contour": "contour: H"}
"""What a container or pallet says of its body and a loose load does not, with an example."""


def _has_a_body(code: str, node: Node) -> None:
    """A container or pallet says how large it is."""
    if not isinstance(node.data, dict) or node.log.misshapen(node.place):
        return
    for key, example in _BODY.items():
        if key not in node:
            node.log.wrong(
                "missing-key",
                f"“{code}” does not say its “{key}”",
                node.key,
                f"add “{key}”, as in {example}; or “loose: true” for a load of pieces stowed by hand",
            )


def _has_no_body(code: str, node: Node) -> None:
    """A loose load has no body of its own, and nothing that is weighed empty."""
    for key in (*_BODY, "tare"):
        if key in node:
            node.log.wrong(
                "contradicting-keys",
                f"“{code}” is a loose load, but says its “{key}”; loose pieces have none",
                node[key].key,
                f"delete “{key}”, or delete “loose” if it is a container or pallet",
                Related(node["loose"].key, "loose"),
            )
