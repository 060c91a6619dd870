"""How an aircraft stands after each unit, as a table (limits.md, section 8)."""

from __future__ import annotations

from collections.abc import Sequence

from procgen.limits.figuring import whence
from procgen.limits.shown import shown
from procgen.model.words import Operation
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.results.stability import Gear, HoldOrder, Stance
from procgen.units import of

COLUMNS = ("on the nose gear", "nose gear share", "margin", "mass", "centre of gravity")
ONLY_KNOWN = (
    "Only what the description gives is aboard: the empty aircraft and the units; no fuel, no people."
)
MIDDLES = (
    "A unit counts with its whole mass, in the middle of its bay; on its way, in the aft-most bay that"
    " it passes."
)


def verdict(operation: Operation, order: HoldOrder) -> str:
    """What follows from an order, in a sentence for those who work the holds."""
    verb = "Load" if operation is Operation.LOADING else "Unload"
    names = ", then ".join(order.holds)
    crossed = order.crossed
    if crossed is not None:
        at = f"at “{crossed.step}”" if crossed.step else "before the first unit"
        if len(order.holds) < 2:
            return f"A tail stand is needed: the nose gear first carries too little {at}."
        return (
            "A tail stand is needed: no order of the holds does without. In the order shown, which stays"
            f" furthest from tipping, the nose gear first carries too little {at}."
        )
    if len(order.holds) == 1:
        return f"{verb} {names}: the nose gear carries enough throughout."
    if order.any_order:
        return (
            f"{verb} {names}: this order stays furthest from tipping. In any order of the holds the nose gear"
            " carries enough."
        )
    return (
        f"{verb} {names}. Finish one hold before the next: in some other orders the nose gear carries too"
        " little."
    )


def stability_table(
    name: str, title: str, gear: Gear, order: HoldOrder, remarks: Sequence[str] = ()
) -> FigureTable:
    """The stance before the first unit and after each one, in the order that was found."""
    rows = tuple(_row(gear, stance) for stance in order.stances)
    return FigureTable(
        name=name,
        title=title,
        heads=("step",),
        columns=COLUMNS,
        rows=rows,
        remarks=(ONLY_KNOWN, MIDDLES, *remarks),
    )


def _row(gear: Gear, stance: Stance) -> FigureRow:
    sources, places = whence([gear.least_share])
    share, least = of(stance.nose_share * 100, "%"), gear.least_share.quantity
    margin = of((stance.nose_share - least.si) * 100, "%")
    arm = of(gear.x_main.si - stance.centre.si, "m")
    words = f"({gear.x_main} − {shown(stance.centre)}) / {shown(gear.wheelbase)}"
    return FigureRow(
        (stance.step or "before the first unit",),
        (
            Figure(
                number=stance.nose_load,
                reckoning=f"{shown(stance.mass)} × {shown(arm)} / {shown(gear.wheelbase)}"
                f" = {shown(stance.nose_load)}",
            ),
            Figure(
                number=share,
                decimals=2,
                governs=f"at least {least}",
                reckoning=f"{words} = {share.down(2)}",
                met=stance.met,
                sources=sources,
                places=places,
            ),
            Figure(number=margin, decimals=2, reckoning=f"{share.down(2)} − {least}"),
            Figure(number=stance.mass),
            Figure(number=stance.centre, decimals=3),
        ),
    )
