"""The reader of a station."""

from __future__ import annotations

from procgen.diagnostics import Related
from procgen.load.loads import allowances, station_wind
from procgen.load.node import Node
from procgen.load.words import nearest
from procgen.model.station import NO_REVISION, Contact, Holder, Revision, Station


def station(root: Node, holds: tuple[str, ...]) -> Station:
    """One station, without its procedures; `holds` names all there are."""
    listed = tuple(_hold(element, holds) for element in root["holds"].elements())
    for index, element in enumerate(root["holds"].elements()):
        if listed.index(listed[index]) < index and listed[index]:
            root.log.wrong(
                "listed-twice",
                f"the hold “{listed[index]}” stands twice",
                element.place,
                "delete one",
                Related(root["holds"].place.child(listed.index(listed[index])), "the first one"),
            )
    return Station(
        code=root["station"].text(),
        title=root["title"].text(),
        holds=tuple(dict.fromkeys(listed)),
        mass_unit=root["mass-unit"].text(),
        contacts=tuple(Contact(one["role"].text(), one["how"].text()) for one in root["contacts"].elements()),
        revision=_revision(root["revision"]) if "revision" in root else NO_REVISION,
        procedures=(),
        demonstration=root["demonstration"].flag(),
        place=root.place,
        allowances=allowances(root["allowances"]) if "allowances" in root else None,
        wind=station_wind(root["wind"]) if "wind" in root else None,
        distribution=tuple(
            Holder(one["who"].text(), one["copy"].text()) for one in root["distribution"].elements()
        )
        if "distribution" in root
        else (),
    )


def _hold(node: Node, holds: tuple[str, ...]) -> str:
    """The name of a hold that is described."""
    name = node.refer("hold", None)
    if name and name not in holds and not node.log.misshapen(node.place):
        near = nearest(name, holds)
        node.log.wrong(
            "unknown-name",
            f"there is no hold “{name}”",
            node.place,
            f"did you mean “{near}”?" if near else f"describe it in fleet/holds/{name}.yaml, or take it out",
        )
    return name


def _revision(node: Node) -> Revision:
    return Revision(
        number=node["number"].whole(),
        date=node["date"].date(),
        effective=node["effective"].date(),
        author=node["author"].text(),
        reason=node["reason"].text(),
        place=node.place,
    )
