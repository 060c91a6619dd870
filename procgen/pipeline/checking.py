"""Load, derive, simulate, check: everything wrong in one run."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from procgen import lint, load, release
from procgen.diagnostics import Finding, Related, Severity
from procgen.disk import packaged
from procgen.model.answer import Answer
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import CheckItems, OutOfService, PlannedUnit, Procedure, Step
from procgen.model.words import Failure, Operation
from procgen.pipeline.failing import not_held, unheld_units
from procgen.plan import choose_units, other_layouts, plan
from procgen.results.out_of_service import failed, failure_words, without
from procgen.results.plan import NoPlan
from procgen.results.release import Chain
from procgen.results.state import state_at_rest
from procgen.results.trace import Trace
from procgen.results.waived import Waived
from procgen.simulate import simulate
from procgen.source import Document
from procgen.write import compose

NO_DAY = "0000-00-00"
"""Before every day of the calendar: nothing has expired yet."""


@dataclass(frozen=True, slots=True)
class CheckedProcedure:
    """A procedure, its simulation and everything found in it."""

    procedure: Procedure
    hold: Hold
    trace: Trace
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """The outcome of a whole check.

    `generated` is by hold name and operation; `no_plans` the pairs for which there is none; `written` by
    station code, in the order of the files; `chains` and `answers` by station code too. `waived` are
    findings that a waiver answers: they forbid nothing, and are shown wherever findings are.
    """

    network: Network
    documents: Mapping[str, Document]
    findings: tuple[Finding, ...]
    generated: Mapping[tuple[str, Operation], CheckedProcedure]
    no_plans: Mapping[tuple[str, Operation], NoPlan]
    written: Mapping[str, tuple[CheckedProcedure, ...]]
    waived: tuple[Waived, ...] = ()
    chains: Mapping[str, Chain] = field(default_factory=dict)
    answers: Mapping[str, tuple[Answer, ...]] = field(default_factory=dict)

    @property
    def publishable(self) -> bool:
        """Whether nothing found forbids publication.

        That a temporary revision has run out does not: the site that stands would go on showing it as one
        that counts, while a new one says that it has ended, and which counts again.
        """
        return not any(
            finding.severity is Severity.ERROR and finding.rule != release.EXPIRED_RULE
            for finding in self.findings
        )


def load_inputs(files: Mapping[str, str]) -> load.Loaded:
    """Load stations' files together with the packaged hazard list and schemas."""
    return load.load_network(files, packaged.data(), packaged.schemas())


def check(loaded: load.Loaded, extra: Iterable[Procedure] = (), today: str = NO_DAY) -> Checked:
    """Check everything that was loaded, and `extra` procedures given on the command line.

    `today` (ISO 8601 text) is the day on which waivers must still hold and temporary revisions run.
    """
    network = loaded.network
    unread = {finding.place.file for finding in loaded.findings if finding.severity is Severity.ERROR}
    # What the fleet's own mistakes leave out is missed by whatever names it: once is enough.
    rests_on_fleet = lint.RESTS_ON_FLEET if load.FLEET_FILE in unread else ()
    sense = lint.check_data(network, loaded.documents)
    findings = [*loaded.findings, *(one for one in sense if one.rule not in rests_on_fleet)]
    spoiled = {finding.place.file for finding in findings if finding.severity is Severity.ERROR}
    generated: dict[tuple[str, Operation], CheckedProcedure] = {}
    no_plans: dict[tuple[str, Operation], NoPlan] = {}
    for hold in network.holds.values():
        for operation in Operation:
            outcome = derive(network, hold, operation)
            if isinstance(outcome, NoPlan):
                no_plans[hold.name, operation] = outcome
                derived = tuple(_no_plan(outcome, hold))
            else:
                checked = check_procedure(network, hold, outcome)
                generated[hold.name, operation] = checked
                derived = checked.findings
            # What is wrong in the data shows again in what is derived from it: once is enough.
            if hold.place.file not in spoiled and not rests_on_fleet:
                findings += [*derived, *_of_other_layouts(network, hold, operation)]
    written: dict[str, tuple[CheckedProcedure, ...]] = {}
    for station in network.stations.values():
        written[station.code] = tuple(_written(network, station.procedures))
        findings.extend(f for checked in written[station.code] for f in checked.findings)
    # A station that cannot be read does not hide what is wrong with its procedures.
    placed = {one.place.file for station in network.stations.values() for one in station.procedures}
    homeless = [one for file, one in loaded.procedures.items() if file not in placed]
    findings.extend(f for checked in _written(network, (*homeless, *extra)) for f in checked.findings)
    chains = release.chains(loaded.releases)
    findings += [*release.all_gone(loaded.answers, chains), *release.waiting(loaded.answers, chains)]
    for chain in chains.values():
        findings += [*chain.findings, *release.check_dates(chain, today)]
    found = tuple(_once(findings))
    rules = lint.load_rules(packaged.rule_pages()) if loaded.waivers else {}
    answered = lint.answer(found, loaded.waivers, rules, today)
    return Checked(
        network,
        loaded.documents,
        answered.findings,
        generated,
        no_plans,
        written,
        answered.waived,
        chains,
        loaded.answers,
    )


def derive(
    network: Network,
    hold: Hold,
    operation: Operation,
    units: Mapping[str, PlannedUnit] | None = None,
    aboard: Mapping[str, PlannedUnit] | None = None,
    out: Sequence[OutOfService] = (),
) -> Procedure | NoPlan:
    """The procedure for `units` of a hold (None: one for every position), with its warnings and checks.

    Units `aboard` are in the hold before and after. With items `out` of service it does without them; there
    is none where a position in which a unit is to be carried may not be loaded then.
    """
    loading = operation is Operation.LOADING
    moved = choose_units(hold, network.unit_types) if units is None else units
    carried = [*(moved.values() if loading else ()), *(aboard or {}).values()]
    reasons = not_held(hold, network.unit_types, carried, out)
    if reasons:
        return NoPlan(hold.name, operation, reasons)
    left = without(hold, out)
    inside = [*(() if loading else moved.values()), *(aboard or {}).values()]
    start = failed(hold, state_at_rest(left, {unit.name: unit.bay for unit in inside}), out)
    outcome = plan(left, network.unit_types, start, operation, moved, aboard)
    if isinstance(outcome, NoPlan):
        return outcome
    return put_out_of_service(compose(outcome, left, network.hazards), hold, out)


def put_out_of_service(procedure: Procedure, hold: Hold, out: Sequence[OutOfService]) -> Procedure:
    """A procedure that says what is out of service; its name and title say so too."""
    if not out:
        return procedure
    suffix = "-".join(f"{one.item}-{one.failure}" for one in out)
    failures = ", ".join(failure_words(hold, one) for one in out)
    missing = frozenset(one.item for one in out if one.failure is Failure.MISSING)
    return replace(
        procedure,
        steps=tuple(_not_looked_at(procedure.steps, missing)),
        name=f"{procedure.name}-{suffix}",
        title=f"{procedure.title}, {failures}",
        out_of_service=tuple(out),
    )


def _not_looked_at(steps: Iterable[Step], missing: Collection[str]) -> Iterator[Step]:
    """The steps without looks at what is not there."""
    for step in steps:
        looked_at = step.items if isinstance(step, CheckItems) else ()
        items = tuple(item for item in looked_at if item not in missing)
        if isinstance(step, CheckItems) and items != looked_at:
            if items:
                yield replace(step, items=items)
        else:
            yield step


def check_procedure(network: Network, hold: Hold, procedure: Procedure) -> CheckedProcedure:
    """Simulate one procedure and look at its safety content."""
    trace = simulate(hold, network.unit_types, procedure)
    content = lint.check_procedure(procedure, hold, network.hazards)
    unheld = unheld_units(hold, network.unit_types, procedure)
    return CheckedProcedure(procedure, hold, trace, (*trace.findings, *unheld, *content))


def _written(network: Network, procedures: Iterable[Procedure]) -> Iterator[CheckedProcedure]:
    for procedure in procedures:
        hold = network.holds.get(procedure.hold)
        if hold is not None:
            yield check_procedure(network, hold, procedure)


def _of_other_layouts(network: Network, hold: Hold, operation: Operation) -> Iterator[Finding]:
    """What is wrong with the positions that the procedure for the whole hold leaves out."""
    for positions in other_layouts(hold):
        outcome = derive(network, hold, operation, choose_units(hold, network.unit_types, positions))
        if isinstance(outcome, NoPlan):
            yield from _no_plan(outcome, hold, f" with {', '.join(positions)}")
        else:
            yield from check_procedure(network, hold, outcome).findings


def _no_plan(outcome: NoPlan, hold: Hold, layout: str = "") -> Iterator[Finding]:
    first, *rest = outcome.reasons
    yield Finding(
        "no-plan",
        f"no {outcome.operation} procedure can be derived for {hold.name}{layout}: {first.message}",
        first.place if first.place.file else hold.place,
        suggestion="mend what the reason names, or take the position out of the hold",
        related=tuple(Related(reason.place, reason.message) for reason in rest if reason.place.file),
        subject=(("hold", hold.name),),
    )


def _once(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Drop what was already said word for word of the same place."""
    said: set[tuple[object, ...]] = set()
    for finding in findings:
        key = (finding.rule, finding.place, finding.message)
        if key not in said:
            said.add(key)
            yield finding
