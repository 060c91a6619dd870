"""`python -m tests.plan.whole_matrix`: the out-of-service matrix of a hold of forty positions, timed."""

from __future__ import annotations

import time
from collections import Counter
from dataclasses import replace

from procgen.pipeline.matrix import all_failures, matrix_of
from tests.plan.test_size import forty_positions
from tests.support import demo


def main() -> None:
    """Print how many failures, plans and seconds, and what becomes of the positions."""
    made = forty_positions()
    network = replace(demo().network, unit_types=made.unit_types, holds={made.hold.name: made.hold})
    out = all_failures(made.hold)
    began = time.process_time()
    matrix = matrix_of(network, made.hold, out)
    took = time.process_time() - began
    answers = Counter(str(cell.answer) for row in matrix.rows for cell in row.cells)
    print(f"{len(made.hold.positions)} positions, {len(out)} failures, {matrix.plans} plans simulated")
    print(f"{took:.1f} s of processor time in all, {took / max(matrix.plans, 1) * 1000:.0f} ms a plan")
    print(", ".join(f"{answer}: {count}" for answer, count in sorted(answers.items())))


if __name__ == "__main__":
    main()
