"""The colour of a conductor's insulation."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Color:
    """A base colour and, if there is one, the colour of the tracer; both are plain words."""

    base: str
    tracer: str = ""

    def __str__(self) -> str:
        """Return the words a person would say: ``yellow with black``."""
        return f"{self.base} with {self.tracer}" if self.tracer else self.base
