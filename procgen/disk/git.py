"""The writer's folder as it stood in a revision that git keeps."""

from __future__ import annotations

import subprocess
from collections.abc import Mapping
from pathlib import Path

from procgen.diagnostics import ProcgenError

_ENDINGS = (".yaml", ".yml", ".json")


def read_revision(folder: Path, revision: str) -> Mapping[str, str]:
    """Every description below `folder` in a revision, by its path relative to it, in sorted order.

    Raises `ProcgenError` where git is missing, where the folder is in no repository, where there is no such
    revision, or where it holds no description there.
    """
    if revision.startswith("-"):
        raise ProcgenError(f"“{revision}” is no revision that git knows")
    listed = _git(folder, "ls-tree", "-r", "-z", "--name-only", revision, "--")
    names = sorted(name for name in listed.split("\0") if name.endswith(_ENDINGS))
    if not names:
        raise ProcgenError(f"{folder}: no description (*.yaml) in revision {revision}")
    return {name: _git(folder, "cat-file", "blob", f"{revision}:./{name}") for name in names}


def _git(folder: Path, *arguments: str) -> str:
    try:
        done = subprocess.run(
            ["git", "-C", str(folder), *arguments], capture_output=True, check=False, timeout=60
        )
    except FileNotFoundError as error:
        raise ProcgenError("git is not installed: a git revision cannot be read") from error
    except subprocess.TimeoutExpired as error:
        raise ProcgenError("git took more than a minute to answer") from error
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines()
        raise ProcgenError(f"git: {said[-1] if said else 'failed'}")
    try:
        return done.stdout.decode("utf-8")
    except UnicodeDecodeError as error:
        raise ProcgenError(f"git: {arguments[-1]} is not UTF-8 text") from error
