"""One procedure as the rules on safety content read it: what many of them ask is found out once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from procgen.lint.matching import Deed, deeds_by_verb
from procgen.model.hazard import Hazard, HazardList, Match
from procgen.model.hold import Hold
from procgen.model.step import Open, Procedure


@dataclass(frozen=True)
class Reading:
    """A procedure, its hold and the hazard list, with the hazards' matching done."""

    procedure: Procedure
    hold: Hold
    hazards: HazardList

    @cached_property
    def _deeds(self) -> Mapping[str, tuple[Deed, ...]]:
        return deeds_by_verb(self.procedure, self.hold)

    def matched(self, match: Match) -> list[int]:
        """The indexes of the steps that `match` fits."""
        if match.operations and self.procedure.operation not in match.operations:
            return []
        return sorted(
            deed.index for verb in match.verbs for deed in self._deeds.get(verb, ()) if deed.fits(match)
        )

    @cached_property
    def met(self) -> tuple[tuple[Hazard, tuple[int, ...]], ...]:
        """The hazards that come with some step, and these steps' indexes."""
        opened = (step.target for step in self.procedure.steps if isinstance(step, Open))
        several = len({target for target in opened if target in self.hold.doors}) > 1
        found = [
            (hazard, tuple(sorted({index for match in hazard.comes_with for index in self.matched(match)})))
            for hazard in self.hazards.hazards.values()
            if several or not hazard.several_doors
        ]
        return tuple((hazard, indexes) for hazard, indexes in found if indexes)
