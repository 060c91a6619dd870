"""How long a procedure takes (limits.md, section 9): path over speed, and a station's allowances.

Work is done one piece after another; a time is a demand, shown rounded up.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from procgen.limits.shown import shown
from procgen.model.loads import Allowances
from procgen.results.figures import Figure, FigureRow, FigureTable
from procgen.results.work import Work, WorkKind
from procgen.units import Quantity, of

NO_ALLOWANCES = "The station states no allowances."
_REMARKS = (
    "One piece of work comes after another. Each look at an item counts as a check; warnings and reports take"
    " no time.",
)


def times_table(name: str, title: str, work: Sequence[Work], allowances: Allowances | None) -> FigureTable:
    """The time of each cycle by kind of work, and of all; without allowances there are no rows."""
    kinds = [kind for kind in WorkKind if any(one.kind is kind for one in work)]
    cycles = list(dict.fromkeys(one.cycle for one in work))
    rows: list[FigureRow] = []
    if allowances is not None:
        rows = [
            _row(cycle, [one for one in work if one.cycle == cycle], kinds, allowances) for cycle in cycles
        ]
        rows.append(_row("in all", work, kinds, allowances))
    return FigureTable(
        name=name,
        title=title,
        heads=("part or unit",),
        columns=(*(kind.value for kind in kinds), "in all"),
        rows=tuple(rows),
        remarks=_REMARKS if rows else (NO_ALLOWANCES,),
    )


def _row(cycle: str, work: Sequence[Work], kinds: Sequence[WorkKind], allowances: Allowances) -> FigureRow:
    figures = [_figure([one for one in work if one.kind is kind], allowances) for kind in kinds]
    reasons = dict.fromkeys(reason for figure in figures for reason in figure.reasons)
    times = [figure.number for figure in figures if figure.number is not None]
    whole = of(sum((time.si for time in times), Fraction(0)), "s")
    places = dict.fromkeys(place for figure in figures for place in figure.places)
    added = " + ".join(shown(time) for time in times if time.si) or "nothing"
    total = Figure(
        number=None if reasons else whole,
        demand=True,
        reckoning="" if reasons else f"{added} = {shown(whole)}",
        reasons=tuple(reasons),
        places=tuple(places),
    )
    return FigureRow((cycle,), (*figures, total))


def _figure(work: Sequence[Work], allowances: Allowances) -> Figure:
    times, words, reasons = Fraction(0), [], []
    places = {place: None for one in work for place in one.places}
    for one in work:
        took = _time(one, allowances)
        if isinstance(took, str):
            reasons.append(took)
            continue
        times += one.times * took.si
        words.append(_words(one, took))
    if work:
        places[allowances.place] = None
    total = of(times, "s")
    return Figure(
        number=None if reasons else total,
        demand=True,
        reckoning=f"{' + '.join(words)} = {shown(total)}" if words else "",
        reasons=tuple(dict.fromkeys(reasons)),
        places=tuple(places),
    )


def _words(one: Work, took: Quantity) -> str:
    if one.path is not None and one.kind in (WorkKind.DRIVE, WorkKind.PUSH):
        return f"{one.words} {shown(one.path)}: {shown(took)}"
    return f"{one.words} {took}" if one.times == 1 else f"{one.words} {one.times} × {took}"


def _time(one: Work, allowances: Allowances) -> Quantity | str:
    """How long one piece of work takes, or why nobody knows."""
    match one.kind:
        case WorkKind.HAND:
            return allowances.hand_action
        case WorkKind.CHECK:
            return allowances.check
        case WorkKind.PRESENT:
            return allowances.present
        case WorkKind.STOW:
            return allowances.stow or "the station states no allowance for stowing"
        case WorkKind.PUSH:
            speed, missing = allowances.push, "the station states no speed for pushing"
        case WorkKind.DRIVE:
            speed, missing = one.speed, f"the description states no speed for {one.words}"
    if speed is None or one.path is None:
        return missing
    return of(one.path.si / speed.si, "s")
