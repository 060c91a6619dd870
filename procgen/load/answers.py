"""The reader of a station's answers to differences."""

from __future__ import annotations

from procgen.load.node import Node
from procgen.model.answer import Answer


def answers(root: Node) -> tuple[Answer, ...]:
    """Every answer of one file, in the order they were written."""
    return tuple(_answer(one) for one in root["answers"].elements())


_BLANKS = {"by": ("NAME", "the person who accepts it"), "reason": ("WHY", "why it may be so")}
"""What stands for a person and a reason in the lines that are printed to be filled in."""


def _answer(node: Node) -> Answer:
    for key, (blank, meant) in _BLANKS.items():
        if node[key].data == blank:
            node.log.wrong(
                "missing-value",
                f"“{key}” still says {blank}",
                node[key].place,
                f"write {meant}: no blank answers",
            )
    return Answer(
        difference=node["difference"].text(),
        seal=node["seal"].text(),
        by=node["by"].text(),
        date=node["date"].date(),
        reason=node["reason"].text(),
        place=node.place,
    )
