"""The out-of-service matrix of a hold in words, as its pages and cards show it; what is said alike once."""

from __future__ import annotations

import hashlib
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import TypeVar

from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import OutOfService, Procedure
from procgen.pipeline.matrix import matrix
from procgen.report.matrix import messages
from procgen.report.plans import step_words
from procgen.results.limits import LimitTable
from procgen.results.matrix import Answer, Matrix, MatrixCell, MatrixRow, told_apart
from procgen.results.missing import MissingCell
from procgen.results.out_of_service import without
from procgen.results.page import (
    ItemAnswer,
    ItemOutOfService,
    LeftLimit,
    OutOfServiceGuide,
    PageStep,
    PageWarning,
    ShortBlock,
    ShortProcedure,
)
from procgen.write import page

Thing = TypeVar("Thing", bound=Hashable)

_MADE: dict[str, OutOfServiceGuide] = {}
_MOST = 32
"""How many guides are kept. Two stations with one hold, and the two sides of a comparison, share them."""


def out_of_service_guide(
    network: Network, hold: Hold, worked: Hold, limits: LimitTable, mass_unit: str
) -> OutOfServiceGuide:
    """What becomes of every position of `hold` with any one item out of service.

    `worked` is the hold as a station works it, by which the short procedures are worded. The guide follows
    from what it is asked of and from nothing else, so it is made once.
    """
    asked = (hold, worked, limits, network.unit_types, network.hazards, mass_unit)
    key = hashlib.sha256(repr(asked).encode("utf-8", "surrogateescape")).hexdigest()
    if key not in _MADE:
        made = guide_of(network, matrix(network, hold), worked, limits, mass_unit)
        while len(_MADE) >= _MOST:
            del _MADE[next(iter(_MADE))]
        _MADE[key] = made
    return _MADE[key]


def guide_of(
    network: Network, found: Matrix, worked: Hold, limits: LimitTable, mass_unit: str
) -> OutOfServiceGuide:
    """A matrix in words: positions that are answered alike together, each distinct procedure once."""
    making = _Guide(network, worked, limits, mass_unit, found)
    items = tuple(
        ItemOutOfService(row.out.item, row.out.failure, row.words, tuple(making.answers(row)))
        for row in found.rows
    )
    return OutOfServiceGuide(
        items, tuple(making.procedures), tuple(making.steps), tuple(making.warnings), tuple(making.texts)
    )


@dataclass(slots=True)
class _Guide:
    """One guide in the making: tables by what stands in them, in the order in which it came."""

    network: Network
    hold: Hold
    limits: LimitTable
    mass_unit: str
    matrix: Matrix
    procedures: dict[ShortProcedure, int] = field(default_factory=dict)
    steps: dict[PageStep, int] = field(default_factory=dict)
    warnings: dict[PageWarning, int] = field(default_factory=dict)
    texts: dict[str, int] = field(default_factory=dict)
    _numbers: dict[str, int] = field(default_factory=dict)

    def answers(self, row: MatrixRow) -> Iterator[ItemAnswer]:
        """The answers of a row, positions that are answered alike together, in their first one's place."""
        groups: dict[ItemAnswer, list[str]] = {}
        for cell in row.cells:
            groups.setdefault(self._answer(cell, row.out), []).append(cell.position)
        for told, positions in groups.items():
            yield replace(told, positions=tuple(positions))

    def _answer(self, cell: MatrixCell, out: OutOfService) -> ItemAnswer:
        """What a cell says, but for its position."""
        alone, together = cell.alone, cell.together
        told = ItemAnswer(
            cell.operation,
            (),
            cell.answers,
            crew=max(one.crew or 0 for one in (alone, together)),
            limits=tuple(_left(limit) for limit in cell.limits),
        )
        if cell.procedure and cell.answer is not Answer.NOT_USABLE:
            # What cannot be worked has none, though the rest of its load may have one.
            told = replace(told, procedure=self._procedure(cell.procedure, out))
        if not alone.workable:
            return replace(told, reasons=self._said(messages(alone.reasons, cell.position)))
        unusable = [reason for limit in cell.limits if not limit.usable for reason in limit.cell.reasons]
        shown = together if alone.same else alone
        left_out, put_in = told_apart(shown.left_out, shown.put_in)
        return replace(
            told,
            left_out=self._said(step_words(step, self.hold) for step in left_out),
            put_in=self._said(step_words(step, self.hold) for step in put_in),
            reasons=self._said(dict.fromkeys(unusable)),
            only_alone=self._said(messages(together.reasons, cell.position)),
        )

    def _said(self, texts: Iterable[str]) -> tuple[int, ...]:
        return tuple(_number(self.texts, text) for text in texts)

    def _procedure(self, name: str, out: OutOfService) -> int:
        if name not in self._numbers:
            self._numbers[name] = _number(self.procedures, self._short(self.matrix.procedures[name], out))
        return self._numbers[name]

    def _short(self, procedure: Procedure, out: OutOfService) -> ShortProcedure:
        said = page(
            procedure,
            without(self.hold, [out]),
            self.network.unit_types,
            self.network.hazards,
            self.limits,
            mass_unit=self.mass_unit,
        )
        blocks = tuple(
            ShortBlock(
                block.title,
                block.intro,
                tuple(_number(self.warnings, warning) for warning in block.warnings),
                tuple(_number(self.steps, _bare(step)) for step in block.steps),
            )
            for block in said.blocks
        )
        head = tuple(_number(self.warnings, warning) for warning in said.warnings)
        return ShortProcedure(procedure.name, said.title, procedure.operation, head, blocks, said.units)


def _bare(step: PageStep) -> PageStep:
    """A step as it reads; where it stands in its own page does not count."""
    return replace(step, number=0, index=0, cause=None, step=None)


def _left(limit: MissingCell) -> LeftLimit:
    before, after = limit.whole.governing, limit.cell.governing
    if before is None:
        raise ValueError(f"{limit.whole.position} carried no {limit.whole.unit_type} before")
    if after is None:
        return LeftLimit(limit.whole.unit_type, before.mass)
    return LeftLimit(limit.whole.unit_type, before.mass, after.mass, after.title)


def _number(table: dict[Thing, int], thing: Thing) -> int:
    return table.setdefault(thing, len(table))
