"""From documents to the model: shape, names and dimensions are checked, records are built."""

from procgen.load.network import Loaded, load_network, load_procedure

__all__ = ["Loaded", "load_network", "load_procedure"]
