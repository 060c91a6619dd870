"""What a page of one hold says of the other holds of its aircraft: which is worked before which."""

from __future__ import annotations

from procgen.model.effectivity import applies_to
from procgen.model.words import Operation
from procgen.results.page import HoldSite, ProcedurePage, StationSite

OTHER_LOADS = "So for the full load of this manual: load control may give another order for its load."
TAIL_STAND = "With nothing forward a tail stand is needed: ask load control."


def order_words(site: StationSite, hold: HoldSite, page: ProcedurePage) -> str:
    """The order of the holds for an operation, where it is not all one; empty where it is, or unknown."""
    mine = _registrations(hold)
    said: dict[str, list[str]] = {}
    stem = f"{hold.hold.aircraft}-{page.operation}"
    for marks in dict.fromkeys(one.registrations for one in site.aircraft if one.name.startswith(stem)):
        if not marks or not mine or set(marks) & set(mine):
            words = _words(site, stem, marks, page.operation)
            said.setdefault(words, []).extend(mark for mark in marks if mark in mine)
    if len(said) < 2:
        return next(iter(said), "")
    return " ".join(f"{', '.join(marks)}: {words}" for words, marks in said.items() if words)


def _registrations(hold: HoldSite) -> tuple[str, ...]:
    """The aircraft that have the hold; none where the type's aircraft are not told apart."""
    of_type = hold.aircraft_type
    return () if of_type is None else applies_to(hold.hold.effectivity, of_type.registrations)


def _words(site: StationSite, stem: str, marks: tuple[str, ...], operation: Operation) -> str:
    sequences = {one.name: one for one in site.aircraft if one.matters and one.registrations == marks}
    name = f"{stem}-{marks[0]}" if marks else stem
    whole, alone = sequences.get(name), sequences.get(f"{name}-aft")
    said = [whole.verdict, OTHER_LOADS] if whole is not None else []
    if alone is not None and operation is Operation.LOADING:
        said.append(TAIL_STAND)
    return " ".join(said)
