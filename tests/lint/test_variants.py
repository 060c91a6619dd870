"""Every aircraft has each hold of its type once, or somebody is told."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from procgen.lint import check_data
from procgen.model.effectivity import Configuration, Effectivity, Registered
from procgen.model.station import Network
from procgen.pipeline.outfits import has, outfits
from tests.whole_check import example_files, findings_of

RULES = {"variants-overlap", "registration-without-hold", "effectivity-empty"}
CONFIGURATIONS = ("C-1", "C-2", "C-3")
MARKS = ("Q1-A1", "Q1-A2", "Q1-A3", "Q1-A4")

EFFECTIVITIES = st.none() | st.builds(
    Effectivity,
    st.lists(st.sampled_from(CONFIGURATIONS), unique=True, max_size=2).map(tuple),
    st.lists(st.sampled_from(MARKS), unique=True, max_size=2).map(tuple),
)


@cache
def _network() -> Network:
    return findings_of(example_files())[0].network


@settings(max_examples=60, deadline=None)
@given(
    st.dictionaries(st.sampled_from(MARKS), st.sampled_from(CONFIGURATIONS)),
    st.lists(EFFECTIVITIES, min_size=1, max_size=3),
)
def test_every_registration_has_one_variant_or_there_is_a_finding(
    configured: dict[str, str], stated: list[Effectivity | None]
) -> None:
    base = _network()
    aircraft = replace(
        base.aircraft["FINCH-90"],
        configurations={name: Configuration(name, name) for name in CONFIGURATIONS},
        registrations={mark: Registered(mark, name) for mark, name in configured.items()},
    )
    two = base.holds["TWO"]
    variants = [
        replace(two, name=f"TWO{n or ''}", variant_of="TWO" if n else "", effectivity=one)
        for n, one in enumerate(stated)
    ]
    holds = {hold.name: hold for hold in variants}
    network = replace(base, aircraft={"FINCH-90": aircraft}, holds=holds, stations={})
    found = {finding.rule for finding in check_data(network)} & RULES
    counts = [sum(has(one, hold) for hold in variants) for one in aircraft.registrations.values()]
    unsaid_twice = len(variants) > 1 and any(hold.effectivity is None for hold in variants)
    idle = any(
        hold.effectivity is not None and not any(has(one, hold) for one in aircraft.registrations.values())
        for hold in variants
    )
    sound = all(count == 1 for count in counts) and not unsaid_twice and not idle
    assert bool(found) is not sound, (found, counts)
    if sound and counts:
        groups = outfits(aircraft, variants)
        assert [mark for group in groups for mark in group.registrations if len(group.holds) == 1]
        assert sorted(mark for group in groups for mark in group.registrations) == sorted(configured)
