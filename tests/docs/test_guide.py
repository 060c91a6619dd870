"""The guides are true: their files are assembled in their order and their commands answer as they show.

A block with a file name adds to that file; one with `replaces` puts its text in the place of another. A
block `console` is one command and the whole of its answer. `--update-golden` writes the answers anew.
"""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from procgen.cli.main import main

DOCS = Path(__file__).parents[2] / "docs"
BLOCK = re.compile(
    r'```(?P<kind>yaml|csv|console)(?: title="(?P<file>[^"]+)")?(?: replaces="(?P<old>[^"]+)")?\n'
    r"(?P<text>.*?)```\n",
    re.DOTALL,
)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("page", "made"),
    [
        ("describe-a-hold.md", "my-site/B2C/cards/MID-loading.html"),
        ("more-holds.md", "my-stations/H7N/releases/001.approval-1.json"),
    ],
)
def test_every_file_and_answer_of_the_guide(
    page: str,
    made: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    request: pytest.FixtureRequest,
) -> None:
    path = DOCS / page
    guide = path.read_text("utf-8")
    monkeypatch.chdir(tmp_path)
    answers: list[tuple[str, str]] = []
    for block in BLOCK.finditer(guide):
        if block["kind"] != "console":
            folder = tmp_path / "my-stations" if block["kind"] == "yaml" else tmp_path
            _write(folder / block["file"], block["text"], block["old"])
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
        path.write_text(guide, "utf-8")
    assert guide == path.read_text("utf-8")
    assert (tmp_path / made).is_file()


def _write(path: Path, text: str, old: str | None) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    before = path.read_text("utf-8") if path.exists() else ""
    if old is None:
        path.write_text(before + text, "utf-8")
        return
    assert before.count(old) == 1
    path.write_text(before.replace(old, text.rstrip("\n")), "utf-8")
