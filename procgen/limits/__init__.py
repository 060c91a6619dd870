"""Computed limits: pure functions from hold and unit data to rows that say what governs them.

What a position may carry is exported here. The other tables have a module each: `zones` (several units
together), `missing` (restraints out of service), `contact` (floor contact and spreading), `tiedown`,
`doorway` (what goes through a door), `handmoves` (pushing by hand), `stability` (nose gear share).
"""

from procgen.limits.fits import unit_fits
from procgen.limits.positions import position_cell, position_table

__all__ = ["position_cell", "position_table", "unit_fits"]
