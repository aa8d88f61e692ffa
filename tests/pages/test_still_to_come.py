"""What is waited for has its wires in and nothing that could go dead: pages tell it apart."""

from __future__ import annotations

from owner_pages import page_of, table, view_of

BUILD = """format: 1
build: {name: Quarry Bend, country: US}
battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}
front box: {fuse ways: 3, fuses: blade}
parts:
  fan: {kind: fan, draws: 3 A, own switch: yes}
  near lamp: {kind: lamp, draws: 5 W, own switch: yes}
  far lamp: {kind: lamp, draws: 5 W, own switch: yes}
  alarm fuse: {kind: fuse, rating: 3 A}
  gas alarm: {kind: alarm, draws: 50 mA}
circuits:
  roof vent: {path: [fan: 12 ft]}
  lamps: {path: [near lamp: 6 ft, far lamp: 6 ft]}
  alarm: {from: main fuse, path: [alarm fuse: 4 in, gas alarm: 6 ft]}
waiting: {fan: ordered, far lamp: ordered, gas alarm: ordered}
"""


def test_what_waits_does_not_go_dead_with_its_fuse() -> None:
    page = page_of(view_of(BUILD.encode()), "fuses")
    dead = {row[0]: row[-1] for row in table(page, "Fuse ways")}
    assert dead == {
        "1": "still to be built in: fan",
        "2": "near lamp; still to be built in: far lamp",
        "3": "nothing, the way is empty",
    }
    others = {row[0]: row[3] for row in table(page, "Fuses that are not in the box")}
    assert next(told for name, told in others.items() if name.startswith("alarm fuse")) == (
        "still to be built in: gas alarm"
    )
