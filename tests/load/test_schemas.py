"""The schemas are good draft-07, say what every key means, and let nothing unknown pass."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft7Validator
from referencing import Registry
from referencing.jsonschema import DRAFT7

from procgen.units import UNITS, Dimension
from tests.support import schemas

Schema = Any


def _objects(schema: Schema, at: str) -> Iterator[tuple[str, Schema]]:
    """Every part of a schema that is a mapping, examples apart."""
    if isinstance(schema, dict):
        yield at, schema
        for key, value in schema.items():
            if key != "examples":
                yield from _objects(value, f"{at}/{key}")
    elif isinstance(schema, list):
        for index, value in enumerate(schema):
            yield from _objects(value, f"{at}/{index}")


PARTS = [part for name, schema in schemas().items() for part in _objects(schema, name)]
PROPERTIES = [
    (f"{at}/{name}", inner)
    for at, part in PARTS
    if at.endswith("/properties")
    for name, inner in part.items()
]


@pytest.mark.parametrize("name", schemas())
def test_is_draft_07(name: str) -> None:
    schema: Schema = schemas()[name]
    assert schema["$schema"] == "http://json-schema.org/draft-07/schema#"
    Draft7Validator.check_schema(schema)


@pytest.mark.parametrize(("at", "schema"), PROPERTIES, ids=[at for at, _ in PROPERTIES])
def test_every_property_says_what_it_means_with_a_good_example(at: str, schema: Schema) -> None:
    assert schema["description"].endswith(".")
    resources = [(name, DRAFT7.create_resource(whole)) for name, whole in schemas().items()]
    file = at.split("/", 1)[0]
    registry: Registry[Any] = Registry().with_resources(resources)
    alone = _anchored(schema, file)
    for example in schema["examples"]:
        assert list(Draft7Validator(alone, registry=registry).iter_errors(example)) == []


def _anchored(schema: Schema, file: str) -> Schema:
    """The schema with the references inside its own file made references to that file."""
    if isinstance(schema, dict):
        return {
            key: f"{file}{value}" if key == "$ref" and value.startswith("#") else _anchored(value, file)
            for key, value in schema.items()
        }
    return [_anchored(item, file) for item in schema] if isinstance(schema, list) else schema


def test_no_mapping_lets_an_unknown_key_pass() -> None:
    for at, part in PARTS:
        if part.get("type") == "object":
            assert "additionalProperties" in part, at
            assert part["additionalProperties"] is not True, at
            if "properties" in part:
                assert part["additionalProperties"] is False, at


def test_quantities_name_all_units_of_their_dimension() -> None:
    definitions: Schema = schemas()["quantities.json"]
    for name, definition in definitions["definitions"].items():
        if definition.get("x-kind") == "quantity":
            dimension = Dimension(definition["x-dimension"])
            pattern = definition["pattern"].rsplit("(?:", 1)[1].rsplit(")", 1)[0]
            units = [unit.symbol for unit in UNITS.values() if unit.dimension is dimension]
            assert pattern.split("|") == units, name
            assert definition["x-units"] == units, name
