"""Two versions of a manual to the differences between them, by meaning, each with its class."""

from procgen.diff.compare import compare, difference_hash, differences, seal
from procgen.diff.inputs import input_edits

__all__ = ["compare", "difference_hash", "differences", "input_edits", "seal"]
