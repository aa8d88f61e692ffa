"""What only the maker can say of his ledger: that a name is new, that a number came back, that it is this trailer's."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.buildfile.issuing import renamed, taken_back, tidy
from builder.trailer.ledger import Ledger
from builder.trailer.model import Identity


@dataclass(frozen=True, slots=True)
class Changes:
    """What the maker says: pairs of an old and a new name, and numbers that are not retired after all.

    ``same_trailer`` tells that the trailer itself only got another name or number.
    """

    names: tuple[tuple[str, str], ...] = ()
    back: tuple[str, ...] = ()
    same_trailer: bool = False


@dataclass(frozen=True, slots=True)
class Changed:
    """A ledger after what the maker said, with the old names and the retired numbers that it does not have."""

    ledger: Ledger
    no_names: tuple[str, ...] = ()
    no_numbers: tuple[str, ...] = ()


def changed(ledger: Ledger, changes: Changes, identity: Identity) -> Changed:
    """Return a ledger with what the maker says of it; ``identity`` is the trailer of the build file."""
    if changes.same_trailer:
        ledger = replace(ledger, name=tidy(identity.name), number=tidy(identity.number))
    ledger, no_names = renamed(ledger, changes.names)
    ledger, no_numbers = taken_back(ledger, changes.back)
    return Changed(ledger, no_names, no_numbers)
