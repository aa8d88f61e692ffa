"""What a trailer keeps and loses at another socket; the allocation of contacts is that of the tow-plug table."""

from __future__ import annotations

from builder.buildfile.resolving import read_build
from builder.electrics.adapters import Doubt, OtherSocket, other_sockets, used_functions
from builder.tables.table import load_table
from builder.tables.tow_plugs import plug_pattern
from builder.trailer.model import Trailer

LAMPS = (
    "road lamps:\n  rear lamp: {shows: [tail, stop, turn], side: both, wire: 5 m}\n"
    "  plate lamp: {shows: plate, side: left, wire: 5 m}\n"
)


def trailer(pattern: str, more: str = "", country: str = "US") -> Trailer:
    text = (
        f"format: 1\nbuild: {{name: Example, country: {country}}}\n"
        f"tow plug: {{pattern: {pattern}, to front box: 2 m}}\n{LAMPS}{more}"
    )
    reading = read_build(text.encode())
    assert reading.trailer is not None, [p.message for p in reading.problems]
    return reading.trailer


def sockets(one: Trailer) -> dict[str, OtherSocket]:
    return {socket.pattern: socket for socket in other_sockets(one)}


def test_lamps_of_a_4_way_work_at_every_american_socket_of_the_same_signals() -> None:
    found = sockets(trailer("4-way flat"))
    assert set(found) == {"5-way flat", "6-way round", "7-way blade", "heavy 7-way"}
    for name in ("5-way flat", "6-way round", "7-way blade"):
        assert found[name].lost == ()
        assert found[name].converter == ""


def test_signals_that_are_apart_in_the_car_need_a_converter_for_one_wire_a_side() -> None:
    assert sockets(trailer("4-way flat"))["heavy 7-way"].converter == "apart"


def test_signals_on_one_wire_in_the_car_need_one_for_lamps_apart() -> None:
    assert sockets(trailer("heavy 7-way"))["7-way blade"].converter == "together"


def test_charging_and_brakes_are_lost_where_there_is_no_contact() -> None:
    battery = (
        "battery: {chemistry: lithium, capacity: 60 Ah, to main fuse: 12 cm, to front box: 60 cm}\n"
        "front box: {fuse ways: 4}\nparts: {charger: {kind: dc charger, gives: 8 A}}\n"
        "circuits:\n  charge line: {from: tow plug battery, path: [line fuse: 20 cm, charger: 1 m, "
        "battery fuse: 30 cm, battery: 15 cm]}\n"
    )
    found = sockets(trailer("13-pin", battery, "DE"))
    assert found["7-pin 12N"].lost == ("battery",)
    assert found["7-pin 12N"].converter == ""
    assert used_functions(trailer("13-pin", battery, "DE")) == ("tail", "plate", "turn", "stop", "battery")


def test_what_works_and_what_is_lost_are_together_all_that_is_used() -> None:
    for pattern, country in (("4-way flat", "US"), ("13-pin", "GB"), ("7-pin Australian", "AU")):
        one = trailer(pattern, country=country)
        for socket in other_sockets(one):
            doubts = [doubt.function for doubt in socket.doubts]
            assert sorted((*socket.works, *doubts, *socket.lost)) == sorted(used_functions(one))


BRAKED = (
    "brakes: {kind: electric, drum: 10 in, magnets: 2}\n"
    "parts: {left brake: {kind: brake magnet}, right brake: {kind: brake magnet}}\n"
    "circuits:\n  brakes: {from: tow plug brake, path: [left brake: 5 m, right brake: 2 m]}\n"
)


def test_brakes_at_a_contact_that_cars_wire_differently_work_only_once_it_is_measured() -> None:
    """The trade's 5-way has brakes or the reversing wire there; some 6-way sockets swap brakes and power."""
    found = sockets(trailer("7-way blade", BRAKED))
    assert found["5-way flat"].doubts == (Doubt("brake", "5", ("reverse",)),)
    assert found["6-way round"].doubts == (Doubt("brake", "5", ("battery",)),)
    for name in ("5-way flat", "6-way round"):
        assert "brake" not in (*found[name].works, *found[name].lost)
    assert found["4-way flat"].lost == ("brake",)
    assert found["4-way flat"].doubts == found["heavy 7-way"].doubts == ()


def test_a_contact_in_doubt_is_one_of_its_pattern_and_carries_what_the_pattern_says() -> None:
    for row in load_table("plug_doubts").rows:
        contact = plug_pattern(row.cells["pattern"]).contact(row.cells["contact"])
        assert set(contact.functions) <= set(row.cells["may_be"].split("|"))
        assert len(row.cells["may_be"].split("|")) > 1
