"""Where axe-core lies: at the place that ``AXE_CORE`` names, else where ``npm ci --prefix .ci`` puts it."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

_INSTALLED = Path(__file__).parents[1] / ".ci" / "node_modules" / "axe-core" / "axe.min.js"


def axe_path() -> Path:
    """The file that a page runs."""
    return Path(os.environ.get("AXE_CORE") or _INSTALLED)


def axe_missing() -> str:
    """What is missing, in words; empty when it is there."""
    return "" if axe_path().is_file() else "axe-core (npm ci --prefix .ci)"


@cache
def axe_script() -> str:
    """The text of axe-core."""
    return axe_path().read_text(encoding="utf-8")
