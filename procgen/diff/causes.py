"""Which edit of the inputs caused which difference: found by making each edit alone, not by guessing.

What an edit alone brings about is its doing. What none brings about alone is the doing of those without which
it would not be there. What is there without any edit is the doing of the program, if its rules are others.
Another name of the station or of a hold is made first, for everything else is told under it; edits that the
inputs cannot be read with alone are made as one. Only where that does not help either, or there are very
many, the places in the data decide. Tables, ways out of mishaps and the out-of-service matrix are not derived
again: they come from what changed their hold.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen.diff.bared import bare, only
from procgen.diff.compare import differences
from procgen.diff.edit_groups import groups_of, names_its_file, touches
from procgen.diff.inputs import Edits
from procgen.results.difference import (
    Cause,
    CauseKind,
    Comparison,
    Difference,
)
from procgen.results.page import StationSite

Derive = Callable[[Mapping[str, str], Collection[str] | None], StationSite | None]
"""What some files publish in data and words, of some holds or of all; None where they cannot be read."""

MOST_GROUPS = 60
"""How many groups of edits are made one by one at most."""

_DERIVED = frozenset({"tables", "recoveries", "out-of-service"})
"""The parts of a hold's site that `Derive` leaves out: they take long to find."""

Group = tuple[int, ...]
"""Edits by number that are only made together."""

Told = tuple[str, str, str | None, str | None]


def explained(comparison: Comparison, edits: Edits, derive: Derive) -> Comparison:
    """The comparison with the edits of the inputs, and with what caused each difference."""
    finding = _Finding(comparison, edits, derive)
    return finding.explain()


@dataclass
class _Finding:
    """One comparison whose causes are being found."""

    comparison: Comparison
    edits: Edits
    derive: Derive
    causes: dict[str, list[Cause]] = field(default_factory=dict)
    frame: Group = ()
    proven_idle: set[int] = field(default_factory=set)

    def explain(self) -> Comparison:
        """Fill in every cause."""
        every = [edit.number for edit in self.edits.edits]
        base, target = self.derive(self.edits.applied(()), None), self.derive(self.edits.applied(every), None)
        if base is not None and target is not None:
            self._by_program(base, target)
            groups = groups_of(self.edits.edits)
            if len(groups) == 1:
                self._by_one(groups[0], self._done(base, target))
            elif len(groups) <= MOST_GROUPS:
                start, rest = self._framed(groups, base)
                self._by_each(rest, start, base)
        self._by_place()
        self._derived()
        self._otherwise(every)
        found = tuple(
            replace(one, causes=tuple(dict.fromkeys(self.causes.get(one.identity, ()))))
            for one in self.comparison.differences
        )
        caused = {number for one in found for cause in one.causes for number in cause.edits}
        idle = tuple(sorted(self.proven_idle - caused))
        return replace(self.comparison, differences=found, edits=self.edits.edits, idle=idle)

    def _by_program(self, base: StationSite, target: StationSite) -> None:
        """What differs between what was published and what the same files give now, on either side."""
        if self._same_rules():
            return
        own = {
            one.identity
            for one in (
                *self._differences(bare(self.comparison.was.site), base),
                *self._differences(target, bare(self.comparison.now.site)),
            )
        }
        for one in self.comparison.differences:
            if one.identity in own:
                self._add(one, Cause(CauseKind.PROGRAM))

    def _done(self, base: StationSite, target: StationSite) -> set[str]:
        """What differs between both sides as the program of today has them."""
        if not self.causes:
            return {one.identity for one in self.comparison.differences}
        return {one.identity for one in self._differences(base, target)}

    def _by_one(self, group: Group, done: Collection[str]) -> None:
        """What differs with the only edit and the program of today is the doing of that edit."""
        for one in self.comparison.differences:
            if one.identity in done or one.identity not in self.causes:
                self._add(one, Cause(CauseKind.INPUT, group))
        if not done:
            self.proven_idle |= set(group)

    def _framed(self, groups: Sequence[Group], base: StationSite) -> tuple[StationSite, list[Group]]:
        """The older site under the newer names, and the edits that are still to be made.

        A name that cannot be given alone takes along whatever else cannot be made alone.
        """
        edits = self.edits.edits
        naming = [group for group in groups if any(names_its_file(edits[number - 1]) for number in group)]
        rest = [group for group in groups if group not in naming]
        if not naming:
            return base, rest
        start = self._made(_all(naming))
        if start is None:
            needed = [group for group in rest if self._made(group) is None]
            naming, rest = [*naming, *needed], [group for group in rest if group not in needed]
            start = self._made(_all(naming))
        if start is None:
            return base, list(groups)
        self.frame = _all(naming)
        if len(naming) > 1:
            self._alone({group: self._told_of(self._made(group), base, None) for group in naming})
        self._jointly(self.frame, _told_all(self._differences(base, start)))
        return start, rest

    def _by_each(self, groups: Sequence[Group], start: StationSite, base: StationSite) -> None:
        """The doing of each edit alone, then of all that cannot be made alone as one, then of several."""
        alone = {group: self._told_with(group, start) for group in groups}
        self._alone(alone)
        unread = [group for group, told in alone.items() if told is None]
        together = _all(unread)
        if len(unread) > 1 and (told := self._told_with(together, start)) is not None:
            alone = {group: one for group, one in alone.items() if group not in unread} | {together: told}
            self._jointly(together, told)
        self._together(list(alone), alone, base)

    def _told_with(self, group: Group, start: StationSite) -> set[Told] | None:
        """What some edits bring about, made after the frame; None where they cannot be read."""
        holds = self._holds(group)
        return self._told_of(self._made((*self.frame, *group), holds), start, holds)

    def _told_of(
        self, site: StationSite | None, start: StationSite, holds: Collection[str] | None
    ) -> set[Told] | None:
        return None if site is None else _told_all(self._differences(only(start, holds), site))

    def _alone(self, alone: Mapping[Group, set[Told] | None]) -> None:
        """What a group of edits brings about by itself is its doing."""
        for one in self.comparison.differences:
            for group, told in alone.items():
                if told is not None and _told(one) in told:
                    self._add(one, Cause(CauseKind.INPUT, group))

    def _jointly(self, group: Group, told: Collection[Told]) -> None:
        """What several groups bring about, made as one: of those it was written in, else of all of them."""
        one_edit = group in groups_of(self.edits.edits)
        for one in self.comparison.differences:
            if one.identity in self.causes or _told(one) not in told:
                continue
            numbers = group if one_edit else self._written(one, group) or group
            several = not one_edit and len(numbers) > 1
            self._add(one, Cause(CauseKind.TOGETHER if several else CauseKind.INPUT, numbers))

    def _written(self, one: Difference, numbers: Collection[int]) -> Group:
        """Those of some edits that are of what a difference was written in."""
        places = [side.place for side in (one.was, one.now) if side is not None and side.place.file]
        edits = (edit for edit in self.edits.edits if edit.number in numbers)
        return tuple(edit.number for edit in edits if any(touches(edit, place) for place in places))

    def _together(
        self,
        groups: Sequence[Group],
        alone: Mapping[Group, set[Told] | None],
        base: StationSite,
    ) -> None:
        """What no edit does alone: it is not there when one of those that do it together is left out."""
        every = {*self.frame, *_all(groups)}
        there = self._told_of(self._made(every), base, None) or ()
        left = [
            one
            for one in self.comparison.differences
            if one.identity not in self.causes and not is_derived(one.identity) and _told(one) in there
        ]
        needed: dict[str, list[int]] = {}
        for group in groups:
            nothing_alone = not alone[group]
            holds = self._holds(group)
            mine = [one for one in left if holds is None or one.hold in holds]
            if not mine and not nothing_alone:
                continue
            site = self._made(every - set(group), holds)
            without = self._told_of(site, base, holds)
            if without is None:
                continue
            for one in mine:
                if _told(one) not in without:
                    needed.setdefault(one.identity, []).extend(group)
            told = {_told(one) for one in self.comparison.differences if holds is None or one.hold in holds}
            if alone[group] is not None and nothing_alone and told <= without:
                self.proven_idle |= set(group)
        for one in left:
            if one.identity in needed:
                numbers = tuple(dict.fromkeys(needed[one.identity]))
                self._add(one, Cause(CauseKind.TOGETHER if len(numbers) > 1 else CauseKind.INPUT, numbers))

    def _by_place(self) -> None:
        """What is left belongs to the edits of what it was written in."""
        every = [edit.number for edit in self.edits.edits]
        for one in self.comparison.differences:
            if one.identity in self.causes or is_derived(one.identity):
                continue
            if numbers := self._written(one, every):
                self._add(one, Cause(CauseKind.TOGETHER if len(numbers) > 1 else CauseKind.INPUT, numbers))

    def _derived(self) -> None:
        """What `Derive` does not give comes from whatever changed the data and procedures of its hold.

        Where nothing did, what concerns the whole station or fleet did; without that, the program.
        """
        plain = [one for one in self.comparison.differences if not is_derived(one.identity)]
        for one in self.comparison.differences:
            if one.identity in self.causes or not is_derived(one.identity):
                continue
            of_hold = [other for other in plain if other.hold == one.hold]
            behind = [c for other in of_hold for c in self.causes.get(other.identity, ())]
            if not behind:
                behind = [c for other in plain if not other.hold for c in self.causes.get(other.identity, ())]
            numbers = tuple(sorted({number for cause in behind for number in cause.edits}))
            alone = len({cause.edits for cause in behind if cause.edits}) == 1
            if numbers:
                self._add(one, Cause(CauseKind.INPUT if alone else CauseKind.TOGETHER, numbers))
            by_program = not numbers or any(cause.kind is CauseKind.PROGRAM for cause in behind)
            if by_program and not self._same_rules():
                self._add(one, Cause(CauseKind.PROGRAM))

    def _otherwise(self, every: Sequence[int]) -> None:
        """What even then has no cause: the program where no input differs, but other rules; else unknown."""
        by_program = not every and not self._same_rules()
        cause = Cause(CauseKind.PROGRAM) if by_program else Cause(CauseKind.UNKNOWN, tuple(every))
        for one in self.comparison.differences:
            if one.identity not in self.causes:
                self._add(one, cause)

    def _same_rules(self) -> bool:
        """Whether both versions were derived by the same rules and program: then it is never their doing."""
        return self.comparison.was.rule_set == self.comparison.now.rule_set

    def _made(self, numbers: Collection[int], holds: Collection[str] | None = None) -> StationSite | None:
        return self.derive(self.edits.applied(numbers), holds)

    def _differences(self, was: StationSite, now: StationSite) -> Sequence[Difference]:
        one_hold = bool(self.comparison.was.hold and self.comparison.now.hold)
        return differences(was, now, same_hold=one_hold and len(was.holds) == len(now.holds))

    def _add(self, one: Difference, cause: Cause) -> None:
        self.causes.setdefault(one.identity, []).append(cause)

    def _holds(self, group: Sequence[int]) -> frozenset[str] | None:
        """The holds that a group of edits can touch: one where all are in its description; None for all."""
        if self.frame:
            return None
        places = [place for number in group for place in self.edits.edits[number - 1].places]
        files = {file for place in places for file in place.files}
        names = {file.removeprefix("fleet/holds/").removesuffix(".yaml") for file in files}
        if not all(file.startswith("fleet/holds/") for file in files):
            return None
        known = {one.hold.name for one in self.comparison.was.site.holds}
        return frozenset(names) if names <= known else None


def is_derived(identity: str) -> bool:
    """Whether a difference is of what follows from a hold's data and is not derived again here."""
    return len(parts := identity.split("/")) > 1 and parts[1] in _DERIVED


def _all(groups: Sequence[Group]) -> Group:
    return tuple(sorted(number for group in groups for number in group))


def _told(one: Difference) -> Told:
    return (
        one.identity,
        one.classed.value,
        one.was.text if one.was else None,
        one.now.text if one.now else None,
    )


def _told_all(found: Collection[Difference]) -> set[Told]:
    return {_told(one) for one in found}
