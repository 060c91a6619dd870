"""Loose loads carried by hand into a bulk section, or out of it."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.step import Stow
from procgen.model.words import OUTSIDE
from procgen.simulate.fit import check_fit
from procgen.simulate.held import Held
from procgen.simulate.jammed import check_jammed
from procgen.simulate.moves import arrive, at_start
from procgen.simulate.passing import carry
from procgen.simulate.people import check_released
from procgen.simulate.pushing import FEWEST
from procgen.simulate.route import read_route, read_unit, wrong_verb_for_load
from procgen.simulate.work import Work


def stow(work: Work, step: Stow) -> None:
    """Carry a loose load along the places that the step names. Whoever carries is inside from then on.

    It needs neither power nor a lane that units roll on. Where the places are in question nothing more is
    concluded from them.
    """
    doing = f"{'takes out' if step.through[-1:] == (OUTSIDE,) else 'stows'} {step.unit}"
    if wrong_verb_for_load(work, step, doing):
        work.state = replace(work.state, clear_for=step.unit)  # as those who drive or push it
        return
    route = read_route(work, step, doing)
    named = read_unit(work, step.unit, route.start, doing)
    unit, certain = at_start(work, named, route, doing)
    check_jammed(work, unit, doing)
    _crew(work, step, doing)
    before = len(work.findings)
    if certain:
        if unit is not None:
            check_fit(work, unit, route.hops, doing)
        carry(work, unit, route.hops, doing)
        check_released(work, unit, route.hops, Held({}), powered=False, doing=doing)
    work.go_inside()
    arrive(work, unit, route, open_end=len(work.findings) > before)


def _crew(work: Work, step: Stow, doing: str) -> None:
    if step.crew < FEWEST:
        work.find(
            "crew-too-small",
            f"{doing} with a crew of {step.crew}, but nobody stows alone",
            suggestion=f"write crew: {FEWEST}",
            unit=step.unit,
        )
