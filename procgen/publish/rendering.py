"""The templates, ready to be filled: Jinja with everything escaped, and our few filters."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from jinja2 import DictLoader, Environment, StrictUndefined

from procgen.publish.folds import bare, slotted
from procgen.publish.words import capital, heading, marked, plain


def environment(templates: Mapping[str, str]) -> Environment:
    """An environment over template texts by name. A name that a page does not have is a bug, not a blank."""
    return _compiled(tuple(sorted(templates.items())))


@lru_cache(maxsize=4)
def _compiled(templates: tuple[tuple[str, str], ...]) -> Environment:
    """The same templates are compiled once, however many stations they serve."""
    found = Environment(
        loader=DictLoader(dict(templates)),
        autoescape=True,
        undefined=StrictUndefined,
        keep_trailing_newline=True,
    )
    found.filters.update(
        marked=marked, heading=heading, capital=capital, plain=plain, bare=bare, slotted=slotted
    )
    return found


def source(environment: Environment, name: str) -> str:
    """A template's own text, not filled in: style sheets and scripts."""
    assert environment.loader is not None  # noqa: S101 - `environment` always gives one
    return environment.loader.get_source(environment, name)[0]
