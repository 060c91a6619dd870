"""The JSON Schema of records, from the classes that they are made of, and what may change in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from fractions import Fraction
from typing import Any

from procgen.release.codec import CLASS, LINES
from procgen.release.encoding import default_of
from procgen.release.forms import Choice, Many, Pairs, Row, form, is_record, slots
from procgen.results.record import FORMAT, Record
from procgen.units import UNITS, Quantity, Unit

Schema = dict[str, Any]

_TEXT: Schema = {"$ref": "#/definitions/text"}
_EXACT: Schema = {"$ref": "#/definitions/exact"}
_UNIT: Schema = {"$ref": "#/definitions/unit"}
_QUANTITY: Schema = {"$ref": "#/definitions/quantity"}
_BASE: Schema = {
    "text": {
        "description": "Text; markup of several lines as runs [first, how many] of the table of lines.",
        "anyOf": [
            {"type": "string"},
            {
                "type": "object",
                "properties": {LINES: {"type": "array", "items": {"$ref": "#/definitions/run"}}},
                "required": [LINES],
                "additionalProperties": False,
            },
        ],
    },
    "run": {"type": "array", "items": {"type": "integer", "minimum": 0}, "minItems": 2, "maxItems": 2},
    "exact": {
        "description": "An exact number: a whole one, or a fraction in lowest terms.",
        "type": "string",
        "pattern": "^-?[0-9]+(/[0-9]+)?$",
    },
    "unit": {"enum": list(UNITS)},
    "quantity": {
        "description": "An exact number, its unit, and the text it was written in where it was written.",
        "type": "object",
        "properties": {"exact": _EXACT, "unit": _UNIT, "written": {"type": "string"}},
        "required": ["exact", "unit"],
        "additionalProperties": False,
    },
}


def record_schema() -> Schema:
    """The JSON Schema (draft-07) of a manual record's document."""
    definitions: Schema = dict(_BASE)
    whole = _record(Record, definitions)
    definitions.pop(_name(Record))
    return {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "A manual record",
        "description": "What `procgen record` prints and a release holds. Generated from the record classes:"
        " run `procgen reference`.",
        **whole,
        "properties": {
            **whole["properties"],
            "format": {"const": FORMAT},
            LINES: {"type": "array", "items": {"type": "string"}},
        },
        "required": sorted([*whole["required"], "format", LINES]),
        "definitions": dict(sorted(definitions.items())),
    }


def _of(hint: Any, definitions: Schema) -> Schema:
    shape = form(hint)
    if isinstance(shape, Many):
        unique = {"uniqueItems": True} if shape.is_set else {}
        return {"type": "array", "items": _of(shape.item, definitions), **unique}
    if isinstance(shape, Row):
        return _row([_of(one, definitions) for one in shape.items])
    if isinstance(shape, Pairs):
        return {
            "type": "array",
            "items": _row([_of(shape.key, definitions), _of(shape.value, definitions)]),
        }
    if isinstance(shape, Choice):
        return _choice(shape, definitions)
    if is_record(shape):
        _record(shape, definitions)
        return {"$ref": f"#/definitions/{_name(shape)}"}
    return _plain(shape)


def _row(items: list[Schema]) -> Schema:
    return {"type": "array", "items": items, "minItems": len(items), "maxItems": len(items)}


def _choice(shape: Choice, definitions: Schema) -> Schema:
    ways = [_of(one, definitions) for one in (*shape.plain, *shape.others)]
    for record in shape.records:
        way = _of(record, definitions)
        if len(shape.records) > 1:
            # The class is named beside the fields, so the record is written out here once more.
            definition = definitions[_name(record)]
            way = {
                **definition,
                "properties": {CLASS: {"const": record.__name__}, **definition["properties"]},
                "required": [CLASS, *definition["required"]],
            }
        ways.append(way)
    if shape.none:
        ways.append({"type": "null"})
    return ways[0] if len(ways) == 1 else {"anyOf": ways}


def _plain(kind: type) -> Schema:
    if issubclass(kind, Enum):
        return {"enum": [member.value for member in kind]}
    by_kind = {
        str: _TEXT,
        bool: {"type": "boolean"},
        int: {"type": "integer"},
        Fraction: _EXACT,
        Unit: _UNIT,
        Quantity: _QUANTITY,
    }
    return by_kind[kind]


def _record(record: type, definitions: Schema) -> Schema:
    """The definition of a record class; put among the definitions, and returned."""
    name = _name(record)
    if name in definitions:
        found: Schema = definitions[name]
        return found
    definition: Schema = {
        "description": (record.__doc__ or "").split("\n")[0],
        "type": "object",
        "properties": {},
        "required": [slot.name for slot in slots(record) if not slot.has_default],
        "additionalProperties": False,
    }
    definitions[name] = definition
    for slot in slots(record):
        held = _of(slot.hint, definitions)
        if slot.has_default:
            # Beside a `$ref` nothing else counts in draft-07.
            held = {"allOf": [held]} if "$ref" in held else held
            held = {**held, "default": default_of(record)[slot.name]}
        definition["properties"][slot.name] = held
    return definition


def _name(record: type) -> str:
    """Modules keep classes of one name apart."""
    return f"{record.__module__.rpartition('.')[2]}.{record.__name__}"


def breaks(old: Mapping[str, Any], new: Mapping[str, Any], at: str = "") -> Iterator[str]:
    """What in a new schema could make a record of the old one unreadable, or read as something else.

    Nothing does that but what may be added: a field that has a default, a class, a word of a list, a
    member of a choice. Descriptions do not count.
    """
    for key in sorted(set(old) | set(new)):
        where = f"{at}/{key}"
        if key == "description":
            continue
        if at.endswith("/properties") or at == "/definitions":
            if key in old and key in new:
                yield from breaks(old[key], new[key], where)
            elif key in old:
                yield f"{where} is gone"
            elif at != "/definitions" and "default" not in new[key]:
                yield f"{where} is new and has no default"
        elif key in ("enum", "anyOf") and key in old and key in new:
            gone = [one for one in old[key] if one not in new[key] and not _grown(one, new[key])]
            yield from (f"{where}: {one} is gone" for one in gone)
        elif isinstance(old.get(key), Mapping) and isinstance(new.get(key), Mapping):
            yield from breaks(old[key], new[key], where)
        elif old.get(key) != new.get(key):
            yield f"{where} was {old.get(key)}, is {new.get(key)}"


def _grown(old: Any, among: list[Any]) -> bool:
    """Whether a member of a choice is there still, with nothing changed but what may be."""
    return isinstance(old, Mapping) and any(
        isinstance(new, Mapping) and not list(breaks(old, new, "/choice")) for new in among
    )
