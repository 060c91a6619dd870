"""The demonstration's out-of-service matrices in words, made once for all tests."""

from __future__ import annotations

from functools import cache

from procgen.limits import position_table
from procgen.pipeline.out_of_service import out_of_service_guide
from procgen.results.page import OutOfServiceGuide
from tests.support import demo, demo_hold


@cache
def matrix_guide(name: str) -> OutOfServiceGuide:
    """One hold's matrix, with masses in kg."""
    network, hold = demo().network, demo_hold(name)
    return out_of_service_guide(network, hold, hold, position_table(hold, network.unit_types), "kg")
