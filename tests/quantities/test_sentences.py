"""Whole sentences: what a maker reads when a value cannot be read, word for word, and what is marked.

One row for each kind of slip; `test_quantities.py` holds the pieces that must be in many more.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from builder.quantities import (
    Misread,
    read_capacity,
    read_count,
    read_current,
    read_hours,
    read_length,
    read_mass,
    read_percent,
    read_power,
    read_power_or_current,
    read_size,
    read_temperature,
    read_voltage,
    read_yes_no,
)

LENGTH = "write a length, such as 14 ft 6 in or 4.4 m"
SIZE = "write a wire size, such as 16 AWG or 2.5 mm²"
DRAW = "write a power or a current, such as 3 W or 0.25 A"

# reader, text, the words marked, the whole message, the whole help
SENTENCES = [
    # what is wanted, by each reader
    (read_length, "", "", "nothing is written here; a length is wanted", LENGTH),
    (
        read_current,
        "ft",
        "ft",
        "there is no number in ft; a current is wanted",
        "write a current, such as 3 A",
    ),
    (read_power, ".inf", ".inf", ".inf is not a number that can be measured", "write a power, such as 3 W"),
    (read_power_or_current, "5 W/h", "/h", "/h does not name one unit of length", DRAW),
    (
        read_voltage,
        "x V",
        "x V",
        "there is no number in x V; a voltage is wanted",
        "write a voltage, such as 12.8 V",
    ),
    (
        read_capacity,
        "full",
        "full",
        "there is no number in full; a battery capacity is wanted",
        "write a battery capacity, such as 35 Ah",
    ),
    (
        read_mass,
        "2 tons",
        "tons",
        "tons is not a unit used for a weight",
        "write a weight, such as 1400 lb or 640 kg",
    ),
    (
        read_temperature,
        "300 K",
        "K",
        "K is not a unit used for a temperature",
        "write a temperature, such as 40 °C or 104 °F",
    ),
    (
        read_percent,
        "half",
        "half",
        "there is no number in half; a percentage is wanted",
        "write a percentage, such as 3 %",
    ),
    (
        read_hours,
        "long",
        "long",
        "there is no number in long; a time is wanted",
        "write a time, such as 1.5 h or 30 min",
    ),
    (
        read_size,
        "thin",
        "thin",
        "there is no number in thin; a wire size is wanted",
        "write a wire size, such as 16 AWG or 2.5 mm²",
    ),
    (read_count, "8.5", "8.5", "8.5 is not a whole number", "write a whole number, such as 8"),
    (
        read_count,
        "",
        "",
        "nothing is written here; a whole number is wanted",
        "write a whole number, such as 8",
    ),
    (read_count, "-3 4", "-3 4", "-3 4 is below zero", "write a whole number, such as 8"),
    (read_size, "", "", "nothing is written here; a wire size is wanted", SIZE),
    (read_size, "1e1 AWG", "1e1 AWG", "1e1 AWG is not a wire size used here", SIZE),
    (read_yes_no, "maybe so", "maybe so", "maybe so is not yes or no", "write yes or no"),
    (read_yes_no, " ", " ", "nothing is written here; yes or no is wanted", "write yes or no"),
    # the unit
    (read_length, "14", "14", "14 has no unit", "write 14 ft or 14 m"),
    (read_length, "14 ft 6", "6", "6 has no unit", "write 14 ft 6 in"),
    (read_mass, "12 lb 8", "8", "8 has no unit", "write 12 lb 8 oz"),
    (read_hours, "1 h 30", "30", "30 has no unit", "write 1 h 30 min"),
    (read_length, "3 m 20", "20", "20 has no unit", "write 3 m 20 cm"),
    (read_power_or_current, "1e3", "1e3", "1e3 has no unit", "write 1000 W or 1000 A"),
    (read_size, " 16 ", "16", "16 has no unit", "write 16 AWG or 16 mm²"),
    (read_temperature, "40 °", "°", "the ° does not say which degrees", "write 40 °C or 40 °F"),
    (read_power, "3 MW", "MW", "the M in MW can mean milli or mega", "write 3 mW"),
    (read_length, "3 fet", "fet", "fet is not a unit used for a length", "write 3 ft"),
    (
        read_capacity,
        "0.4 kWh",
        "0.4 kWh",
        "0.4 kWh is an energy; a battery capacity is wanted here",
        "write 31.2 Ah, if its voltage is 12.8 V: watt-hours over volts",
    ),
    (
        read_length,
        "2.5 mm2",
        "2.5 mm2",
        "2.5 mm2 is an area; a length is wanted here",
        "write 2.5 mm, if mm is meant",
    ),
    (read_length, "ft 3 in", "ft 3", "ft stands before its number", LENGTH),
    (read_length, "ft 3", "ft 3", "ft stands before its number", "write 3 ft"),
    (read_length, "12 V", "12 V", "12 V is a voltage; a length is wanted here", LENGTH),
    (read_length, "5 min", "5 min", "5 min is a time; a length is wanted here", "write 5 m, if m is meant"),
    (
        read_length,
        "2.5 mm²",
        "2.5 mm²",
        "2.5 mm² is an area; a length is wanted here",
        "write 2.5 mm, if mm is meant",
    ),
    (
        read_size,
        "2.5 MM",
        "2.5 MM",
        "2.5 MM is a length; a wire size is wanted here",
        "write 2.5 mm², if mm² is meant",
    ),
    (
        read_capacity,
        "400 Wh",
        "400 Wh",
        "400 Wh is an energy; a battery capacity is wanted here",
        "write 31.2 Ah, if its voltage is 12.8 V: watt-hours over volts",
    ),
    (
        read_current,
        "400 Wh",
        "400 Wh",
        "400 Wh is an energy; a current is wanted here",
        "write a current, such as 3 A",
    ),
    (
        read_current,
        "2 A per ft",
        "per ft",
        "per ft is one length's share; the whole is wanted here",
        "write 2 A for the whole of it",
    ),
    (
        read_power_or_current,
        "24 W per 5 m",
        "per 5",
        "per 5 does not name one unit of length",
        "write 4.8 W per m",
    ),
    (read_power_or_current, "24 W / 0 m", "/ 0", "/ 0 does not name one unit of length", DRAW),
    (read_power_or_current, "1 W 2 W per 5 m", "per 5", "per 5 does not name one unit of length", DRAW),
    (read_power_or_current, "5 W per", "per", "per does not name one unit of length", DRAW),
    # the number
    (read_size, "2,5 mm²", "2,5", "the comma inside 2,5 can mean two things", "write 2.5 mm²"),
    (
        read_capacity,
        "1,000 Ah",
        "1,000",
        "the comma inside 1,000 can mean two things",
        "write 1000 Ah or 1 Ah",
    ),
    (read_mass, "1,400 lb", "1,400", "the comma inside 1,400 can mean two things", "write 1400 lb or 1.4 lb"),
    (
        read_mass,
        "1,400,000 g",
        "1,400,000",
        "the comma inside 1,400,000 can mean two things",
        "write 1400000 g",
    ),
    (
        read_mass,
        "1400,250 g",
        "1400,250",
        "the comma inside 1400,250 can mean two things",
        "write 1400.250 g",
    ),
    (read_length, "1.000,5 mm", "1.000,5", "the comma inside 1.000,5 can mean two things", "write 1000.5 mm"),
    (read_length, "1 000 mm", "1 000", "the number 1 000 is written in pieces", "write 1000 mm"),
    (read_length, "1_000 mm", "1_000", "the number 1_000 is written in pieces", "write 1000 mm"),
    (read_length, "1.2.3 ft", "1.2.3", "1.2.3 has more than one point", LENGTH),
    (read_length, "15. ft", "15.", "15. has no digit behind its point", "write 15 ft"),
    (read_length, "5. ft", "5.", "5. has no digit behind its point", "write 5 ft"),
    (
        read_current,
        "lOoI A",
        "lOoI A",
        "there is no number in lOoI A; a current is wanted",
        "write a current, such as 3 A",
    ),
    (read_current, "1lOoI A", "1lOoI", "1lOoI has a letter where a digit is wanted", "write 11001 A"),
    (read_power, "1５ W", "1５", "1５ is not written in plain digits (0 to 9)", "write 15 W"),
    (read_length, "3/0 in", "3/0", "3/0 is a fraction over zero", LENGTH),
    (read_length, "6 3/2 in", "6 3/2", "the fraction in 6 3/2 is not smaller than one", LENGTH),
    (read_length, "6 2/2 in", "6 2/2", "the fraction in 6 2/2 is not smaller than one", LENGTH),
    (read_length, "1" * 21 + " ft", "1" * 21, "too long a number: 21 characters", LENGTH),
    (read_length, "1e31 ft", "1e31", "1e31 is too large a number", LENGTH),
    (read_length, "1e-31 ft", "1e-31", "1e-31 is too small a number", LENGTH),
    (read_length, "1e30 ft", "1e30 ft", "1e30 ft is above the most that is read, 1000000000 m", LENGTH),
    (read_length, "1e-30 m", "1e-30 m", "1e-30 m is below the least that is read, 0.000000001 m", LENGTH),
    (
        read_temperature,
        "-300 C",
        "-300 C",
        "-300 C is below the least that is read, -273.15 °C",
        "write a temperature, such as 40 °C or 104 °F",
    ),
    (
        read_percent,
        "100.1 %",
        "100.1 %",
        "100.1 % is above the most that is read, 100 %",
        "write a percentage, such as 3 %",
    ),
    (
        read_count,
        "1000001",
        "1000001",
        "1000001 is above the most that is read, 1000000",
        "write a whole number, such as 8",
    ),
    (read_length, "-3 ft", "-3", "-3 is below zero", "write 3 ft"),
    (read_count, "-3", "-3", "-3 is below zero", "write a whole number, such as 8"),
    (
        read_length,
        "0 ft 0 in",
        "0 ft 0 in",
        "0 ft 0 in is zero; a length above zero is wanted",
        LENGTH + ", or leave the line out",
    ),
    (
        read_count,
        "0",
        "0",
        "a whole number above zero is wanted",
        "write a whole number, such as 8, or leave the line out",
    ),
    # more than one value
    (read_power, "3–5 W", "3–5", "3-5 is a range", "write 3 W or 5 W"),
    (read_power, "3…5 W", "3…5", "3…5 is a range", "write 3 W or 5 W"),
    (read_power, "3 or 5 W", "3 or 5", "3 or 5 is a choice", "write 3 W or 5 W"),
    (read_length, "3 ft till 5 ft", "3 ft till 5 ft", "3 ft till 5 ft is a range", "write 3 ft or 5 ft"),
    (read_power, "3 W or 5 W", "3 W or 5 W", "3 W or 5 W is a choice", "write 3 W or 5 W"),
    (read_power, "3 W, 5 W", "5 W", "5 W is a second value; one is wanted here", "write 3 W or 5 W"),
    (read_length, "6 in 14 ft", "14 ft", "14 ft is a second value; one is wanted here", "write 14 ft 6 in"),
    (
        read_length,
        "14 ft 6 in 3 mm",
        "3 mm",
        "3 mm is a second value; one is wanted here",
        "write 14 ft 6 in or 3 mm",
    ),
    (read_length, "3 ft 5 ft 7 ft", "5 ft", "5 ft is a second value; one is wanted here", "write 3 ft"),
    (
        read_power_or_current,
        "1 W/ft 2 W/in",
        "2 W/in",
        "2 W/in is a second value; one is wanted here",
        "write 1 W/ft or 2 W/in",
    ),
    (read_length, "14 ft 16 in", "16 in", "16 in is 12 in or more behind 14 ft", "write 15 ft 4 in"),
    (read_length, "14 ft 12 in", "12 in", "12 in is 12 in or more behind 14 ft", "write 15 ft"),
    (read_length, "14 ft 12.5 in", "12.5 in", "12.5 in is 12 in or more behind 14 ft", LENGTH),
    (read_length, "3 m 100 cm", "100 cm", "100 cm is 100 cm or more behind 3 m", "write 4 m"),
    (read_hours, "1 h 75 min", "75 min", "75 min is 60 min or more behind 1 h", "write 2 h 15 min"),
    (read_mass, "1 lb 16 oz", "16 oz", "16 oz is 16 oz or more behind 1 lb", "write 2 lb"),
    (read_length, "14.5 ft 6 in", "14.5 ft", "14.5 ft is not whole, yet 6 in follows", LENGTH),
    # words and signs that do not belong
    (read_power, "about 3 W", "about", "about leaves the number open", "write 3 W"),
    (
        read_power,
        "2 × 3 W",
        "×",
        "× leaves something to work out",
        "write a power, such as 3 W; work it out and write one number",
    ),
    (read_length, "12:30", "12:30", "12:30 looks like a clock time; a length is wanted here", LENGTH),
    (read_length, "14 ft long", "long", "long is not part of a length", "write 14 ft"),
    (read_power, "3 W @ 12 V", "@", "@ is not part of a power", "write 3 W"),
    (read_power, "“3 W", "“", "a quote mark stands before the number", "write 3 W"),
    (read_power, '"', '"', "a quote mark stands before the number", "write a power, such as 3 W"),
    (
        read_power,
        "3\u200b W",
        "\u200b",
        "a character that cannot be seen stands here (U+200B)",
        "write 3 W; delete that character",
    ),
    (
        read_power,
        "3 W\x07",
        "\x07",
        "a character that cannot be seen stands here (U+0007)",
        "write 3 W; delete that character",
    ),
    (read_count, "8 ways", "ways", "ways is not part of a whole number", "write 8"),
    (read_count, "8 9", "9", "9 is not part of a whole number", "write 8"),
    # sizes
    (read_size, "15 AWG", "15 AWG", "15 AWG is not a wire size used here", "write 16 AWG or 14 AWG"),
    (read_size, "5 AWG", "5 AWG", "5 AWG is not a wire size used here", "write 6 AWG or 4 AWG"),
    (read_size, "24 AWG", "24 AWG", "24 AWG is not a wire size used here", "write 22 AWG"),
    (read_size, "5/0 AWG", "5/0 AWG", "5/0 AWG is not a wire size used here", "write 4/0 AWG"),
    (
        read_size,
        "14.5 ga",
        "14.5 ga",
        "14.5 ga is not a wire size used here",
        "write a wire size, such as 16 AWG or 2.5 mm²",
    ),
    (read_size, "3 mm²", "3 mm²", "3 mm² is not a wire size used here", "write 2.5 mm² or 4 mm²"),
    (read_size, "120 mm²", "120 mm²", "120 mm² is not a wire size used here", "write 70 mm²"),
    (read_size, "0.2 mm²", "0.2 mm²", "0.2 mm² is not a wire size used here", "write 0.5 mm²"),
    (read_size, "16/2 AWG", "16/2", "16/2 names a cable by its wires as well", "write 16 AWG"),
]


@pytest.mark.parametrize(("reader", "text", "marked", "message", "advice"), SENTENCES)
def test_the_whole_sentence_and_what_it_marks(
    reader: Callable[[str], object], text: str, marked: str, message: str, advice: str
) -> None:
    wrong = reader(text)
    assert isinstance(wrong, Misread)
    assert (wrong.message, wrong.help) == (message, advice)
    assert text[wrong.start : wrong.start + wrong.length] == marked
    assert (wrong.start, wrong.length) == (text.index(marked) if marked else 0, max(1, len(marked)))


@pytest.mark.parametrize(
    ("word", "meant"),
    [("on", "yes"), ("Y", "yes"), ("1", "yes"), ("OFF", "no"), ("n", "no"), ("0", "no"), (" y ", "yes")],
)
def test_words_that_other_files_use_for_yes_and_no(word: str, meant: str) -> None:
    inner = word.strip()
    advice = f"write {meant}"
    wrong = Misread(word.index(inner), len(inner), f"{inner} is not yes or no", advice, fixes=(meant,))
    assert read_yes_no(word) == wrong


def test_the_length_of_a_text_and_of_its_echo() -> None:
    """A line of 100 characters is read, one of 101 is not; an echo ends at 40 characters."""
    assert read_length("9 ft".rjust(100)) == pytest.approx(2.7432)
    long = read_length("9 ft".rjust(101))
    assert long == Misread(0, 101, "101 characters are too many for a length", LENGTH)
    assert read_length("9" * 3 + " " + "x" * 40) == Misread(
        4, 40, f"{'x' * 40} is not a unit used for a length", LENGTH
    )
    cut = read_length("999 " + "x" * 41)
    assert cut == Misread(4, 41, f"{'x' * 39}… is not a unit used for a length", LENGTH)
    assert read_length("1" + "0" * 19 + " ft") == Misread(
        0, 23, f"1{'0' * 19} ft is above the most that is read, 1000000000 m", LENGTH
    )


def test_the_ends_of_what_is_read() -> None:
    """The least and the most are read themselves."""
    assert read_length("1000000000 m") == 1e9
    assert read_length("0.000000001 m") == 1e-9
    assert read_count("1000000") == 1_000_000
    assert read_percent("100 %") == 100.0
    assert read_temperature("-273.15 °C") == -273.15
    assert read_length("11.9 in") == pytest.approx(0.30226)
