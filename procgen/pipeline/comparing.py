"""From two records to the differences between them."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.diff.compare import difference_hash, differences, seal
from procgen.results.difference import Comparison, Difference, Version
from procgen.results.record import Record


def sealed_differences(was: Record, now: Record) -> Sequence[tuple[Difference, str]]:
    """All that differs between two records, the gravest first, each with what an answer to it binds to."""
    rules = rules_of(now)
    return [(one, seal(one, rules)) for one in differences(was.manual, now.manual)]


def hash_of(found: Sequence[tuple[Difference, str]], now: Record) -> str:
    """What an approval of all these differences binds to; `procgen diff` shows its beginning."""
    side = Version("", now.manual, {}, rules_of(now))
    return difference_hash(Comparison(side, side, tuple(one for one, _ in found)))


def rules_of(record: Record) -> str:
    """The rules that a record's differences are found by: those of the check, and the program's version."""
    return f"{record.made_by} {record.rules}"
