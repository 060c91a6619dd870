"""Write a file so that it is there whole or not at all, whatever happens; and let one writer in at a time."""

from __future__ import annotations

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from procgen.diagnostics import ProcgenError

_HALF = ".half-written-"


def write_whole(path: Path, text: str) -> None:
    """Put a text in the place of `path`, in UTF-8: the old content or the new one is there, never a part.

    The text is written beside the file, brought to the disk, and renamed over it; then the folder is
    brought to the disk too. A process that is killed meanwhile leaves at most a hidden file behind.
    Raises `ProcgenError` when the disk refuses, or when a character of the text cannot be written.
    """
    try:
        data = text.encode("utf-8")
    except UnicodeEncodeError as error:
        raise ProcgenError(f"cannot write {path}: a character in it is none of Unicode's") from error
    beside = path.parent / f"{_HALF}{os.getpid()}-{path.name}"
    try:
        handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o644)
        try:
            _write_all(handle, data)
            os.fsync(handle)
        finally:
            os.close(handle)
        os.replace(beside, path)
        _sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            beside.unlink()
        raise ProcgenError(f"cannot write {path}: {error.strerror or error}") from error


def make_folder(path: Path) -> None:
    """Make a folder, if it is not there, and bring it to the disk. Raises `ProcgenError`."""
    try:
        path.mkdir(exist_ok=True)
        _sync_folder(path.parent)
    except OSError as error:
        raise ProcgenError(f"cannot make {path}: {error.strerror or error}") from error


def clear_half_written(folder: Path) -> None:
    """Take away what writers that were killed left behind. Only for who holds the folder's lock."""
    for path in sorted(folder.glob(f"{_HALF}*")):
        path.unlink(missing_ok=True)


@contextmanager
def only_writer(folder: Path, doing: str) -> Iterator[None]:
    """Hold a folder against every other writer that asks for it too.

    The lock is the system's own and ends with the process that holds it, however it ends: none is ever
    left behind. Raises `ProcgenError` at once when another process holds it; `doing` says what for.
    """
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except OSError as error:
        raise ProcgenError(f"cannot open {folder}: {error.strerror or error}") from error
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise ProcgenError(f"another procgen is {doing} in {folder}: wait until it has ended") from None
        except OSError as error:
            raise ProcgenError(f"cannot lock {folder}: {error.strerror or error}") from error
        yield
    finally:
        os.close(handle)


def _write_all(handle: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        view = view[os.write(handle, view) :]


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
