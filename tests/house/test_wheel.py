"""The wheel carries everything: installed into an empty environment elsewhere, it publishes the smallest build."""

from __future__ import annotations

import subprocess
import sys
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def run(*command: str | Path, cwd: Path) -> str:
    done = subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        capture_output=True,
        text=True,
        check=False,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.mark.wheel
def test_the_wheel_publishes_the_smallest_build_far_from_the_checkout(tmp_path: Path) -> None:
    run(sys.executable, "-m", "build", "--wheel", "--outdir", tmp_path / "dist", ROOT, cwd=tmp_path)
    (wheel,) = (tmp_path / "dist").glob("*.whl")
    venv.create(tmp_path / "empty", with_pip=True)
    programs = tmp_path / "empty" / ("Scripts" if sys.platform == "win32" else "bin")
    constraints = ROOT / ".ci" / "constraints.txt"
    python = programs / "python"
    run(python, "-m", "pip", "install", "--quiet", "-c", constraints, wheel, cwd=tmp_path)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    command = programs / "wiring-manual"
    run(command, "begin", "mine", cwd=elsewhere)
    run(command, "publish", "mine", "--into", "manual", "--edition", "owner", cwd=elsewhere)
    run(command, "number", "mine", cwd=elsewhere)
    assert "is as it must be" in run(command, "number", "mine", cwd=elsewhere)
    run(command, "publish", "mine", "--into", "numbered", cwd=elsewhere)
    written = (elsewhere / "mine" / "trailer.numbers.csv").read_bytes()
    assert (elsewhere / "numbered" / "data" / "wire_numbers.csv").read_bytes() == written
    page = (elsewhere / "manual" / "index.html").read_text(encoding="utf-8")
    assert "Heron Field" in page
    assert (elsewhere / "manual" / "assets" / "manual.css").is_file()
    assert "builder" not in run(python, "-c", "import sys; print(sys.path)", cwd=elsewhere)
