"""The edits that lead from one set of input files to another by meaning, and the files with some made."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace

from procgen.diagnostics import Place, Route
from procgen.diff.list_pairs import aligned, likeness, text_of
from procgen.diff.merged import Entry, Items, Leaf, Node, Pair, Same, data_of, numbers_in
from procgen.diff.order import moved
from procgen.results.difference import EditKind, EditPlace, InputEdit
from procgen.source import Document, read_document
from procgen.source.document import Data

_ALIKE = 0.6
_LONGEST = 90


@dataclass(frozen=True, slots=True)
class Edits:
    """All edits between two sets of files; `applied` makes some of them."""

    edits: tuple[InputEdit, ...]
    _was: Mapping[str, str]
    _now: Mapping[str, str]
    _trees: Mapping[str, Node]
    _whole: Mapping[str, int]

    def applied(self, chosen: Collection[int]) -> Mapping[str, str]:
        """The older files with the chosen edits made, by number. Layout and comments do not survive."""
        result: dict[str, str] = {}
        for file, number in self._whole.items():
            texts = self._now if number in chosen else self._was
            if file in texts:
                result[file] = texts[file]
        for file, tree in self._trees.items():
            own = numbers_in(tree)
            if own <= set(chosen):
                result[file] = self._now[file]
            elif own & set(chosen):
                result[file] = flow(data_of(tree, chosen))
            else:
                result[file] = self._was[file]
        return result


def input_edits(
    was: Mapping[str, str], now: Mapping[str, str], called: Mapping[str, str] | None = None
) -> Edits:
    """Every edit by meaning: layout, comments and quotes are none.

    A name that changed in its definition and wherever it is used is one edit. A file that only one side has
    is one edit; so is one that cannot be read as data. `called` says what a newer file is really called that
    is given here under the name of the older file that it is compared with.
    """
    reading = _Reading(was, now, called or {})
    trees: dict[str, Node] = {}
    whole: dict[str, int] = {}
    for file in sorted({*was, *now}):
        if file in was and file in now:
            before, after = reading.documents(file)
            if before.data is not None and after.data is not None:
                trees[file] = reading.node(file, before.data, after.data, (), ())
                continue
            if was[file] == now[file]:
                trees[file] = Same(before.data)
                continue
        whole[file] = reading.whole(file)
    edits = tuple(
        InputEdit(number, kind, tuple(places)) for number, (kind, places) in enumerate(reading.found, start=1)
    )
    return Edits(edits, was, now, trees, whole)


@dataclass
class _Reading:
    """The edits found so far; their numbers count from 1."""

    was: Mapping[str, str]
    now: Mapping[str, str]
    called: Mapping[str, str] = field(default_factory=dict)
    found: list[tuple[EditKind, list[EditPlace]]] = field(default_factory=list)
    renames: dict[tuple[str, str], int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for file in sorted(self.was.keys() & self.now.keys()):
            before, after = self.documents(file)
            for pair in _renames(before.data, after.data):
                self.renames.setdefault(pair, 0)

    def documents(self, file: str) -> tuple[Document, Document]:
        """Both sides of a file."""
        return read_document(file, self.was[file])[0], read_document(file, self.now[file])[0]

    def whole(self, file: str) -> int:
        """A file that came, went, or cannot be read."""
        kind = EditKind.CHANGED
        if file not in self.was:
            kind = EditKind.ADDED
        elif file not in self.now:
            kind = EditKind.REMOVED
        lines = int(file in self.was), int(file in self.now)
        name, older = self._names(file, *lines)
        return self._new(kind, EditPlace(name, (), *lines, "", "", older))

    def _names(self, file: str, was_line: int, now_line: int) -> tuple[str, str]:
        """What a file is called where an edit is best looked up, and in the older version where otherwise."""
        name = self.called.get(file, file) if now_line else file
        return name, file if was_line and name != file else ""

    def node(self, file: str, was: Data, now: Data, old: Route, new: Route) -> Node:
        """What leads from one value to the other."""
        if isinstance(was, dict) and isinstance(now, dict):
            return self._mapping(file, was, now, old, new)
        if isinstance(was, list) and isinstance(now, list):
            return self._list(file, was, now, old, new)
        if was == now and type(was) is type(now):
            return Same(was)
        number = self._rename(was, now, self._place(file, old, new, was, now))
        if not number:
            number = self._new(EditKind.CHANGED, self._place(file, old, new, was, now))
        return Leaf(number, was, now)

    def _mapping(self, file: str, was: dict[str, Data], now: dict[str, Data], old: Route, new: Route) -> Node:
        gone, come = [key for key in was if key not in now], [key for key in now if key not in was]
        renamed = {key: other for key in gone for other in come if (key, other) in self.renames}
        entries: list[Entry] = []
        for key, value in now.items():
            before = next((k for k, other in renamed.items() if other == key), key)
            if before in was:
                number = 0
                if before != key:
                    place = self._place(file, (*old, before), (*new, key), before, key, on_key=True)
                    number = self._rename(before, key, place)
                inner = self.node(file, was[before], value, (*old, before), (*new, key))
                entries.append(Entry(before, key, number, inner))
            else:
                place = self._place(file, None, (*new, key), None, value)
                entries.append(Entry(None, key, self._new(EditKind.ADDED, place), Same(value)))
        for key in gone:
            if key not in renamed:
                place = self._place(file, (*old, key), None, was[key], None)
                entries.append(Entry(key, None, self._new(EditKind.REMOVED, place), Same(was[key])))
        common = {
            entry.was: entry.now for entry in entries if entry.was is not None and entry.now is not None
        }
        in_old_order = [other for key in was if (other := common.get(key)) is not None]
        order = 0
        shifted = moved(in_old_order, [key for key in now if key in in_old_order])
        if shifted:
            back = {other: key for key, other in common.items()}
            place = self._place(
                file, (*old, back[shifted[0]]), (*new, shifted[0]), list(was), list(now), on_key=True
            )
            order = self._new(EditKind.REORDERED, place)
        return Pair(tuple(entries), tuple(was), tuple(now), order)

    def _list(self, file: str, was: list[Data], now: list[Data], old: Route, new: Route) -> Node:
        items: list[tuple[int, Node, bool, bool]] = []
        before, after = [text_of(one) for one in was], [text_of(one) for one in now]
        if before == after:
            return Same(was)
        if sorted(before) == sorted(after):
            return Leaf(self._new(EditKind.REORDERED, self._order(file, before, after, old, new)), was, now)
        for i, j in aligned(was, now):
            if i is not None and j is not None:
                items.append((0, self.node(file, was[i], now[j], (*old, i), (*new, j)), True, True))
            elif j is not None:
                place = self._place(file, None, (*new, j), None, now[j])
                items.append((self._new(EditKind.ADDED, place), Same(now[j]), False, True))
            elif i is not None:
                place = self._place(file, (*old, i), None, was[i], None)
                items.append((self._new(EditKind.REMOVED, place), Same(was[i]), True, False))
        return Items(tuple(items))

    def _order(self, file: str, before: list[str], after: list[str], old: Route, new: Route) -> EditPlace:
        """The first element of a list that stands elsewhere now."""
        counted = [
            [f"{one}#{texts[:n].count(one)}" for n, one in enumerate(texts)] for texts in (before, after)
        ]
        first = next(iter(moved(*counted)), counted[1][0])
        i, j = counted[0].index(first), counted[1].index(first)
        place = self._place(file, (*old, i), (*new, j), None, None)
        what = _short(json.loads(after[j]))
        return replace(place, was=f"{what}, {_ordinal(i)}", now=f"{what}, {_ordinal(j)}")

    def _new(self, kind: EditKind, place: EditPlace) -> int:
        self.found.append((kind, [place]))
        return len(self.found)

    def _rename(self, was: Data, now: Data, place: EditPlace) -> int:
        """The number of the rename that this is part of; 0 where it is none."""
        if not isinstance(was, str) or not isinstance(now, str) or (was, now) not in self.renames:
            return 0
        number = self.renames[was, now]
        if number:
            self.found[number - 1][1].append(place)
        else:
            number = self._new(EditKind.RENAMED, place)
            self.renames[was, now] = number
        return number

    def _place(
        self, file: str, old: Route | None, new: Route | None, was: Data, now: Data, *, on_key: bool = False
    ) -> EditPlace:
        before, after = self.documents(file)
        on_key = on_key or old is None or new is None
        was_line = 0 if old is None else before.span(Place(file, old, on_key=on_key)).line
        now_line = 0 if new is None else after.span(Place(file, new, on_key=on_key)).line
        name, older = self._names(file, was_line, now_line)
        return EditPlace(
            name,
            new if new is not None else old or (),
            was_line,
            now_line,
            "" if old is None else _short(was),
            "" if new is None else _short(now),
            older,
        )


def _renames(was: Data, now: Data) -> Iterator[tuple[str, str]]:
    """Entries of a mapping of mappings that another entry took the place of, with nearly the same content."""
    if not isinstance(was, dict) or not isinstance(now, dict):
        return
    gone = [key for key in was if key not in now and isinstance(was[key], dict)]
    come = [key for key in now if key not in was and isinstance(now[key], dict)]
    taken: set[str] = set()
    for key in gone:
        ranked = [(_likeness(was[key], now[other]), other) for other in come if other not in taken]
        best = max(ranked, default=(0.0, ""))
        if best[0] >= _ALIKE:
            taken.add(best[1])
            yield key, best[1]
    for key in was.keys() & now.keys():
        yield from _renames(was[key], now[key])


def _likeness(was: Data, now: Data) -> float:
    return likeness(was, now) if isinstance(was, dict) and isinstance(now, dict) else 0.0


def _ordinal(index: int) -> str:
    return f"number {index + 1}"


def _short(data: Data) -> str:
    text = flow(data) if isinstance(data, dict | list) else "" if data is None else str(data)
    text = text.replace('"', "") if isinstance(data, dict | list) else text
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"


def flow(data: Data) -> str:
    """The data as one line of the writer's language."""
    if isinstance(data, dict):
        inner = ", ".join(f"{json.dumps(key, ensure_ascii=False)}: {flow(one)}" for key, one in data.items())
        return "{" + inner + "}"
    if isinstance(data, list):
        return "[" + ", ".join(flow(one) for one in data) + "]"
    if data is None:
        return ""
    if isinstance(data, bool):
        return "true" if data else "false"
    return json.dumps(data, ensure_ascii=False)
