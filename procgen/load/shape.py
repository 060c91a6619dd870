"""Check a document against its schema.

The schemas mark with `x-kind` what this stage reads more closely: quantities, dates, sources, names,
steps. What is wrong inside a quantity, date or source is found where it is read, not here.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any, cast

from jsonschema import Draft7Validator
from jsonschema.exceptions import ValidationError
from referencing import Registry
from referencing.jsonschema import DRAFT7

from procgen.load.log import Log
from procgen.load.shape_words import is_of_another_type, put_in_words, read_later

_MOST_SOUND = 256


class Shapes:
    """The schemas, ready for use. A file's text that was found sound is not checked against one again."""

    def __init__(self, schemas: Mapping[str, object]) -> None:
        resources = [(name, DRAFT7.create_resource(cast(Any, schema))) for name, schema in schemas.items()]
        registry: Registry[Any] = Registry().with_resources(resources)
        self._validators = {
            name: Draft7Validator(cast(Any, schema), registry=registry) for name, schema in schemas.items()
        }
        self._sound: dict[tuple[str, str], None] = {}

    def check(self, name: str, log: Log) -> bool:
        """Check the document of `log` against a schema; note what is wrong, say whether nothing is."""
        if log.document.data is None:
            return False
        errors = [*_leaves(self._validators[name].iter_errors(log.document.data))]
        put_in_words(errors, log)
        log.shape_checked()
        return not errors

    def check_file(self, name: str, log: Log) -> None:
        """Check a document that holds what its text says, save its waivers; remember what was sound."""
        key = (name, log.document.text)
        if key in self._sound:
            log.shape_checked()
        elif self.check(name, log):
            if len(self._sound) >= _MOST_SOUND:
                self._sound.clear()
            self._sound[key] = None


def shapes_of(schemas: Mapping[str, object]) -> Shapes:
    """The schemas made ready; once for the same schemas, since that takes as long as checking by them."""
    return _shapes(json.dumps(schemas, sort_keys=True))


@lru_cache(maxsize=4)
def _shapes(schemas: str) -> Shapes:
    return Shapes(json.loads(schemas))


def _leaves(errors: Iterable[ValidationError]) -> Iterator[ValidationError]:
    """The errors that count: of alternatives, those of the one that was meant."""
    for error in errors:
        if error.validator == "anyOf":
            yield from _meant(error)
        elif not read_later(error):
            yield error


def _meant(error: ValidationError) -> Iterator[ValidationError]:
    """The errors of the alternative whose type the value has; the whole error where none has it."""
    branches: dict[object, list[ValidationError]] = {}
    for inner in error.context or []:
        branches.setdefault(inner.schema_path[0], []).append(inner)
    for branch in branches.values():
        if not any(is_of_another_type(inner) for inner in branch):
            yield from _leaves(branch)
            return
    if not any(read_later(inner) for branch in branches.values() for inner in branch):
        yield error
