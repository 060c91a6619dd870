"""Differences as JSON, complete."""

from __future__ import annotations

from procgen.report.json_text import json_text
from procgen.report.places import Documents, place_data, shown_path
from procgen.results.difference import (
    Accepted,
    Difference,
    DifferenceClass,
    EditPlace,
    InputEdit,
    NumberChange,
    Reviewed,
    Side,
)
from procgen.results.difference_rows import answer_line
from procgen.units import Quantity


def differences_json(reviewed: Reviewed, was: Documents, now: Documents, root: str = "") -> str:
    """The whole review: counts, differences with both sides and causes, edits, what is owed and to whom."""
    comparison = reviewed.comparison
    data = {
        "was": comparison.was.label,
        "now": comparison.now.label,
        "hash": reviewed.hash,
        "rule_set": comparison.now.rule_set,
        "counts": {str(classed): comparison.count(classed) for classed in DifferenceClass},
        "owing": len(reviewed.owing),
        "approved": list(reviewed.approved),
        "differences": [_difference(one, reviewed, was, now, root) for one in comparison.differences],
        "edits": [_edit(one, one.number in comparison.idle, root) for one in comparison.edits],
    }
    return json_text(data)


def _difference(
    one: Difference, reviewed: Reviewed, was: Documents, now: Documents, root: str
) -> dict[str, object]:
    owing = one.identity in reviewed.owing
    accept = owing and bool(reviewed.answers) and one.classed is DifferenceClass.LOOSENED
    return {
        "identity": one.identity,
        "class": str(one.classed),
        "kind": str(one.kind),
        "subject": one.subject,
        "why": one.why,
        "hold": one.hold or None,
        "procedure": one.page or None,
        "was": _side(one.was, was, root),
        "now": _side(one.now, now, root),
        "number": _number(one.number),
        "causes": [{"kind": str(cause.kind), "edits": list(cause.edits)} for cause in one.causes],
        "owes": one.owes,
        "owing": owing,
        "accepted": [_accepted(each) for each in reviewed.accepted.get(one.identity, ())],
        "looked_at": [_accepted(each) for each in reviewed.looked.get(one.identity, ())],
        "accept_with": answer_line(one, reviewed.seals[one.identity]) if accept else None,
        "seal": reviewed.seals[one.identity],
        "marks": [{"page": a.page, "name": a.name, "element": a.element} for a in one.anchors],
    }


def _side(side: Side | None, documents: Documents, root: str) -> dict[str, object] | None:
    if side is None:
        return None
    place = place_data(side.place, documents, root) if side.place.file else None
    return {"text": side.text, "step": side.step or None, "place": place}


def _number(number: NumberChange | None) -> dict[str, object] | None:
    if number is None:
        return None
    share = number.share
    return {
        "was": _quantity(number.was),
        "now": _quantity(number.now),
        "change": _quantity(number.change),
        "share": str(share) if share is not None else None,
    }


def _quantity(quantity: Quantity) -> dict[str, str]:
    return {"exact": str(quantity.value), "unit": quantity.unit.symbol, "text": str(quantity)}


def _accepted(given: Accepted) -> dict[str, object]:
    return {
        "by": given.by,
        "date": given.date,
        "reason": given.reason,
        "revision": given.revision or None,
    }


def _edit(edit: InputEdit, idle: bool, root: str) -> dict[str, object]:
    return {
        "number": edit.number,
        "kind": str(edit.kind),
        "without_effect": idle,
        "places": [_place(place, root) for place in edit.places],
    }


def _place(place: EditPlace, root: str) -> dict[str, object]:
    return {
        "file": shown_path(place.file, root),
        "route": list(place.route),
        "was_file": shown_path(place.was_file or place.file, root) if place.was_line else None,
        "was_line": place.was_line or None,
        "now_line": place.now_line or None,
        "was": place.was,
        "now": place.now,
    }
