"""`procgen diff`: versions named on the command line, every format, exit status."""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path

import pytest

from procgen.cli.main import main
from tests.diff.versions import files

LIMIT = ("fleet/holds/SR-AFT.yaml", "combined: 4000 kg", "combined: 4100 kg")


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    """Two stations of the demonstration with one hold, in a repository of their own, committed."""
    folder = tmp_path / "stations"
    station = files()["K1B/station.yaml"].replace("K1B", "N4T").replace("mass-unit: kg", "mass-unit: lb")
    head, _, rest = station.partition("wind:")
    for file, text in {**files(), "N4T/station.yaml": head + rest.partition("\n")[2]}.items():
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_text(text, "utf-8")
    for command in (
        ["init", "-q"],
        ["add", "-A"],
        ["-c", "user.name=A", "-c", "user.email=a@b.invalid", "commit", "-q", "-m", "first"],
    ):
        subprocess.run(["git", "-C", str(tmp_path), *command], check=True)
    return folder


def edit(folder: Path, file: str, find: str, put: str) -> None:
    text = (folder / file).read_text("utf-8")
    assert text.count(find) == 1
    (folder / file).write_text(text.replace(find, put), "utf-8")


def run(folder: Path, *arguments: str) -> int:
    return main(["diff", *arguments, "--stations", str(folder)])


def test_a_draft_against_what_git_has(kept: Path, capsys: pytest.CaptureFixture[str]) -> None:
    edit(kept, *LIMIT)
    assert run(kept, "N4T/SR-AFT@git:HEAD", "N4T/SR-AFT", "--format", "json") == 1
    data = json.loads(capsys.readouterr().out)
    assert data["counts"] == {"loosened": 1, "tightened": 0, "changed": 0, "wording": 0}
    (one,) = data["differences"]
    assert (one["identity"], one["was"]["text"], one["now"]["text"]) == (
        "SR-AFT/zones/aft-hold/combined",
        "4000 kg",
        "4100 kg",
    )
    assert one["number"]["change"]["text"] == "100 kg"
    assert one["accept_with"].startswith('- {difference: "SR-AFT/zones/aft-hold/combined", seal: "')
    (place,) = data["edits"][0]["places"]
    line = (kept / LIMIT[0]).read_text("utf-8").splitlines()[place["now_line"] - 1]
    assert "combined: 4100 kg" in line
    for format_, sign in (
        ("text", "+100 kg (+2.5 %)"),
        ("markdown", "| SR-AFT: zone aft-hold: combined limit |"),
    ):
        assert run(kept, "N4T/SR-AFT@git:HEAD", "N4T/SR-AFT", "--format", format_) == 1
        assert sign in capsys.readouterr().out


def test_nothing_owed_is_0_and_cannot_compare_is_2(kept: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(kept, "N4T/SR-AFT@git:HEAD", "N4T/SR-AFT") == 0
    assert "Nothing that is published differs." in capsys.readouterr().out
    for wrong in ("N4T@git:no-such-revision", "X9X", "N4T@7", "N4T/TR-FWD", "@", "N4T@git:--help"):
        assert run(kept, wrong, "N4T") == 2, wrong
    edit(kept, LIMIT[0], LIMIT[1], "combined: lots")
    assert run(kept, "N4T@git:HEAD", "N4T") == 2
    assert "lots" in capsys.readouterr().out


def test_one_hold_across_stations(kept: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(kept, "K1B/SR-AFT", "N4T/SR-AFT", "--format", "json") == 1
    data = json.loads(capsys.readouterr().out)
    by_identity = {one["identity"]: one for one in data["differences"]}
    assert by_identity["station/mass-unit"]["class"] == "changed"
    assert by_identity["SR-AFT/doors/aft-door/wind/opening"]["class"] == "loosened"
    assert not any(name.startswith("TR-FWD") for name in by_identity)
    for one in data["differences"]:
        assert one["causes"], one["identity"]
        assert one["accept_with"] is None, "no release leads from one station to another"


def test_who_accepted_what_got_less_safe(
    kept: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The question of a reviewer: what got less safe since revision 1, why, and who accepted it?"""
    where = ["--stations", str(kept)]
    station = kept / "K1B" / "station.yaml"
    station.write_text(re.sub(r"revision:\n(  .*\n)+", "", station.read_text("utf-8")), "utf-8")
    asked = ["--effective", "2026-12-01", "--reason", "Due.", "--author", "A. Author", *where]
    assert main(["release", "K1B", "--date", "2026-11-01", *asked]) == 0
    edit(kept, *LIMIT)
    capsys.readouterr()
    assert main(["release", "K1B", "--date", "2026-11-02", *asked]) == 1
    line = re.findall(r"- {difference.*}", capsys.readouterr().out)[0]
    assert run(kept, "K1B@1", "K1B", "--format", "json") == 1
    (owed,) = json.loads(capsys.readouterr().out)["differences"]
    assert owed["accept_with"] == line
    for blank, word in (("NAME", "T. Fell"), ("YYYY-MM-DD", "2026-11-02"), ("WHY", "New data.")):
        line = line.replace(blank, word)
    (kept / "K1B" / "answers.yaml").write_text(f"answers:\n  {line}\n", "utf-8")
    assert run(kept, "K1B@1", "K1B") == 0
    assert "accepted by T. Fell on 2026-11-02: New data." in capsys.readouterr().out
    assert main(["release", "K1B", "--date", "2026-11-02", *asked]) == 0
    edit(kept, "fleet/holds/SR-AFT.yaml", "wall: 90 mm", "wall: 85 mm")
    capsys.readouterr()
    assert run(kept, "K1B@1", "K1B@2") == 0
    assert "accepted by T. Fell on 2026-11-02 (revision 2): New data." in capsys.readouterr().out
    assert run(kept, "K1B@1", "K1B", "--format", "json") == 1
    shown = {one["identity"]: one["accepted"] for one in json.loads(capsys.readouterr().out)["differences"]}
    assert shown == {
        "SR-AFT/doors/aft-door/wall": [],
        "SR-AFT/zones/aft-hold/combined": [
            {"by": "T. Fell", "date": "2026-11-02", "reason": "New data.", "revision": 2}
        ],
    }
    edit(kept, LIMIT[0], "combined: 4100 kg", "combined: 4200 kg")
    assert run(kept, "K1B@1", "K1B", "--format", "json") == 1
    (_, again) = json.loads(capsys.readouterr().out)["differences"]
    assert again["accepted"] == [], "what changed since it was accepted needs a new acceptance"


def test_a_page_is_written_whole(kept: Path, tmp_path: Path) -> None:
    edit(kept, *LIMIT)
    out = tmp_path / "review.html"
    assert run(kept, "N4T/SR-AFT@git:HEAD", "N4T/SR-AFT", "--format", "html", "--out", str(out)) == 1
    text = out.read_text("utf-8")
    assert text.startswith("<!doctype html>")
    assert "http" not in text.replace("http-equiv", "").replace("http://www.w3.org", "")
    for part in (
        "1 difference makes it less safe",
        "+100 kg (+2.5 %)",
        "SR-AFT/zones/aft-hold/combined",
        "<strong>nobody</strong>",
    ):
        assert part in text
