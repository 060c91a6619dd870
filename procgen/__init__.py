"""Derive, simulate and publish hold loading procedures from a description of the hold."""

__version__ = "0.1.0"
