"""Two versions side by side: the steps of their procedures aligned, and their plan views."""

from __future__ import annotations

from dataclasses import dataclass

from procgen.results.difference import Reviewed
from procgen.results.page import PageStep


@dataclass(frozen=True, slots=True)
class AlignedStep:
    """A step of either side and the one that it is on the other; `part` is the title of its block.

    `was_view` and `now_view` are drawings of the moment, empty where both show the same.
    """

    part: str
    was: PageStep | None
    now: PageStep | None
    identities: tuple[str, ...] = ()
    was_view: str = ""
    now_view: str = ""


@dataclass(frozen=True, slots=True)
class AlignedPage:
    """A procedure of both sides, step by step."""

    name: str
    title: str
    steps: tuple[AlignedStep, ...]


@dataclass(frozen=True, slots=True)
class AlignedHold:
    """A hold of both sides. The views are empty where nothing that they show differs.

    `symbols` is what the drawings of steps need on their page, the older side's under names of their own.
    """

    name: str
    title: str
    was_view: str
    now_view: str
    symbols: str
    pages: tuple[AlignedPage, ...]


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Everything that the comparison page shows."""

    reviewed: Reviewed
    holds: tuple[AlignedHold, ...]
