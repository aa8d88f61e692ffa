"""Labels: each end of each wire once, in the order in which they are handed out."""

from __future__ import annotations

from itertools import groupby

import pytest
from listed import BUILDS, EXAMPLE, listed

from builder.trailer.model import FRONT_BOX, TOW_PLUG
from builder.trailer.wires import Role


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_each_end_of_each_wire_has_one_label_with_its_far_end(text: str) -> None:
    build = listed(text)
    wires = {wire.number: wire for wire in (*build.trailer.wires, *build.trailer.spares)}
    labels = build.lists.labels
    assert sorted((label.wire, label.side) for label in labels) == sorted(
        (number, side) for number in wires for side in ("start", "end")
    )
    for label in labels:
        wire = wires[label.wire]
        ends = (wire.start, wire.end) if label.side == "start" else (wire.end, wire.start)
        assert (label.here, label.far) == ends
        if wire.role is not Role.SPARE:
            assert label.circuit_name == build.trailer.circuit(wire.circuit).name


@pytest.mark.parametrize(
    ("wire", "side", "texts"),
    [
        (
            "1D",
            "end",
            ("1D step lights → right step switch traveller 1", "1D → right step switch traveller 1"),
        ),
        (
            "1E",
            "end",
            ("1E step lights → right step switch traveller 2", "1E → right step switch traveller 2"),
        ),
        ("1C", "start", ("1C step lights + → right step switch common", "1C → right step switch common")),
        ("1A", "start", ("1A step lights + → left step switch in", "1A → left step switch in")),
        ("9A", "start", ("9A hatch light + → hatch plug way 1", "9A → hatch plug way 1")),
        ("1B", "start", ("1B step lights + → left step lamp", "1B → left step lamp")),
        ("1A", "end", ("1A step lights + → way 1", "1A → way 1")),
        ("S1", "end", ("S1 rear spare → front box", "S1 → front box")),
    ],
)
def test_a_label_tells_the_terminal_where_the_part_alone_does_not(
    wire: str, side: str, texts: tuple[str, str]
) -> None:
    (label,) = (one for one in listed(EXAMPLE).lists.labels if (one.wire, one.side) == (wire, side))
    assert label.texts[:2] == texts
    assert label.texts[-1] == wire


@pytest.mark.parametrize(("country", "bar"), [("US", "ground bar"), ("GB", "earth bar"), ("DE", "earth bar")])
def test_a_label_names_the_bar_as_the_pages_of_its_country_do(country: str, bar: str) -> None:
    text = (
        f"format: 1\nbuild: {{name: Alder, country: {country}}}\n"
        "battery: {chemistry: agm, capacity: 35 Ah, to main fuse: 5 in, to front box: 4 ft}\n"
        "front box: {fuse ways: 4}\nparts: {lamp: {kind: lamp, draws: 6 W}}\ncircuits: {light: {path: [lamp: 5 ft]}}\n"
    )
    said = {label.texts[1] for label in listed(text).lists.labels if label.circuit_name == "light"}
    assert said == {"1A → lamp", "1A → way 1", "1B → lamp", f"1B → {bar}"}


@pytest.mark.parametrize("text", BUILDS.values(), ids=BUILDS)
def test_labels_of_one_place_stand_together_box_and_plug_first(text: str) -> None:
    labels = [label for label in listed(text).lists.labels if label.role is not Role.SPARE]
    places = [place for place, _ in groupby(label.here.part for label in labels)]
    assert len(places) == len(set(places))
    rest = [place for place in places if place not in (FRONT_BOX, TOW_PLUG)]
    assert rest == sorted(rest, key=str.casefold)
    assert places == [place for place in (FRONT_BOX, TOW_PLUG) if place in places] + rest


def test_labels_in_the_box_go_along_the_block_by_way() -> None:
    labels = [
        label
        for label in listed(EXAMPLE).lists.labels
        if label.here.part == FRONT_BOX and label.role is not Role.SPARE
    ]
    ways = [int(label.here.pin.split()[1]) for label in labels if label.here.pin.startswith("way ")]
    assert ways == sorted(ways)
    assert ways[-1] == 12
    kinds = [kind for kind, _ in groupby(label.here.pin.split()[0].rstrip(":") for label in labels)]
    assert kinds == ["supply", "way", "strip", "ground"]
