"""Computed limits: pure functions from hold and unit data to rows that say what governs them."""

from procgen.limits.fits import unit_fits
from procgen.limits.positions import position_cell, position_table

__all__ = ["position_cell", "position_table", "unit_fits"]
