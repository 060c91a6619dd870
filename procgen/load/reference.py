"""The data reference of the documentation, from the schemas: every key of every file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from procgen.load.flow import flow

Schema = Mapping[str, Any]

FILES = (
    "fleet.json",
    "hold.json",
    "station.json",
    "procedure.json",
    "answers.json",
    "hazards.json",
    "waivers.json",
)
_FORMS = "quantities.json"
_PLAIN = {"string": "text", "boolean": "`true` or `false`", "integer": "whole number"}
_HEAD = "| key | required | what stands there | meaning | example |\n|---|---|---|---|---|\n"

INTRODUCTION = """\
# Data reference

Every key of every file, from the schemas in `schemas/`. This page is generated: change the schema, then
run `procgen reference`.

Files are YAML, read strictly: text keys, lists, text, whole numbers, `true` and `false`. Text that other
readers of YAML take for something else (`on`, `no`, `010`, `12:30`, `1e3`) goes in quotes. There are no
anchors, tags, merge keys or second documents. A key that is not listed here is a finding.

`x` runs aft from the datum, `y` to the right of the centreline looking forward, `z` up from the hold
floor. Every quantity carries its unit. Every number that limits something names its source.
"""


@dataclass(frozen=True, slots=True)
class _Row:
    """One key of a table."""

    key: str
    required: bool
    schema: Schema


def data_reference(schemas: Mapping[str, object]) -> str:
    """The page `docs/data-reference.md`: a section for each kind of file, a table for each of its parts.

    `schemas` maps the names of the schema files to their parsed JSON.
    """
    whole: Mapping[str, Schema] = {name: _mapping(schema) for name, schema in schemas.items()}
    sections = [_Section(name, whole).text() for name in FILES]
    return "\n".join([INTRODUCTION, *sections, _forms(whole[_FORMS])])


def _mapping(schema: object) -> Schema:
    if not isinstance(schema, Mapping):
        raise TypeError("a schema is a JSON object")
    return schema


@dataclass(frozen=True, slots=True)
class _Section:
    """The section of one kind of file."""

    name: str
    schemas: Mapping[str, Schema]

    def text(self) -> str:
        """A heading, the keys of the file, then those of each part."""
        schema = self.schemas[self.name]
        parts = [f"## {schema['title']}\n", f"{schema['description']}\n", self.table(schema)]
        for name, definition in schema.get("definitions", {}).items():
            parts += [
                f"### {self._heading(name)}\n",
                f"{definition['description']}\n",
                self.table(definition),
            ]
        return "\n".join(parts)

    def _heading(self, part: str) -> str:
        return f"{self.schemas[self.name]['title']}: {part.replace('-', ' ')}"

    def table(self, schema: Schema) -> str:
        """A line for each key of a mapping."""
        return _HEAD + "".join(self._line(row) for row in self._rows(schema, ""))

    def _rows(self, schema: Schema, before: str) -> Iterator[_Row]:
        """The keys of a mapping; those of a mapping written inside it follow it."""
        required = schema.get("required", [])
        for key, inner in schema.get("properties", {}).items():
            yield _Row(f"{before}{key}", key in required, inner)
            for part in (inner, *inner.get("anyOf", [])):
                yield from self._rows(part, f"{before}{key}: ")

    def _line(self, row: _Row) -> str:
        example = f"`{flow(row.schema['examples'][0])}`"
        required = "yes" if row.required else ""
        cells = (f"`{row.key}`", required, self._kind(row.schema), row.schema["description"], example)
        return f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |\n"

    def _kind(self, schema: Schema) -> str:
        """What may stand behind a key, in words."""
        if "$ref" in schema:
            return self._link(schema["$ref"])
        if "allOf" in schema:
            return self._kind(schema["allOf"][0])
        if "anyOf" in schema:
            return ", or ".join(dict.fromkeys(self._kind(part) for part in schema["anyOf"]))
        if "enum" in schema:
            return " or ".join(f"`{word}`" for word in schema["enum"])
        if schema.get("type") == "array":
            return f"list of {self._kind(schema['items'])}"
        if schema.get("type") == "object":
            return self._mapping_kind(schema)
        return _PLAIN[schema["type"]]

    def _mapping_kind(self, schema: Schema) -> str:
        entries = schema.get("additionalProperties")
        if isinstance(entries, Mapping):
            return f"mapping of names to {self._kind(entries)}"
        return "mapping"

    def _link(self, ref: str) -> str:
        file, _, fragment = ref.partition("#/definitions/")
        words = fragment.replace("-", " ")
        told_in = file or self.name
        heading = f"Form: {words}" if told_in == _FORMS else f"{self.schemas[told_in]['title']}: {words}"
        return f"[{words}](#{_anchor(heading)})"


def _anchor(heading: str) -> str:
    """The anchor that Markdown renderers give a heading."""
    kept = "".join(letter for letter in heading.lower() if letter.isalnum() or letter in " -")
    return kept.replace(" ", "-")


def _forms(schema: Schema) -> str:
    """The section of the forms that all kinds of file share."""
    parts = [f"## {schema['title']}\n", f"{schema['description']}\n"]
    for name, definition in schema["definitions"].items():
        examples = ", or ".join(f"`{flow(example)}`" for example in definition.get("examples", []))
        parts.append(f"### Form: {name.replace('-', ' ')}\n")
        units = _units(definition)
        parts.append(definition["description"] + (f" Units: {units}." if units else "") + "\n")
        if examples:
            parts.append(f"Example: {examples}.\n")
        if "properties" in definition:
            parts.append(_Section(_FORMS, {_FORMS: schema}).table(definition))
    return "\n".join(parts)


def _units(definition: Schema) -> str:
    if definition.get("x-kind") != "quantity":
        return ""
    return ", ".join(f"`{unit}`" for unit in definition["x-units"])
