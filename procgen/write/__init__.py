"""From a plan to a procedure with its warnings and checks, and from a procedure to words."""

from procgen.write.compose import compose
from procgen.write.pages import page

__all__ = ["compose", "page"]
