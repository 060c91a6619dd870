"""The manual record: one station's manual, what it was made from, and what made it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from procgen.results.page import StationSite
from procgen.results.waived import Waived

FORMAT = 1
"""The number of the form in which records are written now."""


@dataclass(frozen=True, slots=True)
class Input:
    """A file that the manual was made from: its text, and the SHA-256 of that text in UTF-8."""

    text: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Record:
    """One station's whole manual. It holds no time but those in the data.

    `made_by` is the version of this program, `rules` the SHA-256 of its rule pages and hazard list.
    `waived` are the findings that stand answered by a waiver.
    `inputs` holds each file that the manual was made from, by the name that places in `manual` have.
    """

    manual: StationSite
    inputs: Mapping[str, Input]
    rules: str
    made_by: str
    format: int = field(default=FORMAT)
    waived: tuple[Waived, ...] = ()
