"""Check a document against its schema, and say what is wrong in our own words.

The schemas mark what this stage reads more closely with `x-kind`: quantities, dates, sources, names,
steps. Findings on quantities, dates and sources are made where they are read, not here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, cast

from jsonschema import Draft7Validator
from jsonschema.exceptions import ValidationError
from referencing import Registry
from referencing.jsonschema import DRAFT7

from procgen.diagnostics import Place, Route
from procgen.load.log import Log
from procgen.load.words import listed, nearest, offer, one_line, shown
from procgen.source.document import Data

_READ_LATER = ("quantity", "date", "source")
_TYPES = {
    "string": "text",
    "object": "a mapping",
    "array": "a list",
    "boolean": "true or false",
    "integer": "a whole number",
}


class Shapes:
    """The schemas, ready for use."""

    def __init__(self, schemas: Mapping[str, object]) -> None:
        resources = [(name, DRAFT7.create_resource(cast(Any, schema))) for name, schema in schemas.items()]
        registry: Registry[Any] = Registry().with_resources(resources)
        self._validators = {
            name: Draft7Validator(cast(Any, schema), registry=registry) for name, schema in schemas.items()
        }

    def check(self, name: str, log: Log) -> None:
        """Check the document of `log` against the schema `name`; note what is wrong there."""
        data = log.document.data
        if data is None:
            log.broken = True
            return
        errors = [*_leaves(self._validators[name].iter_errors(data))]
        _Translation(log, errors).run()


def _leaves(errors: Iterable[ValidationError]) -> Iterator[ValidationError]:
    """The errors that count: of alternatives, those of the one that was meant."""
    for error in errors:
        if error.validator == "anyOf":
            yield from _meant(error)
        else:
            yield error


def _meant(error: ValidationError) -> Iterator[ValidationError]:
    branches: dict[object, list[ValidationError]] = {}
    for inner in error.context or []:
        branches.setdefault(inner.schema_path[0], []).append(inner)
    for branch in branches.values():
        if not any(_is_of_another_type(inner) for inner in branch):
            yield from _leaves(branch)
            return
    tops = [inner for branch in branches.values() for inner in branch if _is_of_another_type(inner)]
    if not any(_kind(inner) in _READ_LATER for inner in tops):
        yield error


def _is_of_another_type(error: ValidationError) -> bool:
    return error.validator == "type" and not error.relative_path


def _kind(error: ValidationError) -> object:
    return error.schema.get("x-kind") if isinstance(error.schema, Mapping) else None


def _expected(error: ValidationError) -> str:
    if error.validator == "anyOf":
        types = [str(inner.validator_value) for inner in error.context or [] if _is_of_another_type(inner)]
        return " or ".join(_TYPES.get(name, name) for name in dict.fromkeys(types))
    return _TYPES.get(str(error.validator_value), str(error.validator_value))


class _Translation:
    """One run over the errors of one document."""

    def __init__(self, log: Log, errors: list[ValidationError]) -> None:
        self.log = log
        self.errors = errors
        self.missing: set[tuple[Route, str]] = set()

    def run(self) -> None:
        for error in self.errors:
            self.log.broken = True
            words = getattr(self, f"_{error.validator}", None)
            if words is None:
                self._other(error)
            else:
                words(error)

    def _place(self, error: ValidationError) -> Place:
        return self.log.document.place(*error.absolute_path)

    def _head(self, error: ValidationError) -> Place:
        """The key that a mapping stands behind: pointing at a whole mapping helps nobody."""
        place = self._place(error)
        return place.key() if place.route else place

    def _what(self, error: ValidationError) -> str:
        """What the value is, by the key it stands behind."""
        path = list(error.absolute_path)
        if not path:
            return "the file"
        if isinstance(path[-1], int):
            behind = next((step for step in reversed(path) if isinstance(step, str)), "list")
            return f"number {path[-1] + 1} of “{behind}”"
        return f"“{path[-1]}”"

    def _type(self, error: ValidationError) -> None:
        if _kind(error) in _READ_LATER and isinstance(error.instance, (int, str)):
            if _kind(error) != "quantity":
                self._quote(error)
            return
        if error.instance is None:
            self.log.wrong(
                "missing-value",
                f"nothing stands behind {self._what(error)}",
                self._head(error),
                f"write {_expected(error)}, or delete the key",
            )
        elif _expected(error) == "text" and isinstance(error.instance, (bool, int)):
            self._quote(error)
        else:
            self._wrong_type(error)

    def _anyOf(self, error: ValidationError) -> None:  # noqa: N802 - named like the keyword
        self._type(error)

    def _wrong_type(self, error: ValidationError) -> None:
        expected = _expected(error)
        way_out = f"write {expected}"
        if expected == "true or false" and isinstance(error.instance, str):
            way_out = "write true or false, without quotes"
        elif expected == "a list" and isinstance(error.instance, (str, int)):
            way_out = f"write a list, as in [{one_line(error.instance)}]"
        self.log.wrong(
            "wrong-type",
            f"{self._what(error)} is {shown(cast(Data, error.instance))}, but {expected} belongs here",
            self._place(error),
            way_out,
        )

    def _quote(self, error: ValidationError) -> None:
        text = "true" if error.instance is True else "false" if error.instance is False else error.instance
        self.log.wrong(
            "wrong-type",
            f"{self._what(error)} is {shown(cast(Data, error.instance))} without quotes, which is no text",
            self._place(error),
            f'put it in quotes: "{text}"',
        )

    def _required(self, error: ValidationError) -> None:
        mapping = cast(dict[str, Data], error.instance)
        route: Route = tuple(error.absolute_path)
        known = cast(Mapping[str, object], error.schema).get("properties", {})
        strays = [key for key in mapping if key not in cast(Mapping[str, object], known)]
        misspelt = {nearest(key, cast(Mapping[str, object], known)) for key in strays}
        for key in cast(list[str], error.validator_value):
            if key in mapping or key in misspelt or (route, key) in self.missing:
                continue
            self.missing.add((route, key))
            self.log.wrong(
                "missing-key",
                f"{self._what(error)} does not say its “{key}”",
                self._head(error),
                f"add “{key}: …”{_meaning(error, key)}",
            )

    def _additionalProperties(self, error: ValidationError) -> None:  # noqa: N802
        known = list(cast(Mapping[str, object], cast(Mapping[str, object], error.schema)["properties"]))
        is_step = _kind(error) == "step"
        for key in cast(dict[str, Data], error.instance):
            if key in known:
                continue
            here = self._place(error).child(key).key()
            if is_step:
                self.log.wrong("unknown-verb", f"no step does “{key}”", here, offer(key, known))
            else:
                message = f"“{key}” is no key of {self._what(error)}"
                self.log.wrong("unknown-key", message, here, offer(key, known))

    def _enum(self, error: ValidationError) -> None:
        words = [str(word) for word in cast(list[object], error.validator_value)]
        instance = error.instance
        if not isinstance(instance, str):
            return  # its type was found already
        message = f"{shown(instance)} is no word for {self._what(error)}"
        if len(words) == 1:
            self.log.wrong(
                "unknown-word", message, self._place(error), f"write {words[0]}, or delete the key"
            )
        else:
            self.log.wrong("unknown-word", message, self._place(error), offer(instance, words))

    def _pattern(self, error: ValidationError) -> None:
        kind = _kind(error)
        if kind == "name":
            self._bad_name(error)
        elif kind not in _READ_LATER:
            self._other(error)

    def _bad_name(self, error: ValidationError) -> None:
        name = str(error.instance)
        mapping = _at(self.log.document.data, tuple(error.absolute_path))
        place = self._place(error)
        if isinstance(mapping, dict):
            place = place.child(name).key()
        plain = "-".join(part for part in _plain(name).split("-") if part)
        self.log.wrong(
            "bad-name",
            f"“{one_line(name)}” is not a name that other parts can refer to",
            place,
            "use letters, digits and single hyphens" + (f", as in “{plain}”" if plain else ""),
        )

    def _minItems(self, error: ValidationError) -> None:  # noqa: N802
        self._count(error, f"at least {error.validator_value}")

    def _maxItems(self, error: ValidationError) -> None:  # noqa: N802
        self._count(error, f"{error.validator_value}")

    def _count(self, error: ValidationError, number: str) -> None:
        has = len(cast(list[Data], error.instance))
        self.log.wrong(
            "wrong-count",
            f"{self._what(error)} has {has or 'no'} {'entry' if has == 1 else 'entries'}, but needs {number}",
            self._place(error),
            f"write {number}",
        )

    def _minProperties(self, error: ValidationError) -> None:  # noqa: N802
        self.log.wrong(
            "missing-value",
            f"{self._what(error)} is an empty mapping",
            self._place(error),
            "write at least one entry",
        )

    def _maxProperties(self, error: ValidationError) -> None:  # noqa: N802
        keys = list(cast(dict[str, Data], error.instance))
        if _kind(error) == "step":
            self.log.wrong(
                "two-verbs-in-step",
                f"one step has {len(keys)} verbs: {listed(keys)}",
                self._place(error).child(keys[1]).key(),
                "write each action as a step of its own, with its own “- ”",
            )
        else:
            self.log.wrong(
                "wrong-count",
                f"{self._what(error)} has {len(keys)} entries ({listed(keys)}), but one belongs here",
                self._place(error).child(keys[1]).key(),
                "write each as a step of its own",
            )

    def _minLength(self, error: ValidationError) -> None:  # noqa: N802
        self.log.wrong(
            "missing-value",
            f"{self._what(error)} is empty",
            self._place(error),
            "write it, or delete the key",
        )

    def _minimum(self, error: ValidationError) -> None:
        self.log.wrong(
            "number-too-small",
            f"{self._what(error)} is {error.instance}, but at least {error.validator_value} belongs here",
            self._place(error),
            f"write {error.validator_value} or more",
        )

    def _other(self, error: ValidationError) -> None:
        self.log.wrong(
            "wrong-shape",
            f"{self._what(error)} has not the form that belongs here",
            self._place(error),
            "see the data reference",
        )


def _meaning(error: ValidationError, key: str) -> str:
    properties = cast(
        Mapping[str, Mapping[str, object]], cast(Mapping[str, object], error.schema)["properties"]
    )
    description = str(properties.get(key, {}).get("description", ""))
    return f" ({description[:1].lower()}{description[1:].rstrip('.')})" if description else ""


def _plain(name: str) -> str:
    return "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in name)


def _at(data: Data, route: Route) -> Data:
    for step in route:
        if isinstance(data, dict) and isinstance(step, str):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int):
            data = data[step]
    return data
