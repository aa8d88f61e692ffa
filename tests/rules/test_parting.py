"""Where no fuse and no wire carry a load: a circuit of several parts is parted, a line or one part takes less."""

from __future__ import annotations

from rule_builds import build, findings

RULE = "load above fuse"


def helps(parts: str, path: str) -> dict[str, str]:
    """Return the way out of each circuit that no fuse fits, by the first words of what is told."""
    found = findings(build(f"parts: {{{parts}}}\ncircuits:\n  cool: {{path: [{path}]}}\n"), RULE)
    return {one.message.partition("”")[0].partition("“")[2]: one.help for one in found}


def test_neither_the_line_nor_one_part_is_parted() -> None:
    told = helps("box: {kind: fridge, draws: 2000 W}", "box: 8 ft")
    assert set(told) == {"battery line", "cool"}
    assert told["battery line"].startswith("the battery's line cannot be parted")
    assert "let all together take" in told["battery line"]
    assert told["cool"].startswith("one part cannot be parted")


def test_a_circuit_of_two_parts_is_parted() -> None:
    parts = "box: {kind: fridge, draws: 1000 W}, bin: {kind: fridge, draws: 1000 W}"
    assert (
        helps(parts, "box: 8 ft, bin: 2 ft")["cool"] == "part the circuit in two, each with a fuse of its own"
    )
