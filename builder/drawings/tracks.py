"""Which sideways lines of a gap share a track, and which must lie above which."""

from __future__ import annotations

from dataclasses import dataclass, field

_CLEAR = 14.0
_SAME = 9.0


@dataclass(slots=True)
class Net:
    """Lines of one gap that meet at one terminal, or a single line that moves sideways.

    ``tops`` and ``bottoms`` are the x where its lines come from above and leave below, in CSS pixels;
    ``low`` asks for the lowest track, ``wide`` is the least half length of a bar.
    """

    key: tuple[str, ...]
    tops: list[float] = field(default_factory=list)
    bottoms: list[float] = field(default_factory=list)
    low: bool = False
    wide: float = 0.0

    @property
    def span(self) -> tuple[float, float]:
        """The x from which to which the net runs."""
        every = [*self.tops, *self.bottoms]
        middle = (min(every) + max(every)) / 2
        return min(*every, middle - self.wide), max(*every, middle + self.wide)


def tracks(nets: list[Net]) -> dict[tuple[str, ...], int]:
    """Return the track of each net, 0 at the top.

    Nets that overlap sideways lie on different tracks, the longest first; a net that comes down where another
    goes down lies above it, so that no two lines run over each other. Ties go by the order given.
    """
    above = {net.key: _must_be_above(net, nets) for net in nets}
    left = sorted(nets, key=lambda net: (net.low, -round(net.span[1] - net.span[0])))
    found: dict[tuple[str, ...], int] = {}
    while left:
        ready = [net for net in left if not above[net.key] - set(found)] or left[:1]
        net = ready[0]
        left.remove(net)
        found[net.key] = _lowest(net, nets, found, above[net.key])
    return found


def _must_be_above(net: Net, nets: list[Net]) -> set[tuple[str, ...]]:
    """Return the nets whose line goes up where this net's line comes down."""
    return {
        other.key
        for other in nets
        if other.key != net.key and any(abs(a - b) < _SAME for a in net.bottoms for b in other.tops)
    }


def _lowest(net: Net, nets: list[Net], found: dict[tuple[str, ...], int], above: set[tuple[str, ...]]) -> int:
    placed = [other for other in nets if other.key in found]
    at = max((found[key] + 1 for key in above if key in found), default=0)
    if net.low:
        at = max([at, *(found[other.key] + 1 for other in placed if _overlap(net, other))])
    while any(found[other.key] == at and _overlap(net, other) for other in placed):
        at += 1
    return at


def _overlap(a: Net, b: Net) -> bool:
    (a1, a2), (b1, b2) = a.span, b.span
    return a1 - _CLEAR < b2 and b1 - _CLEAR < a2
