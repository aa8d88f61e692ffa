"""Build files that nobody would write: each is answered, or read and written as pages, within its time and memory."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CASES = 250 if os.environ.get("WIRING_CI") == "1" else 100
"""Of each kind; ``python tests/fuzzing.py 10000`` runs more."""


@pytest.mark.parametrize("kind", ["schema", "bytes"])
def test_any_build_is_answered(kind: str) -> None:
    done = subprocess.run(
        [sys.executable, ROOT / "tests" / "fuzzing.py", str(CASES), kind],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-8_000:]
    read, must_fix, refused = (int(number) for number in re.findall(r"(\d+) ended", done.stdout))
    assert read + must_fix >= CASES // 20  # the rooms behind the reader are reached as well
    assert refused >= CASES // 4
