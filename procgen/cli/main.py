"""`procgen`: parse the command line, run one command, end with its exit status.

0: nothing to answer. 1: findings, or no plan. 2: could not run. Commands import what they need when they
run, so that help answers at once.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from importlib import import_module

from procgen import __version__
from procgen.diagnostics import ProcgenError

COMMANDS = (
    "check",
    "build",
    "plan",
    "out-of-service",
    "recover",
    "limits",
    "load",
    "sequence",
    "record",
    "release",
    "approve",
    "history",
    "diff",
    "faults",
    "rules",
    "explain",
    "reference",
)

_DESCRIPTION = """\
Derive hold loading procedures from a description of each hold, check them by simulation, and publish
them. A folder of stations holds:

  fleet/fleet.yaml          the airline, its aircraft types and unit load devices
  fleet/holds/HOLD.yaml     one hold: bays, lanes, restraints, controls, limits, with their sources
  CODE/station.yaml         one station: the holds it works, contacts, revision
  CODE/procedures/*.yaml    procedures written by hand, checked like the derived ones
"""

_EPILOG = """\
Start here:
  procgen check stations                       find everything that is wrong, with file, line and column
  procgen plan TR-FWD --operation loading      read the derived steps of one hold
  procgen out-of-service SR-AFT                what each position is good for with any one item dead
  procgen recover SR-AFT --operation loading --step 18   the way out when something goes wrong at a step
  procgen limits TR-FWD                        what each position may carry, and what governs it
  procgen load load.csv                        check a given load: used, margin and first limit to bind
  procgen sequence PETREL-500                  in which order to work an aircraft's holds
  procgen explain move-through-raised-restraint   what a finding means and how to mend it
  procgen diff K1B@1 K1B                       what got less safe since revision 1, why, who accepted it
  procgen build stations --out site            publish, if the check finds no error

Exit status: 0 nothing to answer, 1 findings or no plan, 2 could not run.
The operator's approved manuals and local rules come before anything this program prints.
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line; returns the exit status."""
    options = _parser().parse_args(_known(sys.argv[1:] if arguments is None else arguments))
    command = import_module(_module(options.command))
    try:
        status: int = command.run(options)
        sys.stdout.flush()
    except ProcgenError as error:
        print(f"procgen: {error}", file=sys.stderr)
        return 2
    except BrokenPipeError:
        # The reader of our output has gone (`procgen diff A B | head`). No word about it, but no verdict
        # either: what was not read to its end must not pass for “nothing owed”.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 2
    except KeyboardInterrupt:
        print("procgen: stopped", file=sys.stderr)
        return 130
    return status


def _known(arguments: Sequence[str]) -> Sequence[str]:
    """The arguments, unless the first is a word that is no command: then ends with the nearest one."""
    word = arguments[0] if arguments else "-"
    if not word.startswith("-") and word not in COMMANDS:
        near = get_close_matches(word, COMMANDS, n=1)
        hint = f"did you mean “procgen {near[0]}”?" if near else f"commands: {', '.join(COMMANDS)}"
        print(f"procgen: there is no command “{word}”; {hint}", file=sys.stderr)
        raise SystemExit(2)
    return arguments


def _module(command: str) -> str:
    return f"procgen.cli.{command.replace('-', '_')}"


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="procgen",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"procgen {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for name in COMMANDS:
        module = import_module(_module(name))
        command = commands.add_parser(
            name,
            help=module.SUMMARY,
            description=module.__doc__,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
        )
        module.arguments(command)
    return parser


if __name__ == "__main__":
    sys.exit(main())
