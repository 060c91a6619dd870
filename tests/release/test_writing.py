"""Writing a release: killed at any moment, the chain is in order; two writers never meet."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from procgen.diagnostics import ProcgenError
from procgen.disk.atomic import write_whole
from procgen.disk.releases import RELEASES, add, read_releases, writing
from procgen.release import LIST_FILE, Addition, read_chain
from tests.release.chains import CODE, approval_of, release_of

_CALLS = ("open", "write", "fsync", "replace", "close", "mkdir")


def put(station: Path, addition: Addition) -> None:
    with writing(station) as releases:
        add(releases, addition.name, addition.text, addition.lists, LIST_FILE)


def chain(station: Path) -> Any:
    return read_chain(CODE, read_releases(station / RELEASES))


def _killed_at(call: int, half: bool, work: Callable[[], None]) -> bool:
    """Do the work in a process of its own that kills itself at the nth call to the disk; whether it did."""
    child = os.fork()
    if child == 0:
        _count_down(call, half)
        work()
        os._exit(0)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        assert os.WTERMSIG(status) == signal.SIGKILL
        return True
    assert os.WEXITSTATUS(status) == 0
    return False


def _count_down(left: int, half: bool) -> None:
    """From here on, in this process, the call number `left` to the disk is the last thing that happens."""
    calls = {name: getattr(os, name) for name in _CALLS}

    def patched(name: str) -> Callable[..., Any]:
        def call(*arguments: Any, **keywords: Any) -> Any:
            nonlocal left
            if left == 0:
                if half and name == "write":
                    calls["write"](arguments[0], bytes(arguments[1])[: len(arguments[1]) // 2])
                os.kill(os.getpid(), signal.SIGKILL)
            left -= 1
            return calls[name](*arguments, **keywords)

        return call

    for name in _CALLS:
        setattr(os, name, patched(name))


@pytest.mark.parametrize("half", [False, True], ids=["before", "within"])
@pytest.mark.parametrize("what", ["first", "second", "approval"])
def test_killed_at_any_moment_the_chain_is_whole_and_goes_on(what: str, half: bool, tmp_path: Path) -> None:
    points = 0
    while True:
        station = tmp_path / f"{points}" / CODE
        station.mkdir(parents=True)
        if what != "first":
            put(station, release_of(chain(station)))
        before = chain(station)
        addition = approval_of(before, 1) if what == "approval" else release_of(before)
        killed = _killed_at(points, half, partial(put, station, addition))
        after = chain(station)
        assert after.findings == ()
        done = (len(after.releases), [len(one.approvals) for one in after.releases])
        old = (len(before.releases), [len(one.approvals) for one in before.releases])
        new = (old[0], [1]) if what == "approval" else (old[0] + 1, [*old[1], 0])
        assert done in (old, new)
        if not killed:
            assert done == new
            break
        # Whoever comes next finishes the work, and nothing half written is left.
        if done == old:
            again = approval_of(after, 1) if what == "approval" else release_of(after)
            put(station, again)
        else:
            with writing(station):
                pass
        assert chain(station).findings == ()
        assert [one.name for one in (station / RELEASES).glob(".*")] == []
        points += 1
    # Opened, written, brought to the disk and renamed: the list, the file, the list.
    assert points > 15


def test_a_release_is_never_written_over(tmp_path: Path) -> None:
    addition = release_of(chain(tmp_path))
    put(tmp_path, addition)
    before = read_releases(tmp_path / RELEASES)
    with pytest.raises(ProcgenError, match="never rewritten"):
        put(tmp_path, addition)
    assert read_releases(tmp_path / RELEASES) == before


def test_a_second_writer_is_refused_with_a_word_and_a_killed_one_holds_nothing(tmp_path: Path) -> None:
    hold = (
        "import sys, pathlib\n"
        "from procgen.disk.releases import writing\n"
        "with writing(pathlib.Path(sys.argv[1])):\n"
        "    print('held', flush=True)\n"
        "    sys.stdin.read()\n"
    )
    command = [sys.executable, "-c", hold, str(tmp_path)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        with pytest.raises(
            ProcgenError, match=r"another procgen is releasing or approving in .*: wait until"
        ):
            put(tmp_path, release_of(chain(tmp_path)))
        assert read_releases(tmp_path / RELEASES) == {}
        other.kill()
        other.wait()
    put(tmp_path, release_of(chain(tmp_path)))
    assert len(chain(tmp_path).releases) == 1


def test_a_disk_that_refuses_leaves_the_chain_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put(tmp_path, release_of(chain(tmp_path)))
    before = read_releases(tmp_path / RELEASES)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(ProcgenError, match=r"cannot write .*list\.json: No space left on device"):
        put(tmp_path, release_of(chain(tmp_path)))
    monkeypatch.undo()
    assert read_releases(tmp_path / RELEASES) == before
    assert [one.name for one in (tmp_path / RELEASES).glob(".*")] == []


def test_bytes_that_are_no_text_are_found_and_not_stumbled_over(tmp_path: Path) -> None:
    put(tmp_path, release_of(chain(tmp_path)))
    (tmp_path / RELEASES / "001.json").write_bytes(b"\xff\xfe\x00")
    assert [one.rule for one in chain(tmp_path).findings] == ["release-altered"]


def test_a_text_that_cannot_be_written_touches_nothing(tmp_path: Path) -> None:
    file = tmp_path / "file.json"
    with pytest.raises(ProcgenError, match="cannot write"):
        write_whole(file, "a\udcff")
    assert list(tmp_path.iterdir()) == []
