"""A station's manual released, approved, listed and defended, by the commands."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from procgen.cli.main import main
from tests.support import ROOT

HOLD = "fleet/holds/ONE.yaml"
EXAMPLE = ROOT / "procgen" / "data" / "example"


@pytest.fixture
def stations(tmp_path: Path) -> Path:
    """The packaged example, whose station S3C has released nothing yet."""
    folder = tmp_path / "stations"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("releases"))
    return folder


def release(folder: Path, date: str, *more: str) -> int:
    about = [
        "--effective",
        date,
        "--date",
        date,
        "--reason",
        "First issue.",
        "--author",
        "I. Sorrel (invented)",
    ]
    return main(["release", "S3C", "--stations", str(folder), *about, *more])


def approve(folder: Path, number: int, name: str, date: str, *more: str) -> int:
    about = ["--as", name, "--date", date, "--stations", str(folder)]
    return main(["approve", "S3C", str(number), *about, *more])


def change(folder: Path, old: str, new: str) -> None:
    path = folder / HOLD
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


def test_a_manual_is_released_approved_and_listed(stations: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert release(stations, "2026-03-01") == 0
    assert "released; a draft until it is approved" in capsys.readouterr().out
    assert main(["record", "S3C", "--stations", str(stations), "--hash"]) == 0
    identity = capsys.readouterr().out.strip()
    assert main(["history", "S3C", "--stations", str(stations), "--on", "2026-04-01"]) == 0
    listed = capsys.readouterr().out
    assert "revision 1: draft" in listed
    assert f"identity {identity}" in listed
    assert approve(stations, 1, "R. Quill (invented)", "2026-03-02") == 0
    capsys.readouterr()
    history = ["history", "S3C", "--stations", str(stations), "--on", "2026-04-01", "--format", "json"]
    assert main(history) == 0
    (revision,) = json.loads(capsys.readouterr().out)["revisions"]
    assert (revision["standing"], revision["approvals"][0]["by"]) == ("in force", "R. Quill (invented)")
    main(["check", str(stations), "--on", "2026-04-01"])
    assert "releases" not in capsys.readouterr().out


def test_what_was_loosened_is_answered_before_it_is_released(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert release(stations, "2026-03-01") == 0
    assert release(stations, "2026-03-02") == 2
    assert "nothing has changed since revision 1" in capsys.readouterr().err
    change(stations, "lock-21, rails], max: {K: 900 kg}", "lock-21, rails], max: {K: 950 kg}")
    assert release(stations, "2026-06-01") == 1
    told = capsys.readouterr()
    assert "answer these first" in told.err
    lines = [line.strip() for line in told.out.splitlines() if line.strip().startswith("- {difference:")]
    assert lines
    filled = [
        line.replace("NAME", "R. Quill (invented)")
        .replace("YYYY-MM-DD", "2026-05-30")
        .replace("WHY", "By the data: all of it, as on page 5-2.")
        for line in lines
    ]
    answers = stations / "S3C" / "answers.yaml"
    given = "answers:\n" + "".join(f"  {line}\n" for line in filled)
    answers.write_text(given, "utf-8")
    assert release(stations, "2026-06-01") == 0
    capsys.readouterr()
    versions = ["diff", "S3C@1", "S3C@2", "--stations", str(stations), "--format", "json"]
    main(versions)
    looked_at = json.loads(capsys.readouterr().out)["hash"]
    assert approve(stations, 2, "R. Quill (invented)", "2026-06-01", "--differences", "0" * 16) == 2
    told_again = capsys.readouterr().err
    assert f"the differences of revision 2 are {looked_at[:16]}: look again" in told_again
    first = approve(stations, 1, "R. Quill (invented)", "2026-06-01", "--differences", looked_at)
    assert (first, "none: it is the first" in capsys.readouterr().err) == (2, True)
    assert approve(stations, 2, "R. Quill (invented)", "2026-06-01", "--differences", looked_at[:16]) == 0
    capsys.readouterr()
    assert main(["history", "S3C", "--stations", str(stations), "--format", "json"]) == 0
    second = json.loads(capsys.readouterr().out)["revisions"][1]
    assert second["approvals"][0]["differences"] == looked_at
    assert {one["by"] for one in second["answers"]} == {"R. Quill (invented)"}
    assert {one["difference"] for one in second["answers"]} <= set(second["approvals"][0]["accepted"])


def test_the_check_names_a_release_that_was_tampered_with_and_nothing_is_added_to_it(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert release(stations, "2026-03-01") == 0
    file = stations / "S3C" / "releases" / "001.json"
    file.write_text(file.read_text("utf-8").replace("First issue.", "First issue!"), "utf-8")
    capsys.readouterr()
    assert main(["check", str(stations)]) == 1
    assert (
        "S3C/releases/001.json:1:1: error: “001.json” was altered after it was released"
        in capsys.readouterr().out
    )
    before = sorted((stations / "S3C" / "releases").iterdir())
    assert release(stations, "2026-06-01") == 1
    assert approve(stations, 1, "R. Quill (invented)", "2026-06-01") == 1
    capsys.readouterr()
    assert main(["history", "S3C", "--stations", str(stations)]) == 1
    told = capsys.readouterr().out
    assert "in force" not in told
    assert "has released nothing" not in told
    assert "what S3C has released cannot be told, for the releases are not in order" in told
    assert sorted((stations / "S3C" / "releases").iterdir()) == before


def test_nothing_is_released_while_the_check_finds_anything(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    change(stations, "running: {value: 700 kg/m", "running: {value: 700")
    assert release(stations, "2026-03-01") == 1
    assert "mend or answer these first" in capsys.readouterr().err
    assert not (stations / "S3C" / "releases").exists()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (
            ["release", "XXX", "--effective", "2026-03-01", "--reason", "R", "--author", "A"],
            "there is no station XXX",
        ),
        (["history", "XXX"], "there is no station XXX"),
        (["approve", "S3C", "1", "--as", "B"], "S3C has no revision 1 (revisions: none)"),
        (["approve", "S3C", "1", "--as", " "], "the name is empty"),
        (["history", "S3"], "there is no station S3"),
        (
            ["approve", "S3C", "1", "--as", "A\x1b[31mB"],
            "the name has a character in it that cannot be printed",
        ),
        (["approve", "S3C", "1", "--as", "A\udcff"], "the name has a character in it that cannot"),
        (
            ["approve", "S3C", "1", "--as", "A", "--remark", "B\0"],
            "the remark has a character in it that cannot",
        ),
        (
            ["release", "S3C", "--effective", "2099-03-01", "--reason", "R\u202e", "--author", "A"],
            "the reason has a character in it that cannot be printed (U+202E)",
        ),
        (
            ["release", "S3C", "--effective", "2020-03-01", "--reason", "R", "--author", "A"],
            "before the day of",
        ),
        (
            [
                "release",
                "S3C",
                "--effective",
                "2099-03-01",
                "--expires",
                "2099-02-01",
                "--reason",
                "R",
                "--author",
                "A",
            ],
            "before it comes into force",
        ),
    ],
)
def test_what_makes_no_sense_is_said_in_one_line(
    arguments: list[str], says: str, stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([*arguments, "--stations", str(stations)]) == 2
    told = capsys.readouterr().err
    assert says in told
    assert told.count("\n") == 1


def test_nobody_approves_their_own_release(stations: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert release(stations, "2026-03-01") == 0
    assert approve(stations, 1, "i.  sorrel (Invented)", "2026-03-02") == 2
    assert "somebody else approves it" in capsys.readouterr().err
    assert approve(stations, 1, "R. Quill (invented)", "2026-02-02") == 2
    assert approve(stations, 1, "R. Quill (invented)", "2026-03-02") == 0
    assert approve(stations, 1, "R. Quill (invented)", "2026-03-03") == 2
    assert "has approved revision 1 already" in capsys.readouterr().err


@pytest.mark.parametrize("number", ["x", "0", "-1", "1.5", "²"])
def test_a_revision_has_a_whole_number(
    number: str, stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["approve", "S3C", "--as", "B", "--stations", str(stations), "--", number])
    assert ended.value.code == 2
    assert "is no number of a revision: write 1, 2, 3" in capsys.readouterr().err


def test_answers_that_nobody_can_have_given_are_refused_each_with_its_place(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """By the author himself, dated ahead, dated before there was anything to compare with."""
    assert release(stations, "2026-03-01") == 0
    change(stations, "lock-21, rails], max: {K: 900 kg}", "lock-21, rails], max: {K: 950 kg}")
    assert release(stations, "2026-06-01") == 1
    lines = [line.strip() for line in capsys.readouterr().out.splitlines() if "- {difference:" in line]
    for by, date, why in (
        ("i. sorrel  (invented)", "2026-05-30", "the author of the release: somebody else accepts it"),
        ("R. Quill (invented)", "2030-01-01", "after the day of the release (2026-06-01)"),
        ("R. Quill (invented)", "2026-02-28", "before the last release (2026-03-01)"),
    ):
        filled = [
            line.replace("NAME", by).replace("YYYY-MM-DD", date).replace("WHY", "Data.") for line in lines
        ]
        text = "answers:\n" + "".join(f"  {line}\n" for line in filled)
        (stations / "S3C" / "answers.yaml").write_text(text, "utf-8")
        assert release(stations, "2026-06-01") == 1
        told = capsys.readouterr().out
        assert told.count(why) == len(lines), told
        assert "S3C/answers.yaml:2:5: the answer to " in told
    assert not (stations / "S3C" / "releases" / "002.json").exists()


def test_releases_taken_away_with_their_lines_in_the_list_leave_the_answers_as_a_trace(
    stations: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert release(stations, "2026-03-01") == 0
    releases = stations / "S3C" / "releases"
    first = {path.name: path.read_text("utf-8") for path in releases.iterdir()}
    change(stations, "lock-21, rails], max: {K: 900 kg}", "lock-21, rails], max: {K: 950 kg}")
    assert release(stations, "2026-06-01") == 1
    lines = [line.strip() for line in capsys.readouterr().out.splitlines() if "- {difference:" in line]
    filled = [
        line.replace("NAME", "R. Quill").replace("YYYY-MM-DD", "2026-05-30").replace("WHY", "Data.")
        for line in lines
    ]
    (stations / "S3C" / "answers.yaml").write_text(
        "answers:\n" + "".join(f"  {line}\n" for line in filled), "utf-8"
    )
    assert release(stations, "2026-06-01") == 0
    capsys.readouterr()
    history = ["history", "S3C", "--stations", str(stations)]
    assert main(history) == 0
    assert "in no release" not in capsys.readouterr().out
    for path in releases.iterdir():
        path.unlink()
    for name, text in first.items():
        (releases / name).write_text(text, "utf-8")
    assert main(history) == 0
    assert "in no release; the last is revision 1 of 2026-03-01" in capsys.readouterr().out
    main(["check", str(stations)])
    assert "S3C/answers.yaml:2:5: advice: " in capsys.readouterr().out
    shutil.rmtree(releases)
    assert main(history) == 1
    assert "S3C has no releases, and answers to what differs from one" in capsys.readouterr().out
