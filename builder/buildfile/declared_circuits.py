"""How circuits are declared: paths item by item, branches, returns."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import (
    BeforeValidator,
    Field,
    model_validator,
)

from builder.buildfile.choices import (
    CoilOrContact,
    listed,
)
from builder.buildfile.declared_base import Words
from builder.buildfile.nodes import Text
from builder.buildfile.value_reading import trouble
from builder.buildfile.value_sizes import SizeText_
from builder.buildfile.value_words import ColourWords, FreeText, Name
from builder.buildfile.values import (
    Count,
    CurrentA,
    LengthM,
)
from builder.buildfile.written import origin_of
from builder.quantities import read_length

_LENGTH_LIKE = re.compile(
    r"\s*[\d.½¼¾][\d\s.,/½¼¾]*\s*(?:(?!st|nd|rd|th)[a-z]{1,2}\b|feet|inch|$|['\"′″])",
    re.IGNORECASE,
)
"""A return that was meant as a length even where it is misread; a splice may begin with a number, too."""


class ItemWords(Words):
    """One item of a path: to what, and how long the wire to it is."""

    name: Name = Field(description="the part, written as the item's own name")
    length: LengthM | None = Field(None, description="wire from the item before it")
    size: SizeText_ | None = Field(None, description="size of the wire to it, where you decide it yourself")
    through: Annotated[list[Name], BeforeValidator(listed)] = Field(
        [], description="chases or places that it runs through, where it is not the shortest way"
    )
    color: ColourWords | None = Field(None, description="colour of the feed to it")
    terminal: FreeText | None = Field(None, description="way of a connector that the feed takes")
    as_: CoilOrContact | None = Field(
        None, description="coil or contact of a relay, where its place in the path does not say it"
    )

    @model_validator(mode="before")
    @classmethod
    def _from_item(cls, item: Any) -> Any:
        """Turn ``name``, ``name: length`` and ``name: {…}`` into one shape."""
        if isinstance(item, Text):
            return {"name": item}
        if isinstance(item, dict) and "name" in item and len(item) > 1:
            key = next(k for k in item if k == "name")
            raise trouble(
                key.origin,
                "item in the wrong form",
                "“name” is not a word of a path: the part's own name stands before the colon",
                "write it as step lamp: 6 ft, or step lamp: {length: 6 ft}",
            )
        if not isinstance(item, dict) or len(item) != 1:
            keys = list(item) if isinstance(item, dict) else []
            raise trouble(
                keys[1].origin if len(keys) > 1 else origin_of(item),
                "item in the wrong form",
                "an item of a path is one name with one length",
                "write each item on its own, as in [step switch: 14 ft, step lamp: 6 ft]",
            )
        name, value = next(iter(item.items()))
        if isinstance(value, dict):
            if "name" in value:
                raise trouble(
                    next(k for k in value if k == "name").origin,
                    "unknown word",
                    "“name” is not a word used in a path item",
                    "the name stands before the colon",
                )
            return {"name": name, **value}
        return {"name": name, "length": value}


class ReturnWords(Words):
    """Where the return goes, when not the way that the feed came."""

    to: Name | None = Field(None, description="name of a splice or bar, ground bar, or frame")
    length: LengthM | None = Field(None, description="length of the return")

    @model_validator(mode="before")
    @classmethod
    def _short(cls, value: Any) -> Any:
        """Read a lone length or a lone name."""
        if isinstance(value, Text):
            is_length = (
                isinstance(read_length(value.value), float) or _LENGTH_LIKE.match(value.value) is not None
            )
            return {"length": value} if is_length else {"to": value}
        return value


class BranchWords(Words):
    """A branch of a circuit: from which item it leaves, and its own path."""

    from_: Name = Field(description="the item it leaves from, or fuse for the circuit's own fuse")
    output: FreeText | None = Field(None, description="which output, where the part has several")
    path: list[ItemWords] = Field(min_length=1, description="to what and how long, item by item")
    return_: ReturnWords | None = Field(None, description="where its returns go, when not the same way")


class CircuitWords(Words):
    """One circuit: the path of its current from the fuse on."""

    path: list[ItemWords] = Field(
        min_length=1, description="to what and how long, item by item, from the fuse on"
    )
    branches: list[BranchWords] = Field(
        [], description="further paths that leave from an item of this circuit"
    )
    from_: Name | None = Field(None, description="where it starts, when not at a fuse in the front box")
    fuse: CurrentA | None = Field(None, description="rating of its fuse, where you decide it yourself")
    way: Count | None = Field(None, description="fuse way it takes; the circuit's number where left out")
    size: SizeText_ | None = Field(None, description="size of all its wires, where you decide it yourself")
    color: ColourWords | None = Field(None, description="colour of its feeds")
    return_color: ColourWords | None = Field(None, description="colour of its returns")
    return_: ReturnWords | None = Field(None, description="where its returns go, when not the same way")
    note: FreeText | None = Field(None, description="one sentence for its page")
