"""Records for the tests: the demonstration's, made by the whole chain."""

from __future__ import annotations

from functools import cache

from procgen.pipeline.recording import record_of
from procgen.release import record_text
from procgen.results.record import Record
from tests.publish.sites import checked


@cache
def record(code: str) -> Record:
    """The record of one demonstration station."""
    return record_of(checked(), checked().network.stations[code])


@cache
def text(code: str) -> str:
    """Its canonical text."""
    return record_text(record(code))
