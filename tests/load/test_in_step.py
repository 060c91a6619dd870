"""Schemas, readers and records stay in step: no key that nothing reads, no field that nothing feeds."""

from __future__ import annotations

import dataclasses
import inspect
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import pytest

from procgen.load import Loaded
from procgen.load.node import Node
from procgen.model import answer, effectivity, hazard, hold, loads, station, step, unit
from procgen.source import read_document
from procgen.source.document import Data
from tests.load.full import FILES, HAZARDS, SCHEMA_OF
from tests.support import load_texts, schemas

Pointer = tuple[str, ...]
Schema = Any
NOT_AUTHORED = {("Procedure", "generated"): "says of a plan that it was derived"}


def _full() -> Loaded:
    return load_texts(FILES, HAZARDS)


def test_the_full_description_has_no_finding() -> None:
    assert _full().findings == ()


def _keys(data: Data, route: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(data, dict):
        for key, value in data.items():
            yield (*route, key)
            yield from _keys(value, (*route, key))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from _keys(value, (*route, index))


def test_every_key_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    read: set[tuple[str, tuple[str | int, ...]]] = set()
    get = Node.__getitem__

    def note(self: Node, key: str) -> Node:
        value = get(self, key)
        read.add((value.place.file, value.place.route))
        return value

    monkeypatch.setattr(Node, "__getitem__", note)
    loaded = _full()
    for file, document in loaded.documents.items():
        unread = [route for route in _keys(document.data) if (file, route) not in read]
        assert unread == [], file


def _resolve(schema: Schema, file: str) -> tuple[Schema, str, Pointer]:
    """Follow a reference: the schema, its file and its place in it."""
    target_file, _, fragment = schema["$ref"].partition("#/")
    file = target_file or file
    found: Schema = schemas()[file]
    for part in fragment.split("/"):
        found = found[part]
    return found, file, tuple(fragment.split("/"))


def _used(schema: Schema, file: str, at: Pointer, data: Data) -> Iterator[tuple[str, Pointer]]:
    """The properties of the schemas that a value uses."""
    if "$ref" in schema:
        yield from _used(*_resolve(schema, file), data)
        return
    for word in ("allOf", "anyOf"):
        for index, part in enumerate(schema.get(word, [])):
            yield from _used(part, file, (*at, word, str(index)), data)
    if isinstance(data, list) and "items" in schema:
        for item in data:
            yield from _used(schema["items"], file, (*at, "items"), item)
    if isinstance(data, dict):
        for key, value in data.items():
            if key in schema.get("properties", {}):
                here = (*at, "properties", key)
                yield file, here
                yield from _used(schema["properties"][key], file, here, value)
            elif isinstance(schema.get("additionalProperties"), dict):
                yield from _used(schema["additionalProperties"], file, (*at, "additionalProperties"), value)


def _properties(schema: Schema, at: Pointer = ()) -> Iterator[Pointer]:
    """The properties that a schema has."""
    for key, value in schema.items():
        if key == "examples":
            continue
        if key == "properties":
            for name, inner in value.items():
                yield (*at, key, name)
                yield from _properties(inner, (*at, key, name))
        elif isinstance(value, dict):
            yield from _properties(value, (*at, key))
        elif isinstance(value, list):
            for index, inner in enumerate(value):
                if isinstance(inner, dict):
                    yield from _properties(inner, (*at, key, str(index)))


def test_every_property_of_the_schemas_is_used() -> None:
    used: set[tuple[str, Pointer]] = set()
    for file, document in _full().documents.items():
        name = SCHEMA_OF[file]
        used.update(_used(schemas()[name], name, (), document.data))
    raw, _ = read_document("T1A/station.yaml", FILES["T1A/station.yaml"])
    assert isinstance(raw.data, dict)
    waived: Data = {"waive": raw.data["waive"]}  # taken out of the documents before they are read
    used.update(_used(schemas()["waivers.json"], "waivers.json", (), waived))
    for name, schema in schemas().items():
        unused = [pointer for pointer in _properties(schema) if (name, pointer) not in used]
        assert unused == [], name


def _records(value: object) -> Iterator[object]:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        yield value
        for field in dataclasses.fields(value):
            yield from _records(getattr(value, field.name))
    elif isinstance(value, (tuple, frozenset)):
        for item in value:
            yield from _records(item)
    elif isinstance(value, dict):
        yield from _records(tuple(value.values()))


@pytest.mark.parametrize(
    "module",
    [answer, effectivity, hazard, hold, loads, station, step, unit],
    ids=lambda module: module.__name__,
)
def test_every_field_of_every_record_is_fed(module: ModuleType) -> None:
    records = list(_records((_full().network, _full().answers)))
    kinds = [
        kind for _, kind in inspect.getmembers(module, inspect.isclass) if kind.__module__ == module.__name__
    ]
    for kind in filter(dataclasses.is_dataclass, kinds):
        mine = [record for record in records if type(record) is kind]
        assert mine, f"{kind.__name__} is never built"
        for field in dataclasses.fields(kind):
            if field.default is dataclasses.MISSING or (kind.__name__, field.name) in NOT_AUTHORED:
                continue
            fed = any(getattr(record, field.name) != field.default for record in mine)
            assert fed, f"{kind.__name__}.{field.name} is never fed"


def test_every_waiver_is_read_with_every_field() -> None:
    (read,) = _full().waivers
    assert (read.rule, read.reason, read.by) == ("unknown-key", "None.", "A. Writer")
    assert (read.until, read.approver) == ("2030-01-01", "B. Chief")
    assert read.over.file == "T1A/station.yaml"
    assert read.over.route == ()
