"""Random single edits of the demonstration by meaning, and what the comparison must say of each.

Run it for the counts: `python -m tests.diff.random_edits [HOW MANY] [SEED]`.

What is expected is written down here by the keys of the writer's language, independently of the table that
the comparison goes by.
"""

from __future__ import annotations

import copy
import random
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from procgen.diagnostics import Route
from procgen.diff import compare
from procgen.diff.inputs import flow
from procgen.pipeline.deriving import derive_site
from procgen.results.difference import (
    CauseKind,
    Comparison,
    DifferenceClass,
    DifferenceKind,
    EditKind,
    Version,
)
from procgen.source import read_document
from procgen.units import UNITS
from tests.diff.versions import AFT, FLEET, PROCEDURE, STATION, explain, files

LOOSENED, TIGHTENED = DifferenceClass.LOOSENED, DifferenceClass.TIGHTENED
CHANGED, WORDING = DifferenceClass.CHANGED, DifferenceClass.WORDING

_AMOUNT = re.compile(r"(?P<number>-?[0-9][0-9 ]*(?:\.[0-9]+)?) (?P<unit>\S+)")
_DIRECTIONS: tuple[tuple[str, str], ...] = (
    # a route, keys joined by dots, and which way is looser: up, down, any; or the class of any change
    (r"floor\.limits\.\w+(\.value)?", "up"),
    (r"floor\.height", "up"),
    (r"floor\.[xy]\..*", "any"),
    (r"load-factors\.(forward|aft|left|right|up)", "down"),
    (r"doors\.[^.]+\.clear\.\w+", "up"),
    (r"doors\.[^.]+\.wall", "down"),
    (r"doors\.[^.]+\.sill", "changed"),
    (r"doors\.[^.]+\.x\..*", "any"),
    (r"(doors\.[^.]+\.)?wind\.\w+", "up"),
    (r"bays\..*", "any"),
    (r"drives\.[^.]+\.(speed|pull)", "up"),
    (r"restraints\.[^.]+\.rating\..*", "up"),
    (r"positions\.[^.]+\.max\..*", "up"),
    (r"zones\.[^.]+\.x\..*", "any"),
    (r"zones\..*", "up"),
    (r"cumulative\.[^.]+\.points\.\d+\.max", "up"),
    (r"cumulative\..*\.x", "any"),
    (r"cross-section\.corners\.\d+\.width", "up"),
    (r"cross-section\.corners\.\d+\.z", "any"),
    (r"tie-down\.(points|straps)\.[^.]+\.rating(\..*)?", "up"),
    (r"tie-down\..*\.[xyz]", "any"),
    (r"aircraft\.[^.]+\.gear\.nose-share", "down"),
    (r"aircraft\..*|bases\..*|contours\..*", "any"),
    (r"unit-types\.[^.]+\.height", "down"),
    (r"unit-types\.[^.]+\.max-gross", "up"),
    (r"unit-types\.[^.]+\.tare", "any"),
    (r"allowances\.push", "up"),
    (r"allowances\..*", "down"),
)
_OTHER_UNITS = {"kg": "t", "t": "kg", "m": "mm", "mm": "m", "kN": "N", "N": "kN", "kg/m": None, "s": None}


@dataclass(frozen=True, slots=True)
class Edit:
    """One edit: its kind, the files with it, where it is, and what must be said of it.

    `expected` is the class of what is said of the edited thing itself; None where nothing may be said.
    """

    kind: str
    texts: Mapping[str, str]
    file: str
    route: Route
    expected: DifferenceClass | None
    told_as: DifferenceKind | None = None


def edits(seed: int) -> Iterator[Edit]:
    """Edits without end. Some do not make sense as descriptions; those cannot be derived."""
    chance = random.Random(seed)
    makers: tuple[Callable[[random.Random], Edit | None], ...] = (
        *(_number,) * 8,
        _other_unit,
        _as_written,
        _comment,
        _removed,
        _removed,
        _removed,
        _renamed,
        _title,
        _swapped,
        _step_gone,
        _flag,
    )
    while True:
        found = chance.choice(makers)(chance)
        if found is not None:
            yield found


def _data(file: str) -> Any:
    return copy.deepcopy(read_document(file, files()[file])[0].data)


def _leaves(data: Any, route: Route = ()) -> Iterator[tuple[Route, Any]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield from _leaves(value, (*route, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from _leaves(value, (*route, index))
    else:
        yield route, data


def _at(data: Any, route: Route) -> Any:
    for step in route:
        data = data[step]
    return data


def _put(file: str, data: Any) -> Mapping[str, str]:
    return {**files(), file: flow(data) + "\n"}


def _amounts(file: str) -> list[tuple[Route, re.Match[str]]]:
    found = ((route, _AMOUNT.fullmatch(str(value))) for route, value in _leaves(_data(file)))
    return [(route, match) for route, match in found if match and match["unit"] in UNITS]


def _pick(chance: random.Random) -> tuple[str, Route, re.Match[str]]:
    file = chance.choice((AFT, AFT, AFT, FLEET, STATION))
    return file, *chance.choice(_amounts(file))


def _text(number: Fraction, unit: str) -> str:
    return f"{float(number):.6f}".rstrip("0").rstrip(".") + f" {unit}"


def _number(chance: random.Random) -> Edit | None:
    """A number raised or lowered, sometimes in another unit."""
    file, route, match = _pick(chance)
    number = Fraction(match["number"].replace(" ", ""))
    factor = Fraction(chance.choice((101, 103, 110, 99, 97, 90)), 100)
    if not number:
        return None
    new, unit = number * factor, match["unit"]
    other = _OTHER_UNITS.get(unit)
    if other and chance.random() < 0.3:
        new, unit = new * UNITS[unit].factor / UNITS[other].factor, other
    data = _data(file)
    _at(data, route[:-1])[route[-1]] = _text(new, unit)
    return Edit("number", _put(file, data), file, route, _class_of(route, raised=number * factor > number))


def _class_of(route: Route, *, raised: bool) -> DifferenceClass:
    path = ".".join(map(str, route))
    way = next((way for pattern, way in _DIRECTIONS if re.fullmatch(pattern, path)), "any")
    if way == "changed":
        return CHANGED
    if way == "any":
        return LOOSENED
    return LOOSENED if raised == (way == "up") else TIGHTENED


def _other_unit(chance: random.Random) -> Edit | None:
    """The same amount in another unit."""
    file, route, match = _pick(chance)
    unit, other = UNITS[match["unit"]], _OTHER_UNITS.get(match["unit"])
    if other is None:
        return None
    data = _data(file)
    number = Fraction(match["number"].replace(" ", "")) * unit.factor / UNITS[other].factor
    _at(data, route[:-1])[route[-1]] = _text(number, other)
    return Edit("unit", _put(file, data), file, route, None)


def _as_written(chance: random.Random) -> Edit | None:
    """The same amount written otherwise."""
    file, route, match = _pick(chance)
    data = _data(file)
    _at(data, route[:-1])[route[-1]] = (
        match["number"] + (".0" if "." not in match["number"] else "0") + " " + match["unit"]
    )
    return Edit("as written", _put(file, data), file, route, None)


def _comment(chance: random.Random) -> Edit | None:
    """A comment, or the whole file laid out anew."""
    file = chance.choice((AFT, FLEET, STATION, PROCEDURE))
    if chance.random() < 0.5:
        return Edit("layout", _put(file, _data(file)), file, (), None)
    lines = files()[file].splitlines()
    lines.insert(chance.randrange(len(lines) + 1), "# looked at")
    return Edit("layout", {**files(), file: "\n".join(lines) + "\n"}, file, (), None)


_REMOVED: tuple[tuple[str, DifferenceClass], ...] = (
    (r"floor\.limits\.\w+", LOOSENED),
    (r"doors\.[^.]+\.wind\.\w+", LOOSENED),
    (r"doors\.[^.]+\.close-needs\..*", LOOSENED),
    (r"power\.needs\..*", LOOSENED),
    (r"drives\.[^.]+\.(speed|pull)", LOOSENED),
    (r"restraints\.[^.]+\.rating\..*", TIGHTENED),
    (r"restraints\.[^.]+\.override\..*", TIGHTENED),
    (r"restraints\.[^.]+\.guides\..*", LOOSENED),
    (r"restraints\.[^.]+\.lowered-by", TIGHTENED),
    (r"positions\.[^.]+\.held-by\..*", LOOSENED),
    (r"positions\.[^.]+\.contours\..*", TIGHTENED),
    (r"zones\.[^.]+", LOOSENED),
    (r"cumulative", LOOSENED),
    (r"out-together", TIGHTENED),
    (r"tie-down\.points\..*", CHANGED),
    (r"notes\.\d+", LOOSENED),
    (r"contacts\.\d+", LOOSENED),
    (r"unit-types\.\w+\.tare", LOOSENED),
)


def _removed(chance: random.Random) -> Edit | None:
    """An entry or an element taken out."""
    file = chance.choice((AFT, AFT, STATION))
    data = _data(file)
    routes = [route for route in _routes(data) if _gone_class(route) is not None]
    route = chance.choice(routes)
    del _at(data, route[:-1])[route[-1]]
    return Edit("removed", _put(file, data), file, route, _gone_class(route), DifferenceKind.REMOVED)


def _routes(data: Any, route: Route = ()) -> Iterator[Route]:
    pairs = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in pairs:
        yield (*route, key)
        yield from _routes(value, (*route, key))


def _gone_class(route: Route) -> DifferenceClass | None:
    path = ".".join(map(str, route))
    found = [
        classed for pattern, classed in _REMOVED if re.fullmatch(pattern.replace(r"\..*", r"\.[^.]+"), path)
    ]
    return found[0] if found else None


def _renamed(chance: random.Random) -> Edit | None:
    """A thing with another name wherever it is named."""
    group = chance.choice(("restraints", "controls", "zones", "doors", "panels", "drives"))
    old = chance.choice(list(_data(AFT)[group]))
    texts = dict(files())
    for file in (AFT, PROCEDURE):
        texts[file] = flow(_with_name(_data(file), old, f"{old}-b")) + "\n"
    return Edit("renamed", texts, AFT, (group, f"{old}-b"), WORDING, DifferenceKind.RENAMED)


def _with_name(data: Any, old: str, new: str) -> Any:
    if isinstance(data, dict):
        return {new if key == old else key: _with_name(value, old, new) for key, value in data.items()}
    if isinstance(data, list):
        return [_with_name(value, old, new) for value in data]
    return new if data == old else data


def _title(chance: random.Random) -> Edit | None:
    """A thing called otherwise on the pages."""
    group = chance.choice(("restraints", "controls", "doors", "panels", "zones"))
    data = _data(AFT)
    name = chance.choice(list(data[group]))
    data[group][name]["name"] = f"blue {data[group][name]['name']}"
    return Edit("title", _put(AFT, data), AFT, (group, name, "name"), WORDING, DifferenceKind.RENAMED)


def _swapped(chance: random.Random) -> Edit | None:
    """Two neighbours of a list or a mapping of things exchanged."""
    file, route = chance.choice(
        (
            (AFT, ("restraints",)),
            (AFT, ("positions",)),
            (AFT, ("controls",)),
            (AFT, ("zones",)),
            (STATION, ("contacts",)),
        )
    )
    data = _data(file)
    held = _at(data, route)
    at = chance.randrange(len(held) - 1)
    if isinstance(held, list):
        held[at], held[at + 1] = held[at + 1], held[at]
    else:
        items = list(held.items())
        items[at], items[at + 1] = items[at + 1], items[at]
        held.clear()
        held.update(items)
    return Edit("order", _put(file, data), file, route, WORDING, DifferenceKind.MOVED)


_SECURING = ("check", "raise", "report", "close", "warning", "caution")


def _step_gone(chance: random.Random) -> Edit | None:
    """A step, warning or check taken out of a procedure written by hand."""
    data = _data(PROCEDURE)
    at = chance.choice([n for n, step in enumerate(data["steps"]) if "section" not in step])
    (verb,) = set(data["steps"][at]) & {*_SECURING, "open", "lower", "set", "present", "drive", "note"}
    del data["steps"][at]
    expected = LOOSENED if verb in _SECURING else CHANGED
    return Edit("step", _put(PROCEDURE, data), PROCEDURE, ("steps", at), expected)


_FLAGS = {
    "hold-to-run": True,
    "powered": True,
    "in-pairs": True,
    "grips": False,
    "bears-on-floor": True,
    "demonstration": True,
}


def _flag(chance: random.Random) -> Edit | None:
    """A yes made a no."""
    data = _data(AFT)
    found = [
        route for route, value in _leaves(data) if value is True and route[-1] in _FLAGS and len(route) > 1
    ]
    if not found:
        return None
    route = chance.choice(found)
    _at(data, route[:-1])[route[-1]] = False
    safe = _FLAGS[str(route[-1])]
    return Edit("flag", _put(AFT, data), AFT, route, LOOSENED if safe else TIGHTENED)


def faults_of(edit: Edit) -> list[str] | None:
    """What the comparison says wrongly of an edit; None where the edited files cannot be read."""
    after = derive_site(edit.texts)
    before = derive_site(files())
    assert before is not None
    if after is None:
        return None
    found = explain(files(), edit.texts)
    faults = list(_faults(edit, found, same=before == after))
    back = compare(Version("b", after), Version("a", before))
    if _told(found, DifferenceKind.ADDED) != _told(back, DifferenceKind.REMOVED):
        faults.append("what came is not what went the other way")
    if _told(found, DifferenceKind.REMOVED) != _told(back, DifferenceKind.ADDED):
        faults.append("what went is not what came the other way")
    return faults


def _told(found: Comparison, kind: DifferenceKind) -> set[str]:
    return {one.identity for one in found.differences if one.kind is kind}


def _faults(edit: Edit, found: Comparison, *, same: bool) -> Iterator[str]:
    shown = found.differences
    if edit.expected is None:
        if shown:
            yield f"says {shown[0].identity} though nothing differs"
        if found.idle != tuple(one.number for one in found.edits):
            yield "does not say that the edit has no effect"
        return
    if not found.edits or not any(place.file == edit.file for one in found.edits for place in one.places):
        yield "does not find the edit"
        return
    if same and edit.kind != "order":
        if shown:
            yield f"says {shown[0].identity} though nothing that is published differs"
        return
    if not shown:
        yield "says nothing"
        return
    if any([(c.kind, c.edits) for c in one.causes] != [(CauseKind.INPUT, _numbers(found))] for one in shown):
        yield "does not name the edit as the cause"
    yield from _class_faults(edit, found)


def _numbers(found: Comparison) -> tuple[int, ...]:
    return tuple(one.number for one in found.edits)


def _class_faults(edit: Edit, found: Comparison) -> Iterator[str]:
    classes = {one.classed for one in found.differences}
    if edit.expected not in classes:
        yield f"is {', '.join(sorted(classes))} and not {edit.expected}"
    if edit.kind == "number" and edit.expected is LOOSENED:
        own = [one for one in found.differences if one.number is not None and not one.page]
        own = [one for one in own if "/limits/" not in one.identity]
        wrong = [one.identity for one in own if one.classed is not LOOSENED]
        if wrong:
            yield f"is loosened, but {wrong[0]} is not told so"
    if edit.told_as is not None and edit.told_as not in {one.kind for one in found.differences}:
        yield f"is not told as {edit.told_as}"
    if edit.kind in ("renamed", "title"):
        if len(found.differences) != 1:
            yield f"is told as {len(found.differences)} differences"
        if edit.kind == "renamed" and [one.kind for one in found.edits] != [EditKind.RENAMED]:
            yield "is not found as a rename in the inputs"


def main(arguments: list[str]) -> int:
    """Print the counts by kind of edit, and every fault."""
    wanted = int(arguments[0]) if arguments else 300
    seed = int(arguments[1]) if len(arguments) > 1 else 1
    judged, unread, wrong = Counter[str](), Counter[str](), Counter[str]()
    for edit in edits(seed):
        faults = faults_of(edit)
        if faults is None:
            unread[edit.kind] += 1
            continue
        judged[edit.kind] += 1
        for fault in faults:
            wrong[edit.kind] += 1
            print(f"{edit.kind} {edit.file} {'.'.join(map(str, edit.route))}: {fault}")
        if judged.total() == wanted:
            break
    for kind in sorted(judged):
        print(f"{kind:12} {judged[kind]:4} judged, {wrong[kind]} wrong, {unread[kind]} that cannot be read")
    print(
        f"{'all':12} {judged.total():4} judged, {wrong.total()} wrong, {unread.total()} that cannot be read"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
