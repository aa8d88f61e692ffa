"""What every group of words of the build file has in common."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


def _spaced(field: str) -> str:
    return field.rstrip("_").replace("_", " ")


class Words(BaseModel):
    """A group of names and values of the build file; names are written with spaces."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        alias_generator=_spaced,
        arbitrary_types_allowed=True,
        defer_build=True,
    )
