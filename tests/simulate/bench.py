"""Run procedures given as texts, with edits, and say where findings point."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from procgen.diagnostics import Finding
from procgen.load import Loaded, load_procedure
from procgen.model.hold import Hold
from procgen.model.step import Procedure
from procgen.results.state import State
from procgen.results.trace import Trace
from procgen.simulate import simulate
from procgen.source.document import Document
from tests.simulate.kinds import FLEET_BASES, FLEET_TYPES, MIX_HOLD, SECT_HOLD
from tests.simulate.procedures import STATION, YARD_HOLD
from tests.support import demo_files, load_texts, schemas

PROCEDURE = "T1T/procedures/p.yaml"


@dataclass(frozen=True)
class Bench:
    """A hold and a procedure read from texts."""

    loaded: Loaded
    hold: Hold
    procedure: Procedure
    document: Document

    def run(self, start: State | None = None) -> Trace:
        """Simulate the procedure."""
        return simulate(self.hold, self.loaded.network.unit_types, self.procedure, start)

    def line(self, finding: Finding) -> str:
        """The line of the procedure that a finding points at."""
        assert finding.place.file == PROCEDURE
        line = self.document.span(finding.place).line
        return self.document.text.splitlines()[line - 1].strip()


@cache
def bench(procedure: str, *edits: tuple[str, str], hold: tuple[tuple[str, str], ...] = ()) -> Bench:
    """Read a procedure, and its hold, after edits: what stands once in a text is replaced."""
    name = next(line.split()[1] for line in procedure.splitlines() if line.startswith("hold:"))
    loaded = _network(name, _edited(_hold_text(name), hold))
    text = _edited(procedure, edits)
    read, document, findings = load_procedure(PROCEDURE, text, loaded.network, schemas())
    assert not findings, [finding.message for finding in findings]
    assert read is not None
    return Bench(loaded, loaded.network.holds[name], read, document)


@cache
def _network(name: str, hold: str) -> Loaded:
    fleet = demo_files()["fleet/fleet.yaml"]
    for find, put in (
        ("\naircraft:\n", "\naircraft:\n  T-1: {title: Test type}\n"),
        ("\nunit-types:\n", f"\n{FLEET_TYPES}"),
        ("\n  K: {", f"\n{FLEET_BASES}  K: {{"),
    ):
        fleet = _edited(fleet, ((find, put),))
    files = {
        "fleet/fleet.yaml": fleet,
        f"fleet/holds/{name}.yaml": hold,
        "T1T/station.yaml": STATION.replace("HOLD", name),
    }
    loaded = load_texts(files)
    assert not loaded.findings, [finding.message for finding in loaded.findings]
    return loaded


def _hold_text(name: str) -> str:
    own = {"YARD": YARD_HOLD, "SECT": SECT_HOLD, "MIX": MIX_HOLD}
    return own.get(name) or demo_files()[f"fleet/holds/{name}.yaml"]


def _edited(text: str, edits: tuple[tuple[str, str], ...]) -> str:
    for find, put in edits:
        assert text.count(find) == 1, f"“{find}” stands {text.count(find)} times"
        text = text.replace(find, put)
    return text


def found(trace: Trace) -> list[tuple[str, str]]:
    """Rule and message of every finding."""
    return [(finding.rule, finding.message) for finding in trace.findings]
