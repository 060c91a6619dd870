"""From documents to the model: shape, names and dimensions are checked, records are built.

`load_network` loads a stations folder, `load_procedure` one procedure beside it. Whatever is wrong is a
finding under one of `RULES`; nothing raises for what a text holds. `reference` turns the schemas into
the data reference of the documentation.
"""

from procgen.load.files import FLEET_FILE
from procgen.load.network import Loaded, load_network, load_procedure
from procgen.load.rules import RULES

__all__ = ["FLEET_FILE", "RULES", "Loaded", "load_network", "load_procedure"]
