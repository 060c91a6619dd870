"""Check a document against its schema.

The schemas mark with `x-kind` what this stage reads more closely: quantities, dates, sources, names,
steps. What is wrong inside a quantity, date or source is found where it is read, not here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, cast

from jsonschema import Draft7Validator
from jsonschema.exceptions import ValidationError
from referencing import Registry
from referencing.jsonschema import DRAFT7

from procgen.load.log import Log
from procgen.load.shape_words import is_of_another_type, put_in_words, read_later


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
        if log.document.data is None:
            return
        put_in_words([*_leaves(self._validators[name].iter_errors(log.document.data))], log)
        log.shape_checked()


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
