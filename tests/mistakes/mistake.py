"""Honest mistakes of a technical writer, each made once in a copy of the demonstration stations."""

from __future__ import annotations

from typing import NamedTuple

SR = "fleet/holds/SR-AFT.yaml"
TR = "fleet/holds/TR-FWD.yaml"
BK = "fleet/holds/BK-AFT.yaml"
MX = "fleet/holds/MX-AFT.yaml"
FLEET = "fleet/fleet.yaml"
K1B = "K1B/station.yaml"
N4T = "N4T/station.yaml"
STEPS = "K1B/procedures/sr-aft-two-units.yaml"


class Mistake(NamedTuple):
    """One slip: in `file`, `find` (which stands once) became `put`.

    The check must find `rule` on a line that holds `line`, and say all of `words` in its message or
    suggestion. `where` is the file of that line, if it is another than the edited one.
    """

    name: str
    file: str
    find: str
    put: str
    rule: str
    line: str
    words: tuple[str, ...]
    where: str = ""
