"""The calls that the help and the README show give what they promise, on the demonstration's data."""

from __future__ import annotations

import re
import shlex
from importlib import import_module

import pytest

from procgen.cli.main import COMMANDS, main
from tests.support import ROOT

PLANNING = ("plan", "recover", "limits")
"""Commands that only read, and that answer in a moment."""


def _shown() -> list[str]:
    texts = [(ROOT / "README.md").read_text("utf-8"), import_module("procgen.cli.main")._EPILOG]
    texts += [import_module(f"procgen.cli.{name.replace('-', '_')}").__doc__ or "" for name in COMMANDS]
    lines = {
        line.strip()
        for text in texts
        for line in text.splitlines()
        if line.startswith(("  procgen", "    procgen"))
    }
    # What follows in the README and the list of first steps, behind three blanks, is what the call is for.
    calls = {re.split(r" {2,}| > ", line)[0] for line in lines}
    return sorted(call for call in calls if call.split()[1] in PLANNING)


@pytest.mark.parametrize("call", _shown())
def test_an_example_of_the_help_gives_an_answer(call: str, capsys: pytest.CaptureFixture[str]) -> None:
    status = main([*shlex.split(call)[1:], "--stations", str(ROOT / "stations")])
    told = capsys.readouterr()
    # A limit that is not met, and that somebody has to be called, are answers; that there is no plan is none.
    assert status == 0 or (status == 1 and call.split()[1] != "plan"), told.out + told.err
    assert told.out
    assert not told.err


def test_the_examples_are_read_as_they_are_written() -> None:
    assert len(_shown()) >= 8
    assert "procgen plan TR-FWD --operation loading" in _shown()
