"""Call the site builder, and put a new site in the place of the old one only when it is whole."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

import yaml

from procgen.diagnostics import ProcgenError
from procgen.publish import blocks
from procgen.publish.links import broken_links

_SETTINGS = "mkdocs.yml"
_HOOKED = "mkdocs.hooked.yml"
"""A site's settings with our hooks: speed is no matter of what the tree says."""
_QUIET = {"NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true", "NO_COLOR": "1"}
_MARKER = ".procgen-site"
"""Says that a folder is a site of ours, which a new build may replace."""
_USELESS = ("404.html", "sitemap.xml", "sitemap.xml.gz")
"""What the builder adds that is wrong in a folder without an address, or changes with the clock."""


def build_site(tree: Mapping[str, str], destination: Path) -> None:
    """Build every site of a tree and put them in `destination`, all or nothing.

    Each `mkdocs.yml` in the tree is a site; it goes into the folder of the same path below the
    destination. Raises `ProcgenError` when the builder fails, when a link of the new site is broken, or
    when the destination holds something that is no site of ours; then nothing has changed there.
    """
    destination = destination.absolute()
    _refuse_strangers(destination)
    try:
        destination.parent.mkdir(parents=True, exist_ok=True)
        _clear_leftovers(destination)
        with _workplace(destination, "new") as work:
            built = work / "site"
            _build_all(tree, work / "tree", built)
            (built / _MARKER).write_text(
                "A site built by procgen; a new build replaces it.\n", encoding="utf-8"
            )
            _check_links(built)
            _swap(built, destination)
    except OSError as error:
        raise ProcgenError(f"cannot write the site to {destination}: {error.strerror or error}") from error


def _build_all(tree: Mapping[str, str], source: Path, target: Path) -> None:
    for path, text in tree.items():
        file = source / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    folders = sorted(str(Path(path).parent) for path in tree if Path(path).name == _SETTINGS)
    with ThreadPoolExecutor(max_workers=min(4, os.cpu_count() or 1)) as pool:
        # Into folders of their own first: one site's build empties what it builds into.
        apart = [target.parent / f"built-{n}" for n in range(len(folders))]
        with tempfile.TemporaryDirectory(dir=target.parent) as compiled:
            environment = {**_QUIET, blocks.TEMPLATE_CACHE: compiled}
            list(pool.map(lambda f, out: _build_one(source / f, out, environment), folders, apart))
    for folder, out in sorted(zip(folders, apart, strict=True), key=lambda pair: len(Path(pair[0]).parts)):
        for name in _USELESS:
            (out / name).unlink(missing_ok=True)
        place = target / folder
        if place.exists():
            raise ProcgenError(f"two sites want the folder “{folder}”")
        place.parent.mkdir(parents=True, exist_ok=True)
        out.rename(place)


def _build_one(folder: Path, out: Path, environment: Mapping[str, str]) -> None:
    """Run the builder on one site. Its own talk is shown only when it fails."""
    hooked = folder / _HOOKED
    hooked.write_text(
        yaml.safe_dump({"INHERIT": _SETTINGS, "hooks": [str(Path(blocks.__file__))]}), encoding="utf-8"
    )
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet"]
    command += ["--config-file", str(hooked), "--site-dir", str(out)]
    try:
        done = subprocess.run(
            command,
            capture_output=True,
            text=True,
            check=False,
            env={**os.environ, **environment},
            cwd=folder,
        )
    except OSError as error:
        raise ProcgenError(f"the site builder cannot be run: {error}") from error
    if done.returncode != 0:
        talk = [line.strip() for line in (done.stdout + done.stderr).splitlines() if line.strip()]
        raise ProcgenError(f"the site builder failed: {' | '.join(talk[-6:]) or 'it said nothing'}")


def _check_links(built: Path) -> None:
    broken = broken_links(built)
    if broken:
        more = f" (and {len(broken) - 3} more)" if len(broken) > 3 else ""
        raise ProcgenError("broken links in the new site: " + "; ".join(map(str, broken[:3])) + more)


def _refuse_strangers(destination: Path) -> None:
    """Never replace a folder that we did not make."""
    if destination.is_dir():
        if any(destination.iterdir()) and not (destination / _MARKER).is_file():
            raise ProcgenError(
                f"{destination} holds something that is no site of ours: name an empty or a new folder"
            )
    elif destination.exists() or destination.is_symlink():
        raise ProcgenError(f"{destination} is not a folder: name an empty or a new folder")


@contextmanager
def _workplace(destination: Path, what: str) -> Iterator[Path]:
    """A folder beside the destination, so that moving it there is one step; gone at the end."""
    prefix = f".{destination.name}.{what}-{os.getpid()}-"
    work = Path(tempfile.mkdtemp(prefix=prefix, dir=destination.parent))
    try:
        yield work
    finally:
        shutil.rmtree(work, ignore_errors=True)


def _swap(built: Path, destination: Path) -> None:
    """Put the new site in place of the old; if that fails, the old one is put back."""
    if not destination.exists():
        built.rename(destination)
        return
    old = destination.parent / f".{destination.name}.old-{os.getpid()}"
    destination.rename(old)
    try:
        built.rename(destination)
    except OSError:
        old.rename(destination)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _clear_leftovers(destination: Path) -> None:
    """What a build that was killed left behind; an old site that it had set aside is put back."""
    for old in sorted(destination.parent.glob(f".{destination.name}.old-*")):
        if _running(old.name.rpartition("-")[2]):
            continue
        if destination.exists():
            shutil.rmtree(old, ignore_errors=True)
        else:
            old.rename(destination)
    for work in sorted(destination.parent.glob(f".{destination.name}.new-*")):
        if not _running(work.name.split(".new-")[1].partition("-")[0]):
            shutil.rmtree(work, ignore_errors=True)


def _running(process: str) -> bool:
    if not process.isdigit():
        return False
    try:
        os.kill(int(process), 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
