"""From a plan to a procedure with its warnings and checks, and from a procedure to words."""

from procgen.write.compose import compose, met
from procgen.write.pages import page
from procgen.write.recovery_guide import recovery_guide, titled

__all__ = ["compose", "met", "page", "recovery_guide", "titled"]
