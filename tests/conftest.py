"""Options of the test suite."""

from __future__ import annotations

from pathlib import Path

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that runs other tables of check values."""
    parser.addoption(
        "--check-values",
        metavar="DIR",
        type=Path,
        default=None,
        help="run the check values of every CSV file in this folder instead of those beside the tests",
    )
