"""A record made with another at hand: the same, without deriving again what is equal."""

from __future__ import annotations

from dataclasses import replace

import pytest

from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.pipeline import building
from procgen.pipeline.out_of_service import out_of_service_guide
from procgen.pipeline.recording import record_of
from procgen.release import read_record, record_text
from procgen.results.limits import LimitTable
from procgen.results.page import OutOfServiceGuide
from procgen.results.record import Record
from tests.publish.sites import checked
from tests.release.records import record, text


def _made(known: Record, monkeypatch: pytest.MonkeyPatch) -> tuple[Record, list[str]]:
    """The record made with another at hand, and the holds whose matrices were derived for it."""
    derived: list[str] = []
    real = out_of_service_guide

    def counted(
        network: Network, hold: Hold, worked: Hold, limits: LimitTable, mass_unit: str
    ) -> OutOfServiceGuide:
        derived.append(hold.name)
        return real(network, hold, worked, limits, mass_unit)

    monkeypatch.setattr(building, "out_of_service_guide", counted)
    return record_of(checked(), checked().network.stations["N4T"], known), derived


def test_what_is_equal_is_taken_from_the_record_at_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    made, derived = _made(read_record(text("N4T")), monkeypatch)
    assert derived == []
    assert record_text(made) == text("N4T")


def test_another_program_or_other_rules_take_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    every = [one.hold.name for one in record("N4T").manual.holds]
    for other in (replace(record("N4T"), made_by="0.0.0"), replace(record("N4T"), rules="0")):
        made, derived = _made(other, monkeypatch)
        assert derived == every
        assert record_text(made) == text("N4T")


def test_a_hold_of_which_anything_differs_is_derived_again(monkeypatch: pytest.MonkeyPatch) -> None:
    manual = record("N4T").manual
    first, *others = manual.holds
    page, *pages = first.pages
    titled = replace(first, pages=(replace(page, title="Another title"), *pages), recoveries=())
    known = replace(record("N4T"), manual=replace(manual, holds=(titled, *others)))
    made, derived = _made(known, monkeypatch)
    assert derived == [first.hold.name]
    assert record_text(made) == text("N4T")
