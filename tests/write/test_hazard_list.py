"""The packaged hazard list: reachable, sourced, short, and in words that leave nothing open."""

from __future__ import annotations

import re

import pytest

from procgen.model.hazard import CheckPhrase, Hazard
from procgen.model.step import Check, Warn
from procgen.model.words import SignalWord
from procgen.pipeline.recovering import CONDITIONS, REPORTS
from procgen.write.fields import ALWAYS_FILLED, FIELDS
from tests.support import demo
from tests.write.derived import demo_procedures
from tests.write.language import MODALS, condition_after_action, sentences, words

WAITING = {
    "pulling-by-hand": "no hold that these procedures are for allows moves by hand",
    "crushed-by-pushed-unit": "no hold that these procedures are for allows moves by hand",
    "crushed-by-pulled-unit": "no hold that these procedures are for has pulling gear",
    "freed-unit-pushed": "no hold that these procedures are for allows moves by hand",
    "net-under-load": "no hold of the demonstration has a net",
    "lifting-and-kneeling": "no hold of the demonstration is loaded by hand, piece by piece",
    "pieces-fall": "no hold of the demonstration is loaded by hand, piece by piece",
    "work-at-two-doors": "no hold of the demonstration has two doors",
}
"""Hazards that no procedure of the demonstration has a step for, and why."""

SOURCES = {
    "Commission Delegated Regulation (EU) 2025/20",
    "NFPA 407",
    "CASA exemptions",
    "NTSB CHI95LA049",
    "Israeli AIAI 2017",
    "14 CFR 121.135(b)",
    "OSHA 884478",
    "NTSB NYC99LA235",
    "TSB A06C0204",
    "OSHA 201127024",
    "ATSB AO-2009-034",
    "ATSB AR-2010-044",
    "TAIC 97-018",
    "AAIB G-CLNK (2021)",
    "AAIB bulletin, freighter",
    "OSHA airport ramp guidance",
    "ATSB AO-2016-145",
    "UK HSE SIM 05/2010/02",
    "common practice of the trade, no source",
}
"""The public documents named in the project's table of hazards."""

HAZARDS = demo().network.hazards


def test_every_hazard_is_reached_or_waits() -> None:
    warned = {step.hazard for p in demo_procedures() for step in p.steps if isinstance(step, Warn)}
    assert warned.isdisjoint(WAITING)
    assert warned | set(WAITING) | _half_way() == set(HAZARDS.hazards)


def test_every_check_and_report_is_used() -> None:
    required = {check.condition for hazard in HAZARDS.hazards.values() for check in hazard.checks}
    made = {step.condition for p in demo_procedures() for step in p.steps if isinstance(step, Check)}
    assert required | made | CONDITIONS == set(HAZARDS.checks)
    asked = {report for hazard in HAZARDS.hazards.values() for report in hazard.reports}
    assert asked | REPORTS == set(HAZARDS.reports)


def _half_way() -> set[str]:
    """The hazards of what is only done when something goes wrong."""
    matches = [(hazard.name, match) for hazard in HAZARDS.hazards.values() for match in hazard.comes_with]
    return {name for name, match in matches if match.conditions and match.conditions <= CONDITIONS}


@pytest.mark.parametrize("hazard", HAZARDS.hazards.values(), ids=lambda h: h.name)
def test_a_hazard_is_sourced_and_short(hazard: Hazard) -> None:
    assert set(hazard.source.split("; ")) <= SOURCES
    assert hazard.signal is SignalWord.WARNING  # every one of them injures
    for part in (hazard.hazard, hazard.consequence, hazard.avoid):
        assert part.endswith((".", ".”"))
        for sentence in sentences(part):
            assert words(sentence) <= 20, sentence
            assert not MODALS.search(sentence), sentence
    for sentence in sentences(hazard.avoid):
        assert not condition_after_action(sentence), sentence
    assert sum(words(part) for part in (hazard.hazard, hazard.consequence, hazard.avoid)) <= 50


@pytest.mark.parametrize("hazard", HAZARDS.hazards.values(), ids=lambda h: h.name)
def test_a_check_comes_with_its_hazard(hazard: Hazard) -> None:
    """A step that needs a hazard's check comes with the hazard in that operation: no check without it."""
    everywhere = {"loading", "unloading"}
    covered = set().union(*(match.operations or everywhere for match in hazard.comes_with))
    for check in hazard.checks:
        assert (check.before.operations or everywhere) <= covered
        assert check.after is None or check.after.operations == check.before.operations


@pytest.mark.parametrize(
    "phrase", [*HAZARDS.checks.values(), *HAZARDS.reports.values()], ids=lambda p: p.name
)
def test_a_phrase_is_one_short_instruction(phrase: CheckPhrase) -> None:
    verbs = r"(Check|Ask|Look|From outside, look|Compare|Call|Tell|Second person: name|Leave|Stay|Go)\b"
    assert re.match(verbs, phrase.text)
    assert len(sentences(phrase.text)) == 1
    for text in (phrase.text, phrase.done_when, phrase.if_not):
        assert set(re.findall(r"\{([^}]*)\}", text)) <= set(FIELDS)
        for sentence in sentences(text):
            assert words(sentence) <= 20, sentence
            assert not MODALS.search(sentence), sentence
            assert not condition_after_action(sentence), sentence
    assert phrase.done_when == "" or phrase.done_when.startswith("Done when ")
    # The instruction itself never depends on data that may be missing.
    assert set(re.findall(r"\{([^}]*)\}", phrase.text)) <= ALWAYS_FILLED
