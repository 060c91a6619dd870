"""What a page of one hold says of the other holds of its aircraft: which is worked before which."""

from __future__ import annotations

from procgen.model.words import Operation
from procgen.results.page import HoldSite, ProcedurePage, StationSite

OTHER_LOADS = "So for the full load of this manual: load control may give another order for its load."
TAIL_STAND = "With nothing forward a tail stand is needed: ask load control."


def order_words(site: StationSite, hold: HoldSite, page: ProcedurePage) -> str:
    """The order of the holds for an operation, where it is not all one; empty where it is, or unknown."""
    sequences = {one.name: one for one in site.aircraft if one.matters}
    name = f"{hold.hold.aircraft}-{page.operation}"
    whole, alone = sequences.get(name), sequences.get(f"{name}-aft")
    said = [whole.verdict, OTHER_LOADS] if whole is not None else []
    if alone is not None and page.operation is Operation.LOADING:
        said.append(TAIL_STAND)
    return " ".join(said)
