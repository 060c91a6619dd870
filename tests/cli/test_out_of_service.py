"""Items out of service on the command line: named, planned for, written down and checked again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from procgen.cli.main import main

STATIONS = Path(__file__).parents[2] / "stations"


def _plan(hold: str, *more: str) -> int:
    return main(["plan", hold, "--stations", str(STATIONS), "--operation", "loading", *more])


@pytest.mark.parametrize("format_", ["yaml", "json"])
def test_a_plan_with_an_item_out_of_service_comes_back_through_the_check(
    format_: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Lock 41 cannot be raised: 43 and 44 are loaded all the same, and the procedure says what is wrong."""
    more = ["--positions", "43,44", "--out-of-service", "lock-41=down", "--format", format_]
    assert _plan("SR-AFT", *more) == 0
    text = capsys.readouterr().out
    assert "lock-41" in text
    file = tmp_path / f"plan.{format_}"
    file.write_text(text, "utf-8")
    assert main(["check", str(STATIONS), "--procedure", str(file)]) == 0
    assert capsys.readouterr().out.startswith("No finding")


def test_the_simulation_starts_with_the_item_dead(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The plan for a hold in order uses the lane drive; with the drive dead its first use is found."""
    assert _plan("SR-AFT", "--format", "yaml") == 0
    text = capsys.readouterr().out
    file = tmp_path / "plan.yaml"
    file.write_text(text.replace("steps:\n", "out-of-service: {lane-drive: dead}\nsteps:\n"), "utf-8")
    assert main(["check", str(STATIONS), "--procedure", str(file)]) == 1
    said = capsys.readouterr().out
    assert "lane drive is out of service [no-live-drive]" in said
    assert "1 error in 1 file" in said


def test_a_position_left_without_restraint_is_refused_with_its_reason(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert _plan("SR-AFT", "--positions", "41", "--out-of-service", "lock-41=missing") == 1
    said = capsys.readouterr().out
    assert "SR-AFT.yaml:179" in said
    assert "position 41 is not usable without lock 41: nothing that holds it is rated aft" in said
    assert said.splitlines()[-1] == (
        "What each position is still good for: procgen out-of-service SR-AFT --item lock-41=missing"
        f" --stations {STATIONS}"
    )


def test_a_lowered_limit_stands_with_the_steps(capsys: pytest.CaptureFixture[str]) -> None:
    """Without the inner guide the sill lock alone holds 44 to the right: 24 kN over 1.3 g is 1882 kg, which
    is more than 44 takes anyway; without the sill lock there is no plan, for the door cannot be closed."""
    assert _plan("SR-AFT", "--out-of-service", "inner-guide=missing") == 0
    said = capsys.readouterr().out
    assert "Out of service: inner guide missing" in said
    assert "instead of" not in said
    assert _plan("SR-AFT", "--out-of-service", "sill-lock=down") == 1
    assert "the aft cargo door cannot be closed: door sill lock is stuck lowered" in capsys.readouterr().out


def test_nobody_is_asked_to_look_at_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ("SR-AFT", "--positions", "41", "--out-of-service")
    assert _plan(*asked, "sill-stop=down") == 0
    assert "Check lowered: sill stop, lock 43, lock 42, lock 41." in capsys.readouterr().out
    assert _plan(*asked, "sill-stop=missing") == 0
    assert "Check lowered: lock 43, lock 42, lock 41." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("item", "said"),
    [
        ("lock-41", "say which: lock-41=down (it cannot be raised), lock-41=up"),
        ("lok-41=down", "did you mean lock-41?"),
        ("lane-drive=up", "lane-drive cannot be “up”; write lane-drive=dead"),
        ("end-stop=down", "end-stop cannot be “down”; write end-stop=missing"),
        ("lock-41=down,lock-41=up", "lock-41 cannot be down and up: name it once"),
    ],
)
def test_an_item_that_cannot_be_meant_is_answered_with_what_could_be(
    item: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _plan("SR-AFT", "--out-of-service", item) == 2
    assert said in capsys.readouterr().err


def test_the_matrix_of_one_item_as_text_and_as_data(capsys: pytest.CaptureFixture[str]) -> None:
    command = ["out-of-service", "SR-AFT", "--stations", str(STATIONS), "--item", "lock-42=up"]
    assert main(command) == 0
    said = capsys.readouterr().out
    assert "lock 42 stuck up" in said
    assert "  loading 43: other steps\n      without: Raise lock 42." in said
    assert "lock 42 between 43 and 42 stops forward travel and is stuck raised" in said
    assert "fleet/holds/SR-AFT.yaml:126" in said
    assert main([*command, "--format", "json"]) == 0
    (row,) = json.loads(capsys.readouterr().out)["rows"]
    cells = {(cell["operation"], cell["position"]): cell for cell in row["cells"]}
    assert cells["loading", "43"]["alone"]["left_out"] == [{"raise": "lock-42"}]
    (reason,) = cells["loading", "41"]["alone"]["reasons"]
    assert (reason["line"],) == (126,)


def test_a_look_that_is_only_split_otherwise_is_no_other_step(capsys: pytest.CaptureFixture[str]) -> None:
    """What is looked at on both sides is not told, and nets are removed, not lowered."""
    assert main(["out-of-service", "BK-AFT", "--item", "net-52=down", "--stations", str(STATIONS)]) == 0
    said = capsys.readouterr().out
    told = said.partition("  unloading 52: other steps\n")[2].partition("  unloading 53")[0]
    lines = [line.strip() for line in told.splitlines()]
    assert lines == ["without: Remove net 52.", "with: Check removed: net 52."]


def test_a_section_needs_the_nets_on_both_its_sides(capsys: pytest.CaptureFixture[str]) -> None:
    """A net holds a load towards itself: the one behind a section holds nothing that slides forward."""
    assert main(["out-of-service", "BK-AFT", "--item", "net-52=down", "--stations", str(STATIONS)]) == 0
    said = capsys.readouterr().out
    assert "position 52 is not usable without net 52: nothing that holds it is rated forward" in said
