"""Two versions of a manual to the differences between them, by meaning, each with its class and its cause."""

from procgen.diff.aligned import aligned_page
from procgen.diff.causes import explained
from procgen.diff.compare import compare, difference_hash, differences, owes, seal
from procgen.diff.inputs import input_edits

__all__ = [
    "aligned_page",
    "compare",
    "difference_hash",
    "differences",
    "explained",
    "input_edits",
    "owes",
    "seal",
]
