"""How an aircraft stands after each unit, as a table (limits.md, section 8)."""

from __future__ import annotations

from procgen.limits.figuring import whence
from procgen.limits.shown import shown
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.results.stability import Gear, HoldOrder, Stance
from procgen.units import of

COLUMNS = ("on the nose gear", "nose gear share", "margin", "mass", "centre of gravity")
ONLY_KNOWN = (
    "Only what the description gives is aboard: the empty aircraft and the units; no fuel, no people."
)


def stability_table(name: str, title: str, gear: Gear, order: HoldOrder) -> FigureTable:
    """The stance before the first unit and after each one, in the order that was found."""
    rows = tuple(_row(gear, stance) for stance in order.stances)
    needed = ("No order of the holds keeps the share above the limit: a tail stand is needed.",)
    return FigureTable(
        name=name,
        title=title,
        heads=("step",),
        columns=COLUMNS,
        rows=rows,
        remarks=(ONLY_KNOWN, *(needed if order.tail_stand else ())),
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
