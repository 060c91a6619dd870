"""Which edit of the inputs caused which difference: found by making each edit alone, not by guessing.

What an edit alone brings about is its doing. What none brings about alone is the doing of those without which
it would not be there. What is there without any edit is the doing of the program. Only where the inputs
cannot be read with an edit alone, or there are very many, the places in the data decide. Tables, ways out of
mishaps and the out-of-service matrix are not derived again: they come from what changed their hold.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen.diagnostics import Place, Route
from procgen.diff.compare import differences
from procgen.diff.inputs import Edits
from procgen.results.difference import (
    Cause,
    CauseKind,
    Comparison,
    Difference,
    EditKind,
    InputEdit,
)
from procgen.results.page import HoldSite, StationSite

Derive = Callable[[Mapping[str, str], Collection[str] | None], StationSite | None]
"""What some files publish in data and words, of some holds or of all; None where they cannot be read."""

MOST_GROUPS = 60
"""How many groups of edits are made one by one at most."""

_DERIVED = frozenset({"tables", "recoveries", "out-of-service"})
"""The parts of a hold's site that `Derive` leaves out: they take long to find."""

Told = tuple[str, str, str | None, str | None]


def explained(comparison: Comparison, edits: Edits, derive: Derive) -> Comparison:
    """The comparison with the edits of the inputs, and with what caused each difference."""
    finding = _Finding(comparison, edits, derive)
    return finding.explain()


def groups_of(edits: Sequence[InputEdit]) -> list[tuple[int, ...]]:
    """Edits that can only be made together: a thing that comes, goes or is renamed, and whatever names it."""
    leads = {edit.number: edit.number for edit in edits}

    def lead(number: int) -> int:
        while leads[number] != number:
            number = leads[number]
        return number

    for edit in edits:
        if edit.kind not in (EditKind.ADDED, EditKind.REMOVED):
            continue
        name = _name_of(edit)
        if name is None:
            continue
        for other in edits:
            if other.number != edit.number and _mentions(other, name):
                leads[lead(other.number)] = lead(edit.number)
    groups: dict[int, list[int]] = {}
    for edit in edits:
        groups.setdefault(lead(edit.number), []).append(edit.number)
    return [tuple(group) for group in groups.values()]


def _name_of(edit: InputEdit) -> str | None:
    """The name of the thing that an edit brings or takes: an entry of a mapping of things, or a file."""
    place = edit.first
    if not place.route:
        return place.file.rsplit("/", 1)[-1].partition(".")[0]
    text = place.now or place.was
    last = place.route[-1]
    return last if isinstance(last, str) and text.startswith("{") and len(place.route) > 1 else None


def _mentions(edit: InputEdit, name: str) -> bool:
    return any(
        name in (*map(str, place.route), place.was, place.now)
        or any(
            f"{before}{name}{after}" in f"[{text}]"
            for before in "[{ "
            for after in ",]}:"
            for text in (place.was, place.now)
        )
        for place in edit.places
    )


@dataclass
class _Finding:
    """One comparison whose causes are being found."""

    comparison: Comparison
    edits: Edits
    derive: Derive
    causes: dict[str, list[Cause]] = field(default_factory=dict)
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
                self._by_each(groups, base)
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
        own = {
            one.identity
            for one in (
                *differences(bare(self.comparison.was.site), base),
                *differences(target, bare(self.comparison.now.site)),
            )
        }
        for one in self.comparison.differences:
            if one.identity in own:
                self._add(one, Cause(CauseKind.PROGRAM))

    def _done(self, base: StationSite, target: StationSite) -> set[str]:
        """What differs between both sides as the program of today has them."""
        if not self.causes:
            return {one.identity for one in self.comparison.differences}
        return {one.identity for one in differences(base, target)}

    def _by_one(self, group: tuple[int, ...], done: Collection[str]) -> None:
        """What differs with the only edit and the program of today is the doing of that edit."""
        for one in self.comparison.differences:
            if one.identity in done or one.identity not in self.causes:
                self._add(one, Cause(CauseKind.INPUT, group))
        if not done:
            self.proven_idle |= set(group)

    def _by_each(self, groups: Sequence[tuple[int, ...]], base: StationSite) -> None:
        alone: dict[tuple[int, ...], set[Told] | None] = {}
        for group in groups:
            holds = self._holds(group)
            site = self.derive(self.edits.applied(group), holds)
            alone[group] = None if site is None else _told_all(differences(_only(base, holds), site))
        for one in self.comparison.differences:
            for group, told in alone.items():
                if told is not None and _told(one) in told:
                    self._add(one, Cause(CauseKind.INPUT, group))
        self._together(groups, alone, base)

    def _together(
        self,
        groups: Sequence[tuple[int, ...]],
        alone: Mapping[tuple[int, ...], set[Told] | None],
        base: StationSite,
    ) -> None:
        """What no edit does alone: it is not there when one of those that do it together is left out."""
        left = [
            one
            for one in self.comparison.differences
            if one.identity not in self.causes and not is_derived(one.identity)
        ]
        every = {number for group in groups for number in group}
        needed: dict[str, list[int]] = {}
        for group in groups:
            nothing_alone = not alone[group]
            if not left and not nothing_alone:
                continue
            holds = self._holds(group)
            site = self.derive(self.edits.applied(every - set(group)), holds)
            if site is None:
                continue
            without = _told_all(differences(_only(base, holds), site))
            for one in left:
                if (holds is None or one.hold in holds) and _told(one) not in without:
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
        for one in self.comparison.differences:
            if one.identity in self.causes or is_derived(one.identity):
                continue
            places = [side.place for side in (one.was, one.now) if side is not None and side.place.file]
            numbers = tuple(
                edit.number for edit in self.edits.edits if any(_touches(edit, place) for place in places)
            )
            if numbers:
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
            if not numbers or any(cause.kind is CauseKind.PROGRAM for cause in behind):
                self._add(one, Cause(CauseKind.PROGRAM))

    def _otherwise(self, every: Sequence[int]) -> None:
        """What even then has no cause: all edits together, or the program where there are none."""
        for one in self.comparison.differences:
            if one.identity not in self.causes:
                cause = Cause(CauseKind.TOGETHER, tuple(every)) if every else Cause(CauseKind.PROGRAM)
                self._add(one, cause)

    def _add(self, one: Difference, cause: Cause) -> None:
        self.causes.setdefault(one.identity, []).append(cause)

    def _holds(self, group: Sequence[int]) -> frozenset[str] | None:
        """The holds that a group of edits can touch: one where all are in its description; None for all."""
        files = {place.file for number in group for place in self.edits.edits[number - 1].places}
        names = {file.removeprefix("fleet/holds/").removesuffix(".yaml") for file in files}
        if not all(file.startswith("fleet/holds/") for file in files):
            return None
        known = {one.hold.name for one in self.comparison.was.site.holds}
        return frozenset(names) if names <= known else None


def is_derived(identity: str) -> bool:
    """Whether a difference is of what follows from a hold's data and is not derived again here."""
    return len(parts := identity.split("/")) > 1 and parts[1] in _DERIVED


def bare(site: StationSite) -> StationSite:
    """A site in data and words only, as `Derive` gives it."""
    return replace(site, holds=tuple(_bare(one) for one in site.holds))


def _bare(hold: HoldSite) -> HoldSite:
    return HoldSite(
        hold=hold.hold,
        aircraft=hold.aircraft,
        diagram="",
        limits=hold.limits,
        pages=hold.pages,
        diagrams={},
        why_no_page=hold.why_no_page,
        unit_types=hold.unit_types,
        aircraft_type=hold.aircraft_type,
        contours=hold.contours,
    )


def _only(site: StationSite, holds: Collection[str] | None) -> StationSite:
    if holds is None:
        return site
    return replace(site, holds=tuple(one for one in site.holds if one.hold.name in holds))


def _told(one: Difference) -> Told:
    return (
        one.identity,
        one.classed.value,
        one.was.text if one.was else None,
        one.now.text if one.now else None,
    )


def _told_all(found: Collection[Difference]) -> set[Told]:
    return {_told(one) for one in found}


def _touches(edit: InputEdit, place: Place) -> bool:
    """Whether an edit is of the value at a place, of something in it, or of something it stands in."""
    return any(one.file == place.file and _along(one.route, place.route) for one in edit.places)


def _along(one: Route, other: Route) -> bool:
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]
