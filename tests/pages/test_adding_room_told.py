"""What Adding something says of the room on a circuit: where it was counted, and where it was not."""

from __future__ import annotations

from owner_pages import page_of, view_of, words_of

HEAD = """format: 1
build: {name: Weir Lane, country: GB}
battery: {chemistry: agm, capacity: 60 Ah, to main fuse: 12 cm, to front box: 60 cm}
front box: {fuse ways: 6, fuses: blade}
parts: {pump: {kind: pump, draws: 4 A}, pump relay: {kind: relay}, tap switch: {kind: switch}}
"""
PLAIN = "circuits: {water: {fuse: 15 A, path: [tap switch: 2 m, pump: 1 m]}}\n"
RELAY = (
    "circuits: {water: {fuse: 15 A, path: [pump relay: 2 m, pump: 1 m],"
    " branches: [{from: fuse, path: [tap switch: 3 m, pump relay: {length: 3 m, as: coil}]}]}}\n"
)
COIL = "Join nothing to a relay's coil, or to the switch that works it: no room was counted there."


def test_nobody_is_sent_to_the_wires_of_a_coil() -> None:
    """The coil's own wires are thinner and longer than those that room was counted for."""
    text = words_of(page_of(view_of((HEAD + RELAY).encode()), "adding"))
    assert "Room on a circuit" in text or "watts together" in text
    assert COIL in text
    parts = "parts: {pump: {kind: pump, draws: 4 A}, tap switch: {kind: switch}}\n"
    head = HEAD[: HEAD.index("parts:")] + parts
    assert COIL not in words_of(page_of(view_of((head + PLAIN).encode()), "adding"))


def test_a_size_behind_a_new_fuse_is_that_of_a_wire_by_itself() -> None:
    text = words_of(page_of(view_of((HEAD + RELAY).encode()), "adding"))
    table = text.index("The wire behind a new fuse")
    assert "For a wire that lies by itself. Among other wires" in text[table:]
