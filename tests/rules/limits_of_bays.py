"""Limits of bays that are closed: a photo, wires that are in, ends that wait, and what must be fixed behind them."""

from __future__ import annotations

from rule_builds import Limit, build, changed

from builder.rules.finding import Level

BOX = """places: {front box: {back: 1 ft, left: 26 in, up: 2 ft}, lamp: {back: 7 ft, left: 26 in, up: 2 ft}}
chases: {groove: {through: [front box, lamp]}}
body:
  width: 5 ft
  profile: [{back: 0 in, up: 0 in}, {back: 9 ft, up: 0 in}, {back: 9 ft, up: 4 ft}, {back: 0 in, up: 4 ft}]
frames: {studs: {in: left wall, back: 4 ft}}
parts: {lamp: {kind: lamp, draws: 3 W}}
circuits:
  light: {path: [lamp: 8 ft]}
"""
CLOSED = build(BOX + "closed bays:\n  left wall bay 1: {date: 3 May, photo: one.jpg}\n")
AT = ("left wall bay", "left wall bay 1")

BAY_LIMITS = (
    Limit(
        "a photo",
        "bay closed too early",
        CLOSED,
        (", photo: one.jpg", ""),
        AT,
        Level.SHOULD,
        ("“left wall bay 1” is closed, and no photo of it is named",),
        (("write its name, as in photo: left-wall-bay-1.jpg", "3 May", "3 May, photo: left-wall-bay-1.jpg"),),
    ),
    Limit(
        "a photo of its own",
        "bay closed too early",
        CLOSED + "  left wall bay 2: {date: 3 May, photo: two.jpg}\n",
        ("photo: two.jpg", "photo: one.jpg"),
        ("left wall bay 2", "left wall bay 2"),
        Level.WORTH,
        ("“left wall bay 2” names the same photo as “left wall bay 1”: one.jpg",),
        (
            (
                "as in photo: left-wall-bay-2.jpg",
                "2: {date: 3 May, photo: one.jpg",
                "2: {date: 3 May, photo: other.jpg",
            ),
        ),
    ),
    Limit(
        "wires that are in",
        "bay closed too early",
        CLOSED
        + "pulled: {light: 2 May, second feed: 2 May}\nspares: {second feed: {from: front box, to: lamp}}\n",
        ("pulled: {light: 2 May, ", "pulled: {"),
        AT,
        Level.SHOULD,
        ("not all wires in it are pulled: light (1A, 1B)",),
        (
            ("write under pulled: light: yes", "pulled: {", "pulled: {light: yes, "),
            ("pulled", "pulled: {", "pulled: {everything: yes, "),
        ),
    ),
    Limit(
        "the ends of a part that waits",
        "bay closed too early",
        changed(CLOSED, "bay 1", "bay 2") + "waiting: {}\n",
        ("waiting: {}", "waiting: {lamp: ordered}"),
        ("left wall bay", "left wall bay 2"),
        Level.SHOULD,
        ("nothing says that the ends that wait in it are insulated: lamp",),
        (("write ends insulated: yes", "photo: one.jpg", "photo: one.jpg, ends insulated: yes"),),
    ),
    # 8 ft of wire for a way of 6 ft and a loop of 1 ft; 5 ft are too short
    Limit(
        "something that must be fixed",
        "bay closed too early",
        CLOSED,
        ("lamp: 8 ft", "lamp: 5 ft"),
        AT,
        Level.SHOULD,
        (
            "is closed over something that must be fixed: wire 1A from “front box” to “lamp” is written as 5 ft",
        ),
        (("open it, put that right as its own finding says", "lamp: 5 ft", "lamp: 8 ft"),),
    ),
)
