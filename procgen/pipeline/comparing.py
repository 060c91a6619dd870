"""From two records to the differences between them."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.diff.compare import differences, seal
from procgen.results.difference import Difference
from procgen.results.record import Record


def sealed_differences(was: Record, now: Record) -> Sequence[tuple[Difference, str]]:
    """All that differs between two records, the gravest first, each with what an answer to it binds to."""
    rules = f"{now.made_by} {now.rules}"
    return [(one, seal(one, rules)) for one in differences(was.manual, now.manual)]
