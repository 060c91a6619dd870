"""Seed faults into every clean procedure and see whether the check finds them.

Each derived and hand-written procedure is mutated, one slip at a time: a step left out, two neighbours
swapped, another item, direction, bay, control, state or unit in a step. A mutant is found; or harmless (it
ends in the same state through allowed states); or a survivor, printed by name.
"""

from __future__ import annotations

import argparse
import json

from procgen.cli.options import format_option, stations_argument

SUMMARY = "seed faults into clean procedures and count what the check finds"


def arguments(parser: argparse.ArgumentParser) -> None:
    """The command's own arguments."""
    stations_argument(parser)
    format_option(parser, "text", "json")


def run(options: argparse.Namespace) -> int:
    """Seed, judge and print; 1 when a mutant survived."""
    from procgen.cli.inputs import checked_stations
    from procgen.faults import Outcome
    from procgen.pipeline.faults import seed_faults

    score = seed_faults(checked_stations(options.stations))
    survivors = [{"procedure": v.procedure, "mutant": v.mutant.name} for v in score.survivors()]
    if options.format == "json":
        counts = {str(outcome): score.count(outcome) for outcome in Outcome}
        print(json.dumps({"mutants": len(score.verdicts), **counts, "survivors": survivors}, indent=2))
    else:
        _print_table(score)
    return 1 if survivors else 0


def _print_table(score: object) -> None:
    from procgen.faults import Outcome, Score

    assert isinstance(score, Score)  # noqa: S101
    print(f"{'procedure':<28}{'kind':<12}{'mutants':>8}{'found':>8}{'harmless':>10}{'survived':>10}")
    groups: dict[tuple[str, str], Score] = {}
    for verdict in score.verdicts:
        key = (verdict.procedure, verdict.mutant.kind)
        groups[key] = Score((*groups.get(key, Score(())).verdicts, verdict))
    for (procedure, kind), group in [*groups.items(), (("all", ""), score)]:
        print(
            f"{procedure:<28}{kind:<12}{len(group.verdicts):>8}{group.count(Outcome.FOUND):>8}"
            f"{group.count(Outcome.HARMLESS):>10}{group.count(Outcome.SURVIVED):>10}"
        )
    for verdict in score.survivors():
        print(f"survived: {verdict.procedure}: {verdict.mutant.name}")
