"""The key `waive`, which may stand in any mapping: taken out before a document is checked and read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from procgen.diagnostics import Finding, Place, Route
from procgen.load.log import Log
from procgen.load.node import Node
from procgen.load.shape import Shapes
from procgen.model.waiver import Waiver
from procgen.source import Document
from procgen.source.document import Data

KEY = "waive"
_SCHEMA = "waivers.json"


def without_waivers(document: Document) -> Document:
    """The document as if no waiver stood in it; the same one where none does."""
    return replace(document, data=_without(document.data)) if any(_lists(document.data, ())) else document


def waivers(document: Document, shapes: Shapes) -> tuple[tuple[Waiver, ...], tuple[Finding, ...]]:
    """Every waiver that stands in a document, and what is wrong with how they are written."""
    read: list[Waiver] = []
    found: list[Finding] = []
    for route, entries in _lists(document.data, ()):
        log = Log(replace(document, data={KEY: entries}))
        shapes.check(_SCHEMA, log)
        found += [_moved(finding, route) for finding in log.findings]
        if log.findings:
            continue
        log = Log(document)
        over = Place(document.file, route)
        nodes = Node(entries, over.child(KEY), log).elements()
        made = [_waiver(node, over) for node in nodes]
        found += log.findings
        read += [] if log.findings else made
    return tuple(read), tuple(found)


def _waiver(node: Node, over: Place) -> Waiver:
    return Waiver(
        rule=node["rule"].text(),
        reason=node["reason"].text(),
        by=node["by"].text(),
        until=node["until"].date(),
        over=over,
        approver=node["approver"].text(""),
        place=node.place,
    )


def _moved(finding: Finding, route: Route) -> Finding:
    """A finding about a waiver list, placed where the list stands in its document."""
    place = finding.place
    return replace(finding, place=replace(place, route=(*route, *place.route)))


def _lists(data: Data, route: Route) -> Iterator[tuple[Route, Data]]:
    """What stands behind each key `waive`, with the route to the mapping that has it."""
    if isinstance(data, dict):
        if KEY in data:
            yield route, data[KEY]
        for key, value in data.items():
            if key != KEY:
                yield from _lists(value, (*route, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from _lists(value, (*route, index))


def _without(data: Data) -> Data:
    if isinstance(data, dict):
        return {key: _without(value) for key, value in data.items() if key != KEY}
    if isinstance(data, list):
        return [_without(value) for value in data]
    return data
