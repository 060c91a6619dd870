"""The guide is true: its files are assembled in its order and its commands answer as it shows.

A block with a file name adds to that file; one with `replaces` puts its text in the place of another. A
block `console` is one command and the whole of its answer. `--update-golden` writes the answers anew.
"""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from procgen.cli.main import main

GUIDE = Path(__file__).parents[2] / "docs" / "describe-a-hold.md"
BLOCK = re.compile(
    r'```(?P<kind>yaml|console)(?: title="(?P<file>[^"]+)")?(?: replaces="(?P<old>[^"]+)")?\n'
    r"(?P<text>.*?)```\n",
    re.DOTALL,
)


@pytest.mark.slow
def test_every_file_and_answer_of_the_guide(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    request: pytest.FixtureRequest,
) -> None:
    guide = GUIDE.read_text("utf-8")
    monkeypatch.chdir(tmp_path)
    answers: list[tuple[str, str]] = []
    for block in BLOCK.finditer(guide):
        if block["kind"] == "yaml":
            _write(tmp_path / "my-stations" / block["file"], block["text"], block["old"])
            continue
        command = block["text"].splitlines()[0].removeprefix("$ procgen ")
        main(shlex.split(command))
        answers.append(
            (block[0], f"```console\n$ procgen {command}\n{capsys.readouterr().out.rstrip()}\n```\n")
        )
    assert len(answers) >= 5
    for shown, answered in answers:
        guide = guide.replace(shown, answered, 1)
    if request.config.getoption("--update-golden"):
        GUIDE.write_text(guide, "utf-8")
    assert guide == GUIDE.read_text("utf-8")
    assert (tmp_path / "my-site" / "B2C" / "cards" / "MID-loading.html").is_file()


def _write(path: Path, text: str, old: str | None) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    before = path.read_text("utf-8") if path.exists() else ""
    if old is None:
        path.write_text(before + text, "utf-8")
        return
    assert before.count(old) == 1
    path.write_text(before.replace(old, text.rstrip("\n")), "utf-8")
