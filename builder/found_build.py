"""The build file that a command was given: found, read, and told of in a sentence where that cannot be."""

from __future__ import annotations

import stat
import sys
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import IO, TYPE_CHECKING

from builder.console import Stop, reason

if TYPE_CHECKING:
    from builder.buildfile.numbered import NumbersFile

BUILD_FILE = "trailer.yaml"
_LARGEST_BYTES = 2_000_000


@dataclass(frozen=True, slots=True)
class Build:
    """A build file as it was found: its name as the user wrote it, its place (None for stdin), its bytes.

    ``numbers`` is the file of numbers beside it, None where there is none.
    """

    name: str
    path: Path | None
    data: bytes
    numbers: NumbersFile | None = None


def find_build(build: str) -> Build:
    """Find and read a build file; ends the command in a sentence where that cannot be."""
    if build == "-":
        try:
            return Build("-", None, _within_limit(sys.stdin.buffer, "standard input"))
        except OSError as error:
            raise Stop(f"Standard input could not be read ({reason(error)}).") from error
    path = Path(build)
    try:
        path = path / BUILD_FILE if path.is_dir() else path
        if not stat.S_ISREG(path.stat().st_mode):
            raise Stop(f"{path} is not an ordinary file. Name a build file, or - for standard input.")
        with path.open("rb") as file:
            data = _within_limit(file, str(path))
    except FileNotFoundError as error:
        raise Stop(f"There is no file {path}. To start a new one: wiring-manual begin FOLDER") from error
    except PermissionError as error:
        raise Stop(f"{path} may not be read. Give yourself the right to read it.") from error
    except (OSError, ValueError) as error:
        raise Stop(f"{path} could not be read ({reason(error)}).") from error
    from builder.numbers_beside import numbers_beside  # noqa: PLC0415 - only what reads a file waits for it

    return Build(str(path), path, data, numbers_beside(path))


def _within_limit(file: IO[bytes], name: str) -> bytes:
    data = file.read(_LARGEST_BYTES + 1)
    if len(data) > _LARGEST_BYTES:
        raise Stop(
            f"{name} is larger than {_LARGEST_BYTES // 1_000_000} MB, the most that a build file may be."
        )
    return data


def smallest_build() -> bytes:
    """Return the smallest build file: from the installed package, or from the checkout."""
    installed = resources.files("builder") / "smallest" / BUILD_FILE
    checkout = Path(__file__).parents[1] / "example_build" / "smallest" / BUILD_FILE
    return installed.read_bytes() if installed.is_file() else checkout.read_bytes()
