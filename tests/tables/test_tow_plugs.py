"""Contacts of tow plugs and what feeds which lamp."""

from __future__ import annotations

import pytest

from builder.tables import NoRow
from builder.tables.gauges import TRADE_GAUGES, metric_areas_mm2
from builder.tables.protection import plug_fuse_limit
from builder.tables.tow_plugs import FUNCTIONS, PlugPattern, plug_pattern, plug_patterns
from builder.tables.wire_colours import colour_words

PATTERNS = [plug_pattern(name) for name in plug_patterns()]
COUNTS = {
    "4-way flat": 4, "7-way blade": 7, "7-pin 12N": 7, "13-pin": 13, "7-pin Australian": 7,
    "5-way flat": 5, "6-way round": 6, "heavy 7-way": 7, "12-pin Australian": 12,
}  # fmt: skip

# Contact numbers by function and side. Sources: SAE J1239 (4-way), the trade's 7-way blade list, ISO 1724,
# ISO 11446, the Australian 7-pin sheet; None where the plug has no such contact.
FEEDS: dict[str, dict[str, int | None]] = {
    "4-way flat": {
        "tail left": 2, "tail right": 2, "tail": 2, "marker right": 2, "plate": 2, "stop left": 3,
        "turn left": 3, "stop right": 4, "turn right": 4, "stop": None, "turn": None,
        "reverse": None, "battery": None, "brake": None, "fog": None, "ground": 1,
    },
    "7-way blade": {
        "tail left": 3, "plate": 3, "stop left": 5, "turn right": 6, "reverse": 7, "battery": 4,
        "brake": 2, "fog": None, "ground": 1, "switched supply": None,
    },
    "7-pin 12N": {
        "tail left": 7, "tail right": 5, "tail": 7, "marker left": 7, "marker right": 5, "plate": 7,
        "plate right": 5, "stop left": 6, "stop": 6, "turn left": 1, "turn right": 4, "fog": 2,
        "fog right": 2, "reverse": None, "battery": None, "ground": 3,
    },
    "13-pin": {
        "tail left": 7, "tail right": 5, "marker right": 5, "plate": 7, "stop right": 6,
        "turn left": 1, "turn right": 4, "reverse": 8, "fog left": 2, "battery": 9,
        "switched supply": 10, "brake": None, "ground": 3,
    },
    "7-pin Australian": {
        "tail left": 7, "marker right": 7, "plate": 7, "stop left": 6, "stop": 6, "turn left": 1,
        "turn right": 4, "reverse": 2, "brake": 5, "battery": None, "ground": 3,
    },
    "5-way flat": {"tail": 2, "stop left": 3, "turn right": 4, "brake": 5, "reverse": 5, "battery": None},
    "6-way round": {"plate": 2, "turn left": 3, "stop right": 4, "brake": 5, "battery": 6, "reverse": None},
    "heavy 7-way": {
        "marker left": 2, "plate": 2, "turn left": 3, "stop right": 4, "turn right": 5, "tail left": 6,
        "clearance": 6, "identification": 6, "brake": None, "ground": 1,
    },
    "12-pin Australian": {
        "tail": 7, "stop": 6, "brake": 5, "reverse": 2, "battery": 9, "fog": 11, "ground": 3, "clearance left": 7,
    },
}  # fmt: skip


def test_patterns_by_the_names_of_the_trade() -> None:
    assert {pattern.name: len(pattern.contacts) for pattern in PATTERNS} == COUNTS


def test_an_unknown_plug_is_refused_in_a_sentence() -> None:
    with pytest.raises(NoRow, match="no row for a plug called 9-pin"):
        plug_pattern("9-pin")


@pytest.mark.parametrize(
    ("name", "asked", "number"),
    [(name, asked, number) for name, feeds in FEEDS.items() for asked, number in feeds.items()],
)
def test_which_contact_feeds_what(name: str, asked: str, number: int | None) -> None:
    side = next((side for side in ("left", "right") if asked.endswith(f" {side}")), None)
    found = plug_pattern(name).contact_for(asked.removesuffix(f" {side}"), side=side)  # type: ignore[arg-type]
    assert (found.number if found else None) == number


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_contacts_stand_in_their_order(pattern: PlugPattern) -> None:
    assert [contact.number for contact in pattern.contacts] == list(range(1, len(pattern.contacts) + 1))


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_functions_come_from_the_closed_list_and_feed_one_contact_each(pattern: PlugPattern) -> None:
    functions = [word for contact in pattern.contacts for word in contact.functions]
    assert set(functions) <= set(FUNCTIONS)
    alone = [word for word in functions if word not in {"ground", "marker", "plate"}]
    assert len(set(alone)) == len(alone)


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_every_contact_that_carries_current_has_a_ground_to_return_by(pattern: PlugPattern) -> None:
    for contact in pattern.contacts:
        if contact.is_ground or contact.functions == ("reserved",):
            assert contact.return_contact is None
        else:
            assert contact.return_contact is not None
            assert pattern.contact(contact.return_contact).is_ground


def test_supplies_of_the_13_pin_plug_have_returns_of_their_own() -> None:
    """ISO 11446: 13 for contact 9, 11 for contact 10, 3 for the lamps; the three are not joined."""
    plug = plug_pattern("13-pin")
    assert [plug.contact(number).return_contact for number in (1, 8, 9, 10)] == [3, 3, 13, 11]


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_colours_are_known_words_and_differ(pattern: PlugPattern) -> None:
    coloured = [contact for contact in pattern.contacts if contact.base]
    assert {contact.base for contact in coloured} <= set(colour_words())
    assert {contact.tracer for contact in coloured if contact.tracer} <= set(colour_words())
    assert len({(contact.base, contact.tracer) for contact in coloured}) == len(coloured)
    others = [contact.other_base for contact in pattern.contacts if contact.other_base]
    assert len(set(others)) == len(others)
    assert set(others) <= set(colour_words())


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_how_known_stands_beside_each_thing_that_is_known(pattern: PlugPattern) -> None:
    for contact in pattern.contacts:
        assert bool(contact.base) == bool(contact.colour_known)
        assert bool(contact.other_base) == bool(contact.other_known)
        assert bool(contact.size) == bool(contact.size_known) == bool(contact.size_unit)
        assert bool(contact.car_fuse_a) == bool(contact.fuse_known)


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda pattern: pattern.name)
def test_usual_sizes_are_sizes_and_no_ground_is_fused(pattern: PlugPattern) -> None:
    for contact in pattern.contacts:
        if contact.size_unit == "AWG":
            assert contact.size in TRADE_GAUGES
        elif contact.size_unit == "mm2":
            assert float(contact.size) in metric_areas_mm2()
        if contact.car_fuse_a:
            assert not contact.is_ground
            assert contact.car_fuse_a[0] <= contact.car_fuse_a[1]


@pytest.mark.parametrize("number", [9, 10])
def test_usual_fuse_of_a_supply_stays_within_its_limit(number: int) -> None:
    usual = plug_pattern("13-pin").contact(number).car_fuse_a
    assert usual is not None
    assert usual[1] <= plug_fuse_limit("13-pin", number).value


def test_the_centre_of_the_7_way_blade_is_no_ground() -> None:
    assert not plug_pattern("7-way blade").contact(7).is_ground


def test_a_face_has_every_contact_of_its_plug_once() -> None:
    faces = [(pattern, pattern.face) for pattern in PATTERNS if pattern.face]
    assert {pattern.name: face.shape for pattern, face in faces} == {
        "4-way flat": "row",
        "7-way blade": "ring",
    }
    for pattern, face in faces:
        every = [*face.contacts, *([face.centre] if face.centre else [])]
        assert sorted(every) == [contact.number for contact in pattern.contacts]
