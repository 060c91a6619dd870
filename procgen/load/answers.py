"""The reader of a station's answers to differences."""

from __future__ import annotations

from procgen.load.node import Node
from procgen.model.answer import Answer


def answers(root: Node) -> tuple[Answer, ...]:
    """Every answer of one file, in the order they were written."""
    return tuple(_answer(one) for one in root["answers"].elements())


def _answer(node: Node) -> Answer:
    return Answer(
        difference=node["difference"].text(),
        seal=node["seal"].text(),
        by=node["by"].text(),
        date=node["date"].date(),
        reason=node["reason"].text(),
        place=node.place,
    )
