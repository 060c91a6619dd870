"""Steps and a hold in, a trace with findings out: the machine that every procedure is tried on.

It shares no code with `plan`: what makes must not be what checks.
"""

from procgen.simulate.rules import RULES, SimulationRule
from procgen.simulate.simulate import simulate

__all__ = ["RULES", "SimulationRule", "simulate"]
