"""`--registration`: one aircraft, where not all of its type have the same holds."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from difflib import get_close_matches

from procgen.diagnostics import ProcgenError
from procgen.model.hold import Hold
from procgen.model.station import Network


def registration_option(parser: argparse.ArgumentParser) -> None:
    """`--registration MARK`."""
    parser.add_argument(
        "--registration",
        metavar="MARK",
        help="the aircraft, as in Q4-R1: takes the hold as that aircraft has it, whichever variant is named",
    )


def holds_by_registration(network: Network, registration: str) -> Mapping[str, Hold]:
    """The holds of one aircraft by every name that they and their variants go by.

    Raises `ProcgenError` with what there is where no aircraft has the registration.
    """
    from procgen.pipeline.outfits import found, holds_of

    one = found(network, registration)
    if one is None:
        raise nobody(network, registration)
    return holds_of(network, *one)


def nobody(network: Network, registration: str) -> ProcgenError:
    """That no aircraft has a registration, with those that there are."""
    known = [mark for aircraft in network.aircraft.values() for mark in aircraft.registrations]
    near = get_close_matches(registration.upper(), known, n=1)
    hint = f"; did you mean {near[0]}?" if near else ""
    return ProcgenError(
        f"no aircraft is registered {registration}{hint} (registrations: {', '.join(known) or 'none'})"
    )


def hold_of(network: Network, name: str, registration: str) -> Hold:
    """A hold as one aircraft has it. Raises `ProcgenError` where that aircraft has no such hold."""
    holds = holds_by_registration(network, registration)
    if name not in holds:
        has = ", ".join(dict.fromkeys(hold.name for hold in holds.values()))
        raise ProcgenError(f"{registration} has no hold {name} (its holds: {has or 'none'})")
    return holds[name]
