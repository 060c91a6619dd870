"""An installed wheel works away from the checkout: schemas and templates travel with it."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).parents[2]


@pytest.mark.slow
def test_a_wheel_checks_and_builds_the_demo_far_from_the_checkout(tmp_path: Path) -> None:
    pip = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check"]
    wheel = [*pip, "wheel", "--no-deps", "--no-build-isolation", "--wheel-dir", str(tmp_path), str(CHECKOUT)]
    subprocess.run(wheel, check=True, capture_output=True)
    (built,) = tmp_path.glob("procgen_holds-*.whl")
    installed = tmp_path / "installed"
    subprocess.run([*pip, "install", "--no-deps", "--target", str(installed), str(built)], check=True)
    shutil.copytree(CHECKOUT / "stations", tmp_path / "stations")
    environment = {**os.environ, "PYTHONPATH": str(installed)}

    def run(*arguments: str) -> str:
        command = [sys.executable, *arguments]
        result = subprocess.run(
            command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
        )
        return result.stdout

    assert run("-c", "import procgen; print(procgen.__file__)").startswith(str(installed))
    assert "No finding" in run("-m", "procgen", "check", "stations")
    assert "move-through-raised-restraint" in run("-m", "procgen", "rules")
    run("-m", "procgen", "build", "stations", "--out", "site")
    assert (tmp_path / "site" / "index.html").is_file()
