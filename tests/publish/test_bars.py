"""Change bars: every difference at its element of its page, once; no bar where nothing differs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from html.parser import HTMLParser
from itertools import islice

from procgen.diff import differences
from procgen.pipeline.deriving import derive_site
from procgen.publish import station_tree
from procgen.results.difference import Anchor, Difference
from procgen.results.edition import Edition
from procgen.results.page import HoldSite, ProcedurePage, StationSite
from tests.diff.random_edits import edits
from tests.diff.versions import AFT, PROCEDURE, STATION, edited, files
from tests.publish.sites import templates

_VOID = {"meta", "link", "br", "input", "path", "use", "circle", "rect", "line", "img", "hr", "polygon"}
_HOLD_ROWS = ("restraints", "positions", "limit", "doors", "controls", "panels", "drives", "sources")


@dataclass
class Node:
    tag: str
    attrs: Mapping[str, str]
    up: Node | None
    text: str = ""
    shown: list[str] = field(default_factory=list)


class Read(HTMLParser):
    """The elements of a page, and for every difference that is shown the elements around it."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.here = Node("", {}, None)
        self.found: list[tuple[str, list[Node]]] = []
        self.warned: Counter[str] = Counter()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        node = Node(tag, {name: value or "" for name, value in attrs}, self.here)
        if "data-difference" in node.attrs:
            self.found.append((node.attrs["data-difference"], list(_around(node))))
        if tag not in _VOID:
            self.here = node

    def handle_endtag(self, tag: str) -> None:
        node: Node | None = self.here
        while node is not None and node.tag != tag:
            node = node.up
        if node is not None and node.up is not None:
            self.here = node.up

    def handle_data(self, data: str) -> None:
        for node in _around(self.here):
            if node.tag in ("tr", "div", "li"):
                node.text += data


def _around(node: Node | None) -> Iterator[Node]:
    while node is not None:
        yield node
        node = node.up


def edition(was: StationSite, now: StationSite) -> Edition:
    return Edition(now, differences=differences(was, now), first=False, against=1)


def derived(texts: Mapping[str, str]) -> StationSite:
    found = derive_site(texts)
    assert found is not None
    return found


@cache
def before() -> StationSite:
    return derived(files())


ORDER = ("  - close: control-panel\n", "  - check: locks-verified\n")
AT_ONCE: tuple[tuple[str, str, str], ...] = (
    (AFT, "lock-41, rails], max: {K: 1134 kg}", "lock-41], max: {K: 900 kg}"),
    (AFT, "drive stick", "red stick"),
    (AFT, "clear: {width: 1.62 m", "clear: {width: 1.61 m"),
    (AFT, "    rating: {right: 10 kN}\n    source: WB 4-1\n", ""),
    (AFT, "sources:\n", 'sources:\n  XX: {title: More (invented), issue: "1", date: "2026-01-01"}\n'),
    (STATION, "opening: 35 kt", "opening: 25 kt"),
    (PROCEDURE, "  - check: wind-within-limit\n", ""),
    (PROCEDURE, "  - warning: fingers-caught\n", ""),
    (PROCEDURE, "".join(ORDER), "".join(reversed(ORDER))),
    (PROCEDURE, 'u42: {type: AKH, bay: "42"}', 'u42: {type: PKC, bay: "42"}'),
)
"""Something of every kind: a row, a limit, a step that went, one that moved, a warning that went."""


def pairs() -> Iterator[tuple[StationSite, StationSite]]:
    """Before and after edits, each both ways: what came one way goes the other."""
    for texts in (edited(*AT_ONCE), *(one.texts for one in islice(edits(seed=31), 4))):
        after = derive_site(texts)
        if after is not None:
            yield before(), after
            yield after, before()


def test_every_difference_shows_on_its_page_at_its_element_and_nowhere_else() -> None:
    kinds: Counter[str] = Counter()
    for was, now in pairs():
        shown = edition(was, now)
        tree = station_tree(shown, templates())
        assert list(_faults(shown, tree, kinds)) == []
    assert set(kinds) >= {"step", "after", "warning", "unit", "limit", "restraints", "doors", "controls"}, (
        kinds
    )


def _faults(shown: Edition, tree: Mapping[str, str], kinds: Counter[str]) -> Iterator[str]:
    anchored: set[str] = set()
    for hold in shown.site.holds:
        yield from _hold_faults(shown, hold, tree, anchored, kinds)
        for page in hold.pages:
            for path in (f"docs/procedures/{page.name}.md", f"docs/cards/{page.name}.html"):
                yield from _procedure_faults(shown, page, path, tree[path], anchored, kinds)
    front = Counter(name for name, _ in Read(tree["docs/index.md"]).found)
    for one in shown.differences:
        on_front = any(anchor.page == "station" for anchor in one.anchors) or one.identity not in anchored
        if front[one.identity] != on_front:
            yield f"{one.identity} stands {front[one.identity]} times on the first page"


def _of(shown: Edition, page: str, name: str) -> Iterator[tuple[Anchor, Difference]]:
    for one in shown.differences:
        for anchor in dict.fromkeys(one.anchors):
            if (anchor.page, anchor.name) == (page, name):
                yield anchor, one


def _hold_faults(
    shown: Edition, hold: HoldSite, tree: Mapping[str, str], anchored: set[str], kinds: Counter[str]
) -> Iterator[str]:
    name = hold.hold.name
    pages = {kind: Read(tree[f"docs/{kind}/{name}.md"]).found for kind in ("holds", "limits", "loads")}
    due: Counter[tuple[str, str]] = Counter()
    for anchor, one in _of(shown, "hold", name):
        anchored.add(one.identity)
        kind, _, thing = anchor.element.partition(":")
        kinds[kind] += 1
        home = {"tables": "limits", "figures": "loads"}.get(kind, "holds")
        due[home, one.identity] += 1
        around = [nodes for identity, nodes in pages[home] if identity == one.identity]
        if kind in _HOLD_ROWS and not any(_is_row(hold, kind, thing, nodes) for nodes in around):
            yield f"{one.identity} does not stand at {anchor.element} of {name}"
    found = Counter((home, identity) for home, ones in pages.items() for identity, _ in ones)
    also = {("limits", one.identity) for a, one in _of(shown, "hold", name) if a.element.startswith("zones:")}
    for key in set(found) | set(due):
        if found[key] != due[key] and not (key in also and found[key] <= 1):
            yield f"{key} stands {found[key]} times, not {due[key]}"


def _is_row(hold: HoldSite, kind: str, thing: str, nodes: Sequence[Node]) -> bool:
    """Whether a bar stands in the row of a thing; behind its table where the thing is not there any more."""
    row = next((node for node in nodes if node.tag == "tr"), None)
    if row is None:
        return not _is_there(hold, kind, thing)
    names = {
        "restraints": f"item-{thing}",
        "limit": f"limit-{thing.replace('.', '-')}",
        "sources": f"source-{thing}",
    }
    if kind in names:
        return row.attrs.get("id") == names[kind]
    title = thing if kind == "positions" else getattr(hold.hold, kind)[thing].title
    return row.text.startswith(title)


def _is_there(hold: HoldSite, kind: str, thing: str) -> bool:
    if kind == "limit":
        cells = {f"{one.position}.{one.unit_type}" for one in hold.limits.cells if one.governing is not None}
        return thing in cells
    return thing in getattr(hold.hold, kind)


def _procedure_faults(
    shown: Edition, page: ProcedurePage, path: str, text: str, anchored: set[str], kinds: Counter[str]
) -> Iterator[str]:
    on_card = "/cards/" in path
    read = Read(text)
    own: Counter[str] = Counter()
    folded = _folded(page)
    for anchor, one in _of(shown, "procedure", page.name):
        anchored.add(one.identity)
        kind, _, thing = anchor.element.partition(":")
        kinds[kind] += 1
        around = [nodes for identity, nodes in read.found if identity == one.identity]
        if not around:
            yield f"{one.identity} does not stand on {path}"
        elif kind in ("step", "after") and thing != "0":
            number = thing if on_card else str(folded.get(int(thing), int(thing)))
            marked = [nodes for nodes in around if any(_step(node) == number for node in nodes)]
            if not marked:
                yield f"{one.identity} does not stand at step {number} of {path}"
        elif kind == "warning" and not all(
            any("warn" in n.attrs.get("class", "") for n in ns) for ns in around
        ):
            yield f"{one.identity} stands outside its warning on {path}"
        own[one.identity] += 1
    # No element shows a difference twice.
    for identity, nodes in read.found:
        bar = next(node for node in nodes if node.tag == "details")
        if identity in bar.shown:
            yield f"{identity} stands twice in one bar on {path}"
        bar.shown.append(identity)
        limits = (
            identity.startswith(f"{page.hold}/limits/") or "/zones/" in identity or "/cumulative/" in identity
        )
        if not own[identity] and not limits and not _is_limit(shown, page.hold, identity):
            yield f"{identity} is none of {path}"


def _is_limit(shown: Edition, hold: str, identity: str) -> bool:
    kinds = ("limit", "zones", "cumulative")
    return any(
        one.identity == identity and anchor.element.partition(":")[0] in kinds
        for anchor, one in _of(shown, "hold", hold)
    )


def _step(node: Node) -> str:
    return node.attrs.get("value", "") if node.tag == "li" else ""


def _folded(page: ProcedurePage) -> Mapping[int, int]:
    """For steps that a fold says: the number of the step by which it says them."""
    return {
        number: fold.turns[0].first + number - turn.first
        for fold in page.folds
        for turn in fold.turns
        for number in range(turn.first, turn.last + 1)
    }


def test_where_nothing_differs_nothing_is_marked_and_no_byte_is_other() -> None:
    now = before()
    plain = station_tree(Edition(now, first=False, against=1), templates())
    assert plain == station_tree(edition(derived(files()), now), templates())
    for path, text in plain.items():
        if not path.endswith(".css"):
            assert "chg" not in text, path
