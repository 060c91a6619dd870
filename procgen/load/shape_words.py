"""What a schema finds wrong with the shape of a document, in our own words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import cast

from jsonschema.exceptions import ValidationError

from procgen.diagnostics import Place, Route
from procgen.load.commas import is_bare_number, parted_by_comma
from procgen.load.flow import flow
from procgen.load.log import Log
from procgen.load.words import listed, nearest, offer, offer_word, one_line, shown
from procgen.source.document import Data

_READ_LATER = ("quantity", "date", "source")
_ENTRIES = {"steps": "step", "lanes": "lane", "contacts": "contact"}
_TYPES = {
    "string": "text",
    "object": "a mapping",
    "array": "a list",
    "boolean": "true or false",
    "integer": "a whole number",
}


def put_in_words(errors: list[ValidationError], log: Log) -> None:
    """Note what is wrong, each mistake once."""
    _Translation(log).run(errors)


def is_of_another_type(error: ValidationError) -> bool:
    """Whether the value itself, not something in it, has another type."""
    return error.validator == "type" and not error.relative_path


def kind_of(error: ValidationError) -> object:
    """The `x-kind` of the schema that was not met."""
    return error.schema.get("x-kind") if isinstance(error.schema, Mapping) else None


def read_later(error: ValidationError) -> bool:
    """Whether the reader of the value finds the mistake, and says more about it."""
    kind = kind_of(error)
    if kind == "quantity":
        return error.validator == "pattern" or isinstance(error.instance, int)
    return kind in _READ_LATER and error.validator == "pattern"


class _Translation:
    """One run over the errors of one document."""

    def __init__(self, log: Log) -> None:
        self.log = log
        self.missing: set[tuple[Route, str]] = set()
        self.words: Mapping[object, Callable[[ValidationError], None]] = {
            "type": self._type,
            "anyOf": self._type,
            "required": self._required,
            "additionalProperties": self._additional,
            "enum": self._enum,
            "pattern": self._pattern,
            "minItems": self._count,
            "maxItems": self._count,
            "minProperties": self._empty,
            "maxProperties": self._too_many,
            "minLength": self._empty,
            "minimum": self._minimum,
        }

    def run(self, errors: list[ValidationError]) -> None:
        for error in errors:
            self.words.get(error.validator, self._other)(error)

    def _place(self, error: ValidationError) -> Place:
        return self.log.document.place(*error.absolute_path)

    def _head(self, error: ValidationError) -> Place:
        """The key that a mapping stands behind: pointing at a whole mapping helps nobody."""
        place = self._place(error)
        return place.key() if place.route else place

    def _type(self, error: ValidationError) -> None:
        expected, instance = _expected(error), cast(Data, error.instance)
        if instance is None:
            message = f"nothing stands behind {_what(error)}"
            way_out = f"{_way_out(error)}; a key that may be left out can be deleted instead"
            self.log.wrong("missing-value", message, self._head(error), way_out)
        elif expected == "text" and isinstance(instance, (bool, int)):
            text = str(instance).lower()
            self.log.wrong(
                "wrong-type",
                f"{_what(error)} is {shown(instance)} without quotes, but text belongs here",
                self._place(error),
                f'put it in quotes: "{text}"',
            )
        else:
            message = f"{_what(error)} is {shown(instance)}, but {expected} belongs here"
            self.log.wrong("wrong-type", message, self._place(error), _way_out(error))

    def _required(self, error: ValidationError) -> None:
        known, route = _properties(error), tuple(error.absolute_path)
        mapping = cast(dict[str, Data], error.instance)
        misspelt = {nearest(key, known) for key in mapping if key not in known}
        for key in cast(list[str], error.validator_value):
            if key in mapping or key in misspelt or (route, key) in self.missing:
                continue
            self.missing.add((route, key))
            self.log.wrong(
                "missing-key",
                f"{_what(error)} does not say its “{key}”",
                self._head(error),
                f"add “{key}”{_meaning(key, known[key])}",
            )

    def _additional(self, error: ValidationError) -> None:
        known = list(_properties(error))
        for key in cast(dict[str, Data], error.instance):
            here = self._place(error).child(key).key()
            if key in known:
                continue
            if kind_of(error) == "step":
                self.log.wrong("unknown-verb", f"no step does “{key}”", here, offer(key, known))
            elif (number := parted_by_comma(cast(Data, error.instance), key)) is not None:
                message = (
                    f"“{key}” is not a key of {_what(error)}; in braces a comma ends the entry before it"
                )
                self.log.wrong("unknown-key", message, here, f"write the decimal point as “.”: {number}")
            else:
                message = f"“{key}” is not a key of {_what(error)}"
                self.log.wrong("unknown-key", message, here, _instead(key, known))

    def _enum(self, error: ValidationError) -> None:
        words, instance = [str(word) for word in cast(list[object], error.validator_value)], error.instance
        if not isinstance(instance, str):
            return  # its type was found already
        way_out = f"write {words[0]}, or delete the key" if len(words) == 1 else offer_word(instance, words)
        message = f"{shown(instance)} is not one of the words for {_what(error)}"
        self.log.wrong("unknown-word", message, self._place(error), way_out)

    def _pattern(self, error: ValidationError) -> None:
        if kind_of(error) != "name":
            self._other(error)
            return
        name, place = str(error.instance), self._place(error)
        if isinstance(_at(self.log.document.data, place.route), dict):
            place = place.child(name).key()
        plain = "-".join(part for part in _plain(name).split("-") if part)
        self.log.wrong(
            "bad-name",
            f"“{one_line(name)}” is not a name that other parts can refer to",
            place,
            "use letters, digits and single hyphens" + (f", as in “{plain}”" if plain else ""),
        )

    def _count(self, error: ValidationError) -> None:
        has, needs = len(cast(list[Data], error.instance)), f"{error.validator_value}"
        if error.validator == "minItems" and "maxItems" not in cast(Mapping[str, object], error.schema):
            needs = f"at least {needs}"
        entries = "entry" if has == 1 else "entries"
        message = f"{_what(error)} has {has or 'no'} {entries}, but needs {needs}"
        bare = any(is_bare_number(entry) for entry in cast(list[Data], error.instance))
        comma = "; a comma parts entries, so write the decimal point as “.”" if bare else ""
        self.log.wrong("wrong-count", message, self._place(error), f"write {needs}{comma}")

    def _empty(self, error: ValidationError) -> None:
        way_out = f"{_way_out(error)}; what may be left out can be deleted instead"
        self.log.wrong("missing-value", f"{_what(error)} is empty", self._place(error), way_out)

    def _too_many(self, error: ValidationError) -> None:
        keys = list(cast(dict[str, Data], error.instance))
        rule, message = "wrong-count", f"{_what(error)} sets {len(keys)} controls: {listed(keys)}"
        if kind_of(error) == "step":
            rule, message = "two-verbs-in-step", f"one step has {len(keys)} verbs: {listed(keys)}"
        way_out = "write each action as a step of its own, with its own “- ”"
        self.log.wrong(rule, message, self._place(error).child(keys[1]).key(), way_out)

    def _minimum(self, error: ValidationError) -> None:
        least = error.validator_value
        message = f"{_what(error)} is {error.instance}, but at least {least} belongs here"
        self.log.wrong("number-too-small", message, self._place(error), f"write {least} or more")

    def _other(self, error: ValidationError) -> None:
        message = f"{_what(error)} has not the form that belongs here"
        self.log.wrong("wrong-type", message, self._place(error), "see the data reference")


def _what(error: ValidationError) -> str:
    """What the value is, by the key it stands behind."""
    path = list(error.absolute_path)
    if not path:
        return "the file"
    if isinstance(path[-1], int):
        behind = next((step for step in reversed(path) if isinstance(step, str)), "the list")
        if behind in _ENTRIES:
            return f"{_ENTRIES[behind]} {path[-1] + 1}"
        return f"number {path[-1] + 1} of “{behind}”"
    return f"“{path[-1]}”"


def _expected(error: ValidationError) -> str:
    types = [str(error.validator_value)]
    if error.validator == "anyOf":
        types = [str(inner.validator_value) for inner in error.context or [] if is_of_another_type(inner)]
    return " or ".join(_TYPES.get(name, name) for name in dict.fromkeys(types))


def _way_out(error: ValidationError) -> str:
    expected, instance = _expected(error), cast(Data, error.instance)
    if expected == "true or false" and isinstance(instance, str):
        return "write true or false, without quotes"
    if expected == "a list" and isinstance(instance, (str, int)):
        return f"write a list, as in {flow([part.strip() for part in str(instance).split(',')])}"
    if kind_of(error) == "step" and isinstance(instance, str):
        verb, _, rest = one_line(instance).partition(" ")
        if verb in _properties(error):
            return f"put a colon behind the verb: “{verb}: {rest}”"
    what = expected if error.validator in ("type", "anyOf") else "it"
    examples = cast(Mapping[str, list[object]], error.schema).get("examples", [])
    return f"write {what}, as in {flow(examples[0])}" if examples else f"write {what}"


def _instead(key: str, known: Sequence[str]) -> str:
    """What to write for a key that is not known."""
    word, _, rest = one_line(key).partition(" ")
    return f"put a colon behind it: “{word}: {rest}”" if word in known and rest else offer(key, known)


def _properties(error: ValidationError) -> Mapping[str, Mapping[str, object]]:
    schema = cast(Mapping[str, Mapping[str, Mapping[str, object]]], error.schema)
    return schema.get("properties", {})


def _meaning(key: str, schema: Mapping[str, object]) -> str:
    """What a key is for, and an example of it."""
    first = str(schema.get("description", "")).split(". ", 1)[0].rstrip(".")
    examples = cast(list[object], schema.get("examples", []))
    meaning = f": {first[:1].lower()}{first[1:]}" if first else ""
    return f"{meaning}, as in {key}: {flow(examples[0])}" if examples else meaning


def _plain(name: str) -> str:
    return "".join(letter if letter.isascii() and letter.isalnum() else "-" for letter in name)


def _at(data: Data, route: Route) -> Data:
    for step in route:
        if isinstance(data, dict) and isinstance(step, str):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int):
            data = data[step]
    return data
