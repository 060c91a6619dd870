"""The phrase table: complete, and every template in words that leave nothing open."""

from __future__ import annotations

from string import Formatter
from typing import get_args

import pytest

from procgen.model.step import Push, Section, Step, Warn
from procgen.model.words import ControlKind, Operation, RestraintKind, SectionName, Travel
from procgen.write import phrases
from procgen.write.matching import verb
from procgen.write.phrases import Phrase
from tests.write.language import MODALS, sentences, words

BY_HAND = {
    "open": ("door", "panel"),
    "close": ("door", "panel"),
    "set": tuple(ControlKind),
    "raise": tuple(RestraintKind),
    "lower": tuple(RestraintKind),
    "fit": ("net",),
    "remove": ("net",),
}
"""The hand actions of the step form, and what each can be done to."""

IN_CODE = {"present", "drive", "push", "pull", "stow", "check", "report", "note"}
"""Verbs whose words depend on more than a kind; their templates are named constants."""


def _templates() -> dict[str, str]:
    """Every text of the table, by where it stands."""
    found: dict[str, str] = {}

    def add(name: str, value: object) -> None:
        if isinstance(value, str):
            found[name] = value
        elif isinstance(value, Phrase):
            for part in ("text", "done_when", "if_not"):
                add(f"{name}.{part}", getattr(value, part))
        elif isinstance(value, tuple):
            for number, part in enumerate(value):
                add(f"{name}.{number}", part)
        elif isinstance(value, dict):
            for key, part in value.items():
                add(f"{name}.{key}", part)

    for name, value in vars(phrases).items():
        if name.isupper():
            add(name, value)
    return found


TEMPLATES = _templates()


def test_every_verb_has_its_phrase() -> None:
    others = [kind for kind in get_args(Step) if kind not in (Section, Warn, Push)]
    verbs = {verb(object.__new__(kind)) for kind in others}
    verbs |= {verb(Push("u", 2, (), gear=gear)) for gear in (None, "strap")}
    assert verbs == set(BY_HAND) | IN_CODE
    for name, kinds in BY_HAND.items():
        for kind in kinds:
            assert (name, str(kind)) in phrases.HAND
        assert (name, "") in phrases.HAND
    assert set(phrases.BLOCKS) == set(SectionName)
    assert set(phrases.CYCLE) == set(Operation)
    assert set(phrases.DIRECTIONS) == set(Travel)


@pytest.mark.parametrize("name", TEMPLATES)
def test_a_template_is_plain(name: str) -> None:
    """Named fields only, so that a translator can put them in any order; nothing reckoned inside."""
    template = TEMPLATES[name]
    for _, field, spec, conversion in Formatter().parse(template):
        assert field is None or field.isidentifier()
        assert not spec
        assert not conversion
    for sentence in sentences(template):
        assert words(sentence) <= 20, sentence
        assert not MODALS.search(sentence), sentence


def test_instructions_start_with_their_verb() -> None:
    for (name, _), phrase in phrases.HAND.items():
        assert phrase.text.split()[0].lower() == name
        assert phrase.done_when == "" or phrase.done_when.startswith("Done when ")
