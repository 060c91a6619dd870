"""Two versions of a manual to the differences between them, by meaning, each with its class."""

from procgen.diff.compare import compare, difference_hash, differences

__all__ = ["compare", "difference_hash", "differences"]
