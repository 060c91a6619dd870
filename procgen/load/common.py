"""Readers that several kinds of file share: sources, limits with their source, intervals."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from procgen.diagnostics import Place, Related
from procgen.load.node import Node, unknown
from procgen.model.stated import Source, SourceRef, Span1, Stated
from procgen.units import Dimension, Quantity, of


class Sources:
    """The documents a file names, and the reader of every `source:` in it."""

    def __init__(self, node: Node) -> None:
        unsure = node.log.misshapen(Place(node.place.file, node.place.route[:-1]))
        names = None if unsure and not isinstance(node.data, dict) else [name for name, _ in node.items()]
        self.names: Collection[str] | None = names
        self._node = node

    def read(self) -> Mapping[str, Source]:
        """The documents themselves."""
        return {
            name: Source(name, one["title"].text(), one["issue"].text(), one["date"].date(), one.place)
            for name, one in self._node.items()
        }

    def ref(self, node: Node) -> SourceRef | None:
        """What a `source:` says; None where there is none."""
        if not node.given:
            return None
        name, _, where = node.text().partition(" ")
        if isinstance(node.data, str) and self.names is not None and name not in self.names:
            self._unknown(node, name, self.names)
        elif not where:
            node.log.doubt(
                "source-without-page",
                f"the source “{name}” names no page or section",
                node.place,
                f"add the page or section, as in “{name} 5-1”",
            )
        return SourceRef(name, where)

    def _unknown(self, node: Node, name: str, names: Collection[str]) -> None:
        run_together = max((known for known in names if _goes_on(name, known)), key=len, default="")
        page = name.removeprefix(run_together).lstrip("-_.:/,")
        if run_together and page:
            node.log.wrong(
                "unknown-name",
                f"there is no source “{name}”",
                node.place,
                f"part the document and its page with a space: {run_together} {page}",
            )
        elif names:
            unknown(node, name, node.place, "source", names)
        else:
            node.log.wrong(
                "unknown-name",
                f"there is no source “{name}”",
                node.place,
                f"describe it under “sources”: {name}: {{title: …, issue: …, date: …}}",
            )


def _goes_on(name: str, known: str) -> bool:
    """Whether `name` is a known one and, without a space between, something that is no letter."""
    return name.startswith(known) and name != known and not name[len(known)].isalpha()


class Group:
    """Limits that stand together and may share one `source`."""

    def __init__(self, node: Node, sources: Sources, head: Place | None = None) -> None:
        self._node = node
        self._head = head or node.key
        self._sources = sources
        self._shared = sources.ref(node["source"])
        self._complained = False

    @property
    def source(self) -> SourceRef | None:
        """The source that the group shares."""
        return self._shared

    def limit(self, node: Node, dimension: Dimension, *, zero: bool = False) -> Stated:
        """A number that limits something, with its own source or the group's."""
        value, source = node, self._shared
        if isinstance(node.data, dict):
            value, source = node["value"], self._sources.ref(node["source"]) or self._shared
        self.needs_source(value, source)
        amount = value.quantity(dimension) if zero else value.size(dimension)
        return Stated(amount, source, value.place)

    def optional(self, node: Node, dimension: Dimension) -> Stated | None:
        """The same; None where nothing stands."""
        return self.limit(node, dimension) if node.given else None

    def needs_source(self, node: Node, source: SourceRef | None) -> None:
        """Complain of a number without source, once for the group."""
        if source is not None or self._complained or not node.given:
            return
        self._complained = True
        what = self._node.place.route[-1] if self._node.place.route else "this"
        node.log.doubt(
            "limit-without-source",
            f"no document is named for the numbers of “{what}”",
            self._head,
            "add “source: NAME PAGE”, with the name of a document under “sources”",
        )


def interval(node: Node) -> Span1:
    """Two lengths, the lower one first."""
    ends = [element.reading(Dimension.LENGTH) for element in node.elements()]
    if len(ends) != 2 or ends[0] is None or ends[1] is None:
        node.log.broken = True
        nothing = of(0, "m")
        return Span1(nothing, nothing)
    low, high = ends[0], ends[1]
    if low >= high:
        first, second = node.elements()
        node.log.wrong(
            "interval-reversed",
            f"“{node.place.route[-1]}” runs from {low} to {high}, but the lower end comes first"
            if low > high
            else f"“{node.place.route[-1]}” ends where it begins, at {low}",
            first.place,
            f"write [{high}, {low}]" if low > high else "correct one of the two ends",
            Related(second.place, "the other end"),
        )
    elif low.unit != high.unit:
        _in_two_units(node, low, high)
    return Span1(low, high)


def _in_two_units(node: Node, low: Quantity, high: Quantity) -> None:
    """The interval is as long as it says; nobody measures its two ends in two units, so one may be a slip."""
    first, second = node.elements()
    node.log.doubt(
        "ends-in-two-units",
        f"“{node.place.route[-1]}” runs from {low} to {high}: its ends are in different units",
        first.place,
        f"write both ends in one unit, {low.unit.symbol} or {high.unit.symbol}",
        Related(second.place, "the other end"),
    )
