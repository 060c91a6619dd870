"""Whether power is on: the switch stands in its on position, every interlock is met, nothing is dead."""

from __future__ import annotations

from typing import NamedTuple

from procgen.diagnostics import Place
from procgen.model.controls import Power
from procgen.simulate.ledger import Sort
from procgen.simulate.names import called, stands, verb_for
from procgen.simulate.work import Work

POWER = "power"
"""The name of the power itself among things out of service."""


class Gap(NamedTuple):
    """One thing that keeps power off: what, how it must be, in words, what to do about it, where it is."""

    sort: Sort
    name: str
    wanted: str
    words: str
    mend: str
    place: Place


def power_gaps(work: Work) -> list[Gap]:
    """Everything that keeps power off, and that no earlier finding answers for."""
    power = work.scene.hold.power
    if power is None:
        gaps = [Gap(Sort.SERVICE, POWER, "", "the hold has no power", "push the unit", work.scene.hold.place)]
    else:
        gaps = [*_dead(work, power), *_switched_off(work, power), *unmet_interlocks(work, power)]
    return [gap for gap in gaps if not work.excused(gap.sort, gap.name, gap.wanted)]


def unmet_interlocks(work: Work, power: Power) -> list[Gap]:
    """The items that hold power off by standing as they do."""
    gaps: list[Gap] = []
    for name, needed in power.needs.items():
        item = work.scene.hold.restraints.get(name)
        if item is None or work.restraint(name) is needed:
            continue
        words = f"{called(item)} is {stands(item, work.restraint(name))}, which keeps it off"
        mend = f"{verb_for(item, needed)} {called(item)} before this step"
        gaps.append(Gap(Sort.RESTRAINT, name, needed.value, words, mend, power.place))
    return gaps


def _dead(work: Work, power: Power) -> list[Gap]:
    if POWER not in work.state.dead:
        return []
    return [Gap(Sort.SERVICE, POWER, "", "power is out of service", "push the unit", power.place)]


def _switched_off(work: Work, power: Power) -> list[Gap]:
    switch = work.scene.hold.controls.get(power.switch)
    if switch is None or work.control(power.switch) == power.on:
        return []
    words = f"{called(switch)} stands in {work.control(power.switch)}"
    mend = f"set {called(switch)} to {power.on} before this step"
    return [Gap(Sort.CONTROL, power.switch, power.on, words, mend, power.place)]
