"""What we assumed: nothing is left out, what moves the nights most leads, what the maker gave stands last."""

from __future__ import annotations

from pathlib import Path

from owner_pages import page_of, table, view_of, words_of

ROOT = Path(__file__).parents[2] / "example_build"
EXAMPLE = (ROOT / "trailer.yaml").read_bytes()
SMALLEST = (ROOT / "smallest" / "trailer.yaml").read_bytes()
NIGHTS, LISTS, GIVEN = "How long the battery lasts", "What was bought", "Given by the maker"


def heads(data: bytes, caption: str) -> list[str]:
    """Return the names of a group's assumptions, in order."""
    page = page_of(view_of(data), "assumed")
    known = {one.id for one in view_of(data).figures.assumptions}
    rows = [row[0] for row in table(page, caption)]
    return [max((id_ for id_ in known if row.startswith(id_)), key=len) for row in rows]


def captions(data: bytes) -> list[str]:
    return [words_of(tag) for tag in page_of(view_of(data), "assumed").find_all("h2")]


def test_every_assumption_has_its_row_in_one_group() -> None:
    for data in (EXAMPLE, SMALLEST):
        listed = [id_ for caption in captions(data) for id_ in heads(data, caption)]
        assert sorted(listed) == sorted(one.id for one in view_of(data).figures.assumptions)


def test_the_groups_go_from_the_nights_to_what_the_maker_gave() -> None:
    assert captions(EXAMPLE)[0] == captions(SMALLEST)[0] == NIGHTS
    assert captions(EXAMPLE)[-2:] == [LISTS, GIVEN]
    assert heads(EXAMPLE, GIVEN) == ["frame bond length"]
    assert GIVEN not in captions(SMALLEST)


def test_what_moves_the_nights_most_leads() -> None:
    """By hand: fan 3 A for 1 to 10 h; lamps 16 W for 1 to 5 h; 30 to 80 % usable; 1.5 to 6 % lost in a month."""
    day_ah = 3.0 * 4 + 16.0 / 12 * 3 + 0.012 * 24
    swings = {
        "hours of fan": 3.0 * 9 / day_ah,
        "usable share of a lead battery": 50 / 50,
        "hours of lamp": 16.0 / 12 * 4 / day_ah,
        "self-discharge of a lead battery": 35 * 0.045 / 30.4 / day_ah,
    }
    assert heads(SMALLEST, NIGHTS) == sorted(swings, key=lambda id_: -swings[id_])


def test_what_takes_much_outranks_what_takes_little() -> None:
    """The fan's hours lead only as long as the fan takes more than the rest."""
    small = SMALLEST.replace(b"fan: {kind: fan, draws: 3 A", b"fan: {kind: fan, draws: 0.1 A")
    assert heads(small, NIGHTS).index("hours of lamp") < heads(small, NIGHTS).index("hours of fan")


def test_without_a_battery_nothing_is_said_of_one() -> None:
    text = SMALLEST.decode().partition("battery: {")[0] + (
        "tow plug: {pattern: 4-way flat, to front box: 7 ft}\nwire: {on the shelf: [16 AWG]}\n"
        "road lamps:\n  plate lamp: {shows: plate, wire: 12 ft}\n"
    )
    page = page_of(view_of(text.encode()), "assumed")
    assert "draws of plate lamps" in words_of(page)
    assert "battery" not in words_of(page).lower()


def test_sun_of_the_us_says_so_elsewhere() -> None:
    """The figures of sun were read for places in the US; the build with thirteen pins stands in Germany."""
    told = "from the US: farther from the equator the winter sun gives less"
    abroad = (ROOT / "thirteen_pins" / "trailer.yaml").read_bytes()
    assert told in words_of(page_of(view_of(abroad), "assumed"))
    assert told not in words_of(page_of(view_of(EXAMPLE), "assumed"))


def test_brakes_take_nothing_from_the_nights() -> None:
    """The car feeds them, and the breakaway's own battery: what they take is a matter of wires and fuses."""
    data = (ROOT / "braked" / "trailer.yaml").read_bytes()
    assert not [name for name in heads(data, NIGHTS) if "brake" in name]
    assert "draws of left brake" in heads(data, "Fuses and wire sizes")
    assert "hours of brake magnet" not in {one.id for one in view_of(data).figures.assumptions}
