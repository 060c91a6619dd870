"""Steps and mishaps as they are named on the command line."""

from __future__ import annotations

from procgen.diagnostics import ProcgenError
from procgen.model.hold import Hold
from procgen.model.station import Network
from procgen.model.step import Procedure, Section, Warn
from procgen.pipeline.recovering import recoveries
from procgen.results.recovery import MISHAPS, Case
from procgen.simulate import simulate


def step_numbered(procedure: Procedure, number: int) -> int:
    """The index of the step with this number; section heads and warnings have none.

    Raises `ProcgenError` where there is no such step.
    """
    actions = [index for index, step in enumerate(procedure.steps) if not isinstance(step, Section | Warn)]
    if not 1 <= number <= len(actions):
        what = f"{procedure.hold}, {procedure.operation}"
        raise ProcgenError(f"{what} has no step {number} (steps: 1 to {len(actions)})")
    return actions[number - 1]


def asked_cases(
    network: Network, hold: Hold, procedure: Procedure, index: int, mishap: str | None
) -> tuple[Case, ...]:
    """What can go wrong at a step, or only what is asked for.

    Raises `ProcgenError` where no door is open at that step, and where the mishap cannot be there.
    """
    trace = simulate(hold, network.unit_types, procedure)
    found = recoveries(hold, network.unit_types, network.hazards, procedure, trace, only=index)
    if not found:
        raise ProcgenError(
            "no door is open when this step is done: leave it so, and nothing has to be made safe"
        )
    asked = tuple(case for case in found if mishap in (None, case.mishap.value))
    if not asked:
        can_be = ", ".join(dict.fromkeys(case.mishap.value for case in found))
        said = next(words for kind, words in MISHAPS.items() if kind.value == mishap)
        raise ProcgenError(f"at this step it cannot be that {said[:1].lower()}{said[1:]} (can be: {can_be})")
    return asked
