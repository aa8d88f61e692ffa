"""The file of numbers beside a build file, as it is found: the one place that reads it."""

from __future__ import annotations

from pathlib import Path

from builder.buildfile.numbered import NumbersFile, numbers_name

LARGEST_BYTES = 20_000_000


def numbers_path(build: Path) -> Path:
    """Return where the file of numbers of a build file belongs."""
    return build.with_name(numbers_name(build.name))


def numbers_beside(build: Path | None) -> NumbersFile | None:
    """Read the file of numbers beside a build file.

    Arguments: ``build``, the build file's place, or None where it has none (standard input).
    Returns None where there is no such file; a file that cannot be read says why in ``trouble``. Never raises for
    what the system refuses. Source: own work.
    """
    if build is None:
        return None
    path = numbers_path(build)
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        return _not_there(path)
    except (OSError, ValueError) as error:
        return NumbersFile(str(path), trouble=getattr(error, "strerror", None) or str(error))
    if len(data) > LARGEST_BYTES:
        return NumbersFile(str(path), trouble=f"it is larger than {LARGEST_BYTES // 1_000_000} MB")
    return NumbersFile(str(path), data)


def _not_there(path: Path) -> NumbersFile | None:
    try:
        dangling = path.is_symlink()
    except OSError as error:
        return NumbersFile(str(path), trouble=error.strerror or str(error))
    return NumbersFile(str(path), trouble="it is a link that leads nowhere") if dangling else None
