"""What ``check --fix`` does: offer edits, write those that are chosen, and say how the file stands then."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from builder.buildfile.problems import visible
from builder.buildfile.resolving import read_build
from builder.fixing.choosing import Ask, Chosen, choose, choose_sure, offers
from builder.fixing.saving import replace_file

Tell = Callable[[str], None]


def fix_file(path: Path, name: str, data: bytes, tell: Tell, ask: Ask | None, yes: bool) -> bytes:
    """Let the maker choose among the edits of a build file, and write those that are chosen.

    Args:
        path: the file.
        name: as the user wrote it.
        data: its bytes.
        tell: shows text.
        ask: asks the maker; None where nobody can be asked.
        yes: whether what is a matter of spelling alone is written without asking.

    Returns:
        The bytes that the file holds now.

    Raises:
        SaveError: it could not be written; it is as it was.

    """
    if not read_build(data).problems:
        tell("Nothing in this file needs an edit to be read.\n")
        return data
    if ask is None and not yes:
        tell(
            offers(data, name) + "\nNothing was written. With --yes, what is a matter of spelling alone is.\n"
        )
        return data
    chosen = choose_sure(data, name, tell) if yes or ask is None else choose(data, name, ask, tell)
    if chosen is None or not chosen.count:
        tell("Nothing was written.\n")
        return data
    changes = f"{chosen.count} change{'' if chosen.count == 1 else 's'}"
    if not yes and not _confirmed(ask, f"Write {changes} to {visible(name)}? y or n: "):
        tell("Nothing was written.\n")
        return data
    return _saved(path, name, data, chosen, tell, changes)


def _saved(path: Path, name: str, data: bytes, chosen: Chosen, tell: Tell, changes: str) -> bytes:
    replace_file(path, data, chosen.data)
    tell(f"Wrote {changes} to {visible(name)}.\n")
    return chosen.data


def _confirmed(ask: Ask | None, question: str) -> bool:
    return ask is not None and (ask(question) or "").strip().casefold() in ("y", "yes")
