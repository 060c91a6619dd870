"""Records for the tests: the demonstration's, made by the whole chain."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from procgen.pipeline.recording import basis_of
from procgen.release import record_text
from procgen.results.record import Record
from tests.publish.sites import checked, site


@cache
def record(code: str) -> Record:
    """The record of one demonstration station: all of it at N4T; K1B's without what takes long to find there.

    Those are its ways out of mishaps and its matrices: N4T has them too.
    """
    return replace(basis_of(checked(), checked().network.stations[code]), manual=site(code))


@cache
def text(code: str) -> str:
    """Its canonical text."""
    return record_text(record(code))
