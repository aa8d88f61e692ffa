"""Say what a build is read as, or what is computed of it, in rows of text that can be kept and compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum

from builder.tables.tow_plugs import PlugPattern
from builder.trailer.color import Color
from builder.trailer.origin import Origin
from builder.trailer.parts import Terminal
from builder.trailer.size import Size


def said(value: object) -> str:
    """Return a value as it stands in a row."""
    match value:
        case Origin():
            text = f"{value.line}:{value.column}+{value.length}"
        case Enum():
            text = str(value.value)
        case float():
            text = f"{value:.6g}"
        case PlugPattern():
            text = value.name
        case Color() | Size() | Terminal():
            text = str(value)
        case Mapping():
            text = f"{{{', '.join(f'{key}: {said(one)}' for key, one in value.items())}}}"
        case tuple():
            text = f"[{', '.join(map(said, value))}]"
        case _:
            text = f"({', '.join(words(value))})" if is_dataclass(value) else str(value)
    return text


def words(thing: object) -> Iterator[str]:
    """Say each field of a thing that is not as it is where the file is silent."""
    for field in fields(thing):  # type: ignore[arg-type]
        value = getattr(thing, field.name)
        silent = field.default if field.default_factory is MISSING else field.default_factory()
        if value != silent:
            yield f"{field.name} {said(value)}"
