"""Options of the test suite, and tests that need an outside tool."""

from __future__ import annotations

import importlib.util
import os
import platform
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from axe_core import axe_missing
from hypothesis import HealthCheck, settings

settings.register_profile("default", deadline=None, derandomize=True, max_examples=60)
settings.register_profile(
    "ci", deadline=None, derandomize=True, max_examples=200, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "default"))


def _programs(*names: str) -> Callable[[], str]:
    def missing() -> str:
        return ", ".join(name for name in names if shutil.which(name) is None)

    return missing


def _modules(*names: str) -> Callable[[], str]:
    def missing() -> str:
        return ", ".join(name for name in names if importlib.util.find_spec(name) is None)

    return missing


def _kernel_asks() -> str:
    """Name what is missing for having the kernel ask before each file call of a process (seccomp_unotify(2))."""
    if sys.platform != "linux" or platform.machine() != "x86_64":
        return "Linux on x86-64"
    actions = Path("/proc/sys/kernel/seccomp/actions_avail")
    return "" if actions.exists() and "user_notif" in actions.read_text() else "seccomp user notification"


TOOLS: dict[str, Callable[[], str]] = {
    "axe": axe_missing,
    "browser": _programs("chromium", "chromedriver"),
    "paper": _programs("pdftotext"),
    "publishers": _modules("zensical"),
    "spice": _programs("ngspice"),
    "wheel": _modules("build"),
    "faults": _kernel_asks,
}
"""For each mark the function that names what is missing for it; an empty text means nothing is."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that runs other tables of check values."""
    parser.addoption(
        "--check-values",
        metavar="DIR",
        type=Path,
        default=None,
        help="run the check values of every CSV file in this folder instead of those beside the tests",
    )


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a test whose tool is missing, with one line; fail it where everything must be there."""
    for mark, missing in TOOLS.items():
        if item.get_closest_marker(mark) is None:
            continue
        names = missing()
        if names and os.environ.get("WIRING_CI") == "1":
            pytest.fail(f"{mark} tests must run here, and this is missing: {names}", pytrace=False)
        if names:
            pytest.skip(f"{mark} tests need {names}")
