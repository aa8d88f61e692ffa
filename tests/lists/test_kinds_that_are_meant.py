"""The kinds of wire that a spool may have been meant for: those first of which most is needed, and more are told of."""

from __future__ import annotations

from listed import HEAD, listed

from builder.rules.spool_not_used import check

COLORS = ("orange", "blue", "brown", "green", "pink")
LAMPS = (
    HEAD
    + "wire: {on the shelf: [16 AWG], sold as: single}\nin stock: {wire: {violet 16 AWG: 9 ft}}\n"
    + f"parts: {{{', '.join(f'{one} lamp: {{kind: lamp, draws: 3 W}}' for one in COLORS)}}}\ncircuits:\n"
    + "".join(
        f"  {one} lamp: {{path: [{one} lamp: {6 + feet} ft], color: {one}}}\n"
        for feet, one in enumerate(COLORS)
    )
)


def test_the_largest_needs_come_first_and_more_are_told_of() -> None:
    """Black is the return of all five lamps, then the colours by the lengths of their only wires."""
    build = listed(LAMPS)
    (remark,) = check(build.trailer, build.figures)
    assert remark.help.endswith("this build needs black 16 AWG, pink 16 AWG, green 16 AWG, brown 16 AWG, …")
    needs = {item.id: item.need_m for item in build.lists.shopping.wire if str(item.size) == "16 AWG"}
    assert sorted(needs, key=lambda one: -needs[one])[:4] == [
        f"{one} 16 AWG" for one in ("black", *COLORS[:1:-1])
    ]


def test_all_are_named_where_there_are_few() -> None:
    build = listed(LAMPS.replace("violet 16 AWG: 9 ft", "green 14 AWG: 9 ft"))
    (remark,) = check(build.trailer, build.figures)
    assert remark.help.endswith("this build needs green 16 AWG")
