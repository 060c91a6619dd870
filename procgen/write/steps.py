"""One step in words, from the step, the data of the hold and how the hold stands."""

from __future__ import annotations

from dataclasses import replace

from procgen.model.controls import Power
from procgen.model.hazard import CheckPhrase, HazardList
from procgen.model.hold import Hold
from procgen.model.step import (
    Check,
    CheckItems,
    CheckLatch,
    Drive,
    Fit,
    Lower,
    Note,
    Present,
    Push,
    Raise,
    Remove,
    Report,
    SetControl,
    Step,
    Stow,
)
from procgen.model.words import OUTSIDE, RestraintKind, RestraintState, Stand
from procgen.results.limits import LimitTable
from procgen.write import moving, phrases, words
from procgen.write.cycle_words import planned_unit
from procgen.write.fields import Situation, filled
from procgen.write.matching import handled, kind, stand, verb
from procgen.write.moving import Said
from procgen.write.phrases import Phrase
from procgen.write.standing import Standing, after, hops


class StepWords:
    """Puts the steps of one procedure into words; `block_unit` is the unit whose cycle a step is in."""

    def __init__(
        self,
        hold: Hold,
        hazards: HazardList,
        limits: LimitTable,
        mass_unit: str,
    ) -> None:
        self.hold = hold
        self.hazards = hazards
        self.limits = limits
        self.mass_unit = mass_unit

    def say(self, step: Step, now: Situation, block_unit: str) -> Said:
        """The step in words."""
        match step:
            case Drive():
                return moving.drive(step, now.standing, self.hold)
            case Push():
                return moving.push(step, now.standing, self.hold)
            case Stow():
                return self._stow(step, now)
            case Present():
                return self._present(step, now)
            case Check(condition):
                return self._check(condition, now)
            case Report(what):
                return _named(self.hazards.reports.get(what), what, phrases.REPORT_UNNAMED, now)
            case CheckItems():
                return self._check_items(step)
            case CheckLatch(door, by):
                return _said(phrases.LOOK_AT_LATCH[by], item=words.item(self.hold, door))
            case Note(text):
                return Said(text)
            case _:
                return self._hand(step, now, block_unit)

    def _hand(self, step: Step, now: Situation, block_unit: str) -> Said:
        name = handled(step)
        key = (verb(step), kind(step, self.hold))
        phrase = phrases.HAND.get(key) or phrases.HAND[key[0], ""]
        position = step.position.upper() if isinstance(step, SetControl) else ""
        said = _said(phrase, item=words.item(self.hold, name), position=position)
        if stand(step, self.hold) is Stand.INSIDE and not now.standing.inside:
            said = replace(said, text=words.sentences(phrases.GO_IN, said.text))
        if isinstance(step, SetControl):
            return self._power(step, said)
        if isinstance(step, (Raise, Fit)):
            return self._holding(name, replace(said, why=self._interlock(step, now)), now, block_unit)
        return replace(said, why=self._interlock(step, now))

    def _check(self, condition: str, now: Situation) -> Said:
        return _named(self.hazards.checks.get(condition), condition, phrases.CHECK_UNNAMED, now)

    def _power(self, step: SetControl, said: Said) -> Said:
        power = self.hold.power
        if power is None or (step.control, step.position) != (power.switch, power.on):
            return said
        needs = self._needs(power)
        if_not = phrases.POWER_IF_NOT.format(items=needs) if needs else phrases.POWER_IF_NOT_ALONE
        return replace(said, done_when=phrases.POWER_DONE, if_not=if_not)

    def _needs(self, power: Power) -> str:
        """How the interlock items must stand, in words."""
        needs = []
        for state, template in (
            (RestraintState.LOWERED, phrases.ITEMS_DOWN),
            (RestraintState.RAISED, phrases.ITEMS_UP),
        ):
            names = [name for name, needed in power.needs.items() if needed is state]
            if names:
                needs.append(template.format(items=words.items(self.hold, names), are=words.are(names)))
        return words.listing(needs)

    def _interlock(self, step: Step, now: Situation) -> str:
        """What moving the item does to the power, or to the unit that it guides."""
        name = handled(step)
        restraint = self.hold.restraints.get(name)
        if restraint is None or not isinstance(step, (Raise, Lower, Fit, Remove)):
            return ""
        power = self.hold.power
        up = isinstance(step, (Raise, Fit))
        if power is None or name not in power.needs:
            return phrases.GUIDES_UNIT if restraint.guides and up else ""
        if (power.needs[name] is RestraintState.RAISED) is up:
            complete = _interlocks_met(power, after(now.standing, step, self.hold))
            return phrases.LETS_POWER_ON if complete else phrases.POWER_NEEDS.format(items=self._needs(power))
        on = now.standing.controls.get(power.switch) == power.on and _interlocks_met(power, now.standing)
        return phrases.CUTS_POWER if on else ""

    def _holding(self, name: str, said: Said, now: Situation, block_unit: str) -> Said:
        """What a raised item must show that holds a unit; a net is judged by itself."""
        here = now.standing.units.get(block_unit, "")
        loaded = [
            bay
            for bay, position in self.hold.positions.items()
            if name in position.held_by and now.standing.unit_in(bay)
        ]
        if not loaded or kind(Raise(name), self.hold) == "net":
            return said
        if here in loaded:
            held = self._held_towards(name, here, now.standing.came_from.get(block_unit, ""))
        else:
            held = phrases.HELD_UNIT.format(bay=words.bay(loaded[0]))
        return replace(said, done_when=held, if_not=phrases.HELD_IF_NOT)

    def _held_towards(self, name: str, here: str, came_from: str) -> str:
        """Which way the unit cannot roll any more: back where it came from, or to the other neighbour."""
        between = self.hold.restraints[name].between or ()
        others = [place for place in between if place != here]
        for hop in hops((here, *others[:1]), self.hold):
            if hop.go is not None and hop.end != came_from:
                return phrases.HELD_TOWARDS.format(direction=phrases.DIRECTIONS[hop.go])
        return phrases.HELD_BACK

    def _present(self, step: Present, now: Situation) -> Said:
        planned = planned_unit(now.procedure, step.unit)
        unit = words.presented(planned, step.unit, self.hold)
        sill = phrases.SILL_OF.format(door=words.item(self.hold, step.door)) if step.door else phrases.SILL
        if planned is None:
            return _said(phrases.PRESENT_BARE, unit=unit, sill=sill)
        facts = [planned.unit_type]
        if not words.has_default_name(planned):
            facts.append(phrases.FOR_POSITION.format(bay=words.bay(planned.bay)))
        mass = words.limit(self.limits, planned, self.mass_unit)
        if mass:
            facts.append(phrases.AT_MOST.format(mass=mass))
        return _said(phrases.PRESENT, unit=unit, facts=phrases.LIST_COMMA.join(facts), sill=sill)

    def _stow(self, step: Stow, now: Situation) -> Said:
        """A loose load carried in, or out where the way ends outside."""
        planned = planned_unit(now.procedure, step.unit)
        named = planned is None or not words.has_default_name(planned)
        load = phrases.LOAD_NAMED.format(name=step.unit) if named else phrases.LOAD_HERE
        places = [place for place in step.through if place != OUTSIDE]
        out = step.through[-1:] == (OUTSIDE,)
        bay = words.bay(places[0 if out else -1]) if places else phrases.THE_HOLD
        said = _said(phrases.TAKE_OUT if out else phrases.STOW, load=load, bay=bay, crew=str(step.crew))
        if now.standing.inside:
            return said if out else replace(said, why=phrases.STOW_WHY)
        return replace(
            said, text=words.sentences(phrases.GO_IN, said.text), why="" if out else phrases.STOW_WHY
        )

    def _check_items(self, step: CheckItems) -> Said:
        nets = [name for name in step.items if self._is_net(name)]
        others = [name for name in step.items if name not in nets]
        if not (nets and others):
            return self._look(step)
        first, second = (self._look(replace(step, items=tuple(some))) for some in (others, nets))
        return replace(
            first,
            text=phrases.BOTH_LOOKS.format(
                first=first.text.removesuffix("."), second=second.text.removeprefix(phrases.LOOK)
            ),
            if_not=words.sentences(first.if_not, second.if_not),
        )

    def _is_net(self, name: str) -> bool:
        return name in self.hold.restraints and self.hold.restraints[name].kind is RestraintKind.NET

    def _look(self, step: CheckItems) -> Said:
        by_hand = all(
            self.hold.restraints[name].by_hand for name in step.items if name in self.hold.restraints
        )
        table = {
            (RestraintState.RAISED, True): phrases.CHECK_RAISED_BY_HAND,
            (RestraintState.RAISED, False): phrases.CHECK_RAISED,
            (RestraintState.LOWERED, True): phrases.CHECK_LOWERED_BY_HAND,
            (RestraintState.LOWERED, False): phrases.CHECK_LOWERED,
        }
        phrase = table[step.state, by_hand]
        if all(self._is_net(name) for name in step.items):
            raised = step.state is RestraintState.RAISED
            phrase = phrases.CHECK_FITTED if raised else phrases.CHECK_REMOVED
        return _said(phrase, items=words.items(self.hold, step.items), are=words.are(step.items))


def _interlocks_met(power: Power, standing: Standing) -> bool:
    return all(
        (name in standing.raised) is (state is RestraintState.RAISED) for name, state in power.needs.items()
    )


def _said(phrase: Phrase, **fields: str) -> Said:
    return Said(
        text=phrase.text.format(**fields),
        done_when=phrase.done_when.format(**fields),
        if_not=phrase.if_not.format(**fields),
        who=phrase.who,
    )


def _named(known: CheckPhrase | None, name: str, unnamed: Phrase, now: Situation) -> Said:
    """A check or report of the hazard list; one that the list does not have is shown by its name."""
    if known is None:
        return _said(unnamed, name=name.replace("-", " "))
    return Said(
        text=filled(known.text, now), done_when=filled(known.done_when, now), if_not=filled(known.if_not, now)
    )
