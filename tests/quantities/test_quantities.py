"""Quantities, spelling by spelling.

Right values are held against pint's own unit definitions, which the reading does not use. Wrong ones name the
words that must be marked, a piece of the sentence and a piece of the help.
"""

import doctest
import importlib
import math
import re
import subprocess
import sys

import pint
import pytest

from builder import quantities
from builder.quantities import (
    AWG_SIZES,
    METRIC_SIZES,
    Draw,
    Misread,
    SizeText,
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
    show_length,
    show_mass,
    show_rest,
    show_size,
)
from builder.quantities.showing import show_measure

# reader, base unit for pint, text, the same value as numbers and units for pint
MEASURED = [
    (read_length, "m", "14 ft 6 in", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 ft & 6 in", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14\u202fft 6\u00a01/2\u2009in", [(14, "foot"), (6.5, "inch")]),
    (read_length, "m", "14' 6\"", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14'6\"", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14′ 6″", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14’ 6”", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14' 6''", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14'-6\"", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14ft6in", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 ft. 6 in.", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 feet, 6 inches", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 Feet and 6 Inches", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14-foot 6-inch", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 FT 6 IN", [(14, "foot"), (6, "inch")]),
    (read_length, "m", "14 ft 6 1/2 in", [(14, "foot"), (6.5, "inch")]),
    (read_length, "m", "14'-6-1/2\"", [(14, "foot"), (6.5, "inch")]),
    (read_length, "m", "14' 6½\"", [(14, "foot"), (6.5, "inch")]),
    (read_length, "m", "14 ft 0 in", [(14, "foot")]),
    (read_length, "m", "0 ft 6 in", [(6, "inch")]),
    (read_length, "m", "9 ft", [(9, "foot")]),
    (read_length, "m", "9'", [(9, "foot")]),
    (read_length, "m", "4.5 ft", [(4.5, "foot")]),
    (read_length, "m", "6 1/2 in", [(6.5, "inch")]),
    (read_length, "m", "6-1/2 in", [(6.5, "inch")]),
    (read_length, "m", "14-1/2 in", [(14.5, "inch")]),
    (read_length, "m", "3/4 in", [(0.75, "inch")]),
    (read_length, "m", "3 / 4 in", [(0.75, "inch")]),
    (read_length, "m", "3⁄4 in", [(0.75, "inch")]),
    (read_length, "m", "⅜ in", [(0.375, "inch")]),
    (read_length, "m", "1 ⅓ ft", [(16, "inch")]),
    (read_length, "m", '174"', [(174, "inch")]),
    (read_length, "m", "3.2 m", [(3.2, "meter")]),
    (read_length, "m", "3.2m", [(3.2, "meter")]),
    (read_length, "m", "5 M", [(5, "meter")]),
    (read_length, "m", "320 cm", [(320, "centimeter")]),
    (read_length, "m", "3200 mm", [(3200, "millimeter")]),
    (read_length, "m", "3200 MM", [(3200, "millimeter")]),
    (read_length, "m", "3 metres 20 cm", [(3, "meter"), (20, "centimeter")]),
    (read_length, "m", ".5 meters", [(0.5, "meter")]),
    (read_length, "m", "1e3 mm", [(1, "meter")]),
    (read_length, "m", "2 yards", [(2, "yard")]),
    (read_length, "m", "  9\u00a0ft ", [(9, "foot")]),
    (read_length, "m", "9\u202fft", [(9, "foot")]),
    (read_length, "m", "“9 ft”", [(9, "foot")]),
    (read_length, "m", "'14' 6\"'", [(14, "foot"), (6, "inch")]),
    (read_current, "A", "3 A", [(3, "ampere")]),
    (read_current, "A", "3a", [(3, "ampere")]),
    (read_current, "A", "7 1/2 amps", [(7.5, "ampere")]),
    (read_current, "A", "1 amp", [(1, "ampere")]),
    (read_current, "A", "12 mA", [(12, "milliampere")]),
    (read_current, "A", "35 ma", [(35, "milliampere")]),
    (read_current, "A", "80 µA", [(80, "microampere")]),
    (read_current, "A", "80 uA", [(80, "microampere")]),
    (read_current, "A", "10 kA", [(10, "kiloampere")]),
    (read_power, "W", "35 W", [(35, "watt")]),
    (read_power, "W", "3 w", [(3, "watt")]),
    (read_power, "W", "35 watts", [(35, "watt")]),
    (read_power, "W", "1.2 kW", [(1.2, "kilowatt")]),
    (read_power, "W", "300 mW", [(300, "milliwatt")]),
    (read_power, "W", "100 Wp", [(100, "watt")]),
    (read_voltage, "V", "12.8 V", [(12.8, "volt")]),
    (read_voltage, "V", "12 volts", [(12, "volt")]),
    (read_voltage, "V", "12 VDC", [(12, "volt")]),
    (read_voltage, "V", "12 V DC", [(12, "volt")]),
    (read_voltage, "V", "75 mV", [(75, "millivolt")]),
    (read_capacity, "A*h", "35 Ah", [(35, "ampere*hour")]),
    (read_capacity, "A*h", "35 AH", [(35, "ampere*hour")]),
    (read_capacity, "A*h", "35 amp-hours", [(35, "ampere*hour")]),
    (read_capacity, "A*h", "35 amp hours", [(35, "ampere*hour")]),
    (read_capacity, "A*h", "35 A·h", [(35, "ampere*hour")]),
    (read_capacity, "A*h", "3500 mAh", [(3500, "milliampere*hour")]),
    (read_mass, "kg", "1400 lb", [(1400, "pound")]),
    (read_mass, "kg", "1400 lbs.", [(1400, "pound")]),
    (read_mass, "kg", "12 lb 8 oz", [(12.5, "pound")]),
    (read_mass, "kg", "640 kg", [(640, "kilogram")]),
    (read_mass, "kg", "900 g", [(900, "gram")]),
    (read_temperature, "degC", "40 C", [(40, "degC")]),
    (read_temperature, "degC", "105 °C", [(105, "degC")]),
    (read_temperature, "degC", "105 ºC", [(105, "degC")]),
    (read_temperature, "degC", "105℃", [(105, "degC")]),
    (read_temperature, "degC", "104 F", [(104, "degF")]),
    (read_temperature, "degC", "104 degrees Fahrenheit", [(104, "degF")]),
    (read_temperature, "degC", "-10 °C", [(-10, "degC")]),
    (read_temperature, "degC", "−4 °F", [(-4, "degF")]),
    (read_temperature, "degC", "0 deg C", [(0, "degC")]),
    (read_percent, "percent", "3 %", [(3, "percent")]),
    (read_percent, "percent", "3%", [(3, "percent")]),
    (read_percent, "percent", "92.5 percent", [(92.5, "percent")]),
    (read_percent, "percent", "3 per cent", [(3, "percent")]),
    (read_percent, "percent", "0 %", [(0, "percent")]),
    (read_hours, "hour", "3 h", [(3, "hour")]),
    (read_hours, "hour", "30 min", [(30, "minute")]),
    (read_hours, "hour", "1 h 30 min", [(90, "minute")]),
    (read_hours, "hour", "1/2 hour", [(30, "minute")]),
    (read_hours, "hour", "0 h", [(0, "hour")]),
]

DRAWS = [
    ("3 W", Draw(3.0, "W", False)),
    ("0.25 A", Draw(0.25, "A", False)),
    ("250 mA", Draw(0.25, "A", False)),
    ("1.5 W per ft", Draw(1.5 / 0.3048, "W", True)),
    ("1.5 watts per foot", Draw(1.5 / 0.3048, "W", True)),
    ("1.5W/ft", Draw(1.5 / 0.3048, "W", True)),
    ("5 W/m", Draw(5.0, "W", True)),
    ("1.5 W/'", Draw(1.5 / 0.3048, "W", True)),
    ("5 W / metre", Draw(5.0, "W", True)),
    ("400 mA per m", Draw(0.4, "A", True)),
    ("0.05 W per cm", Draw(5.0, "W", True)),
]

SIZES = [
    ("16 AWG", "AWG", "16"),
    ("AWG 16", "AWG", "16"),
    ("16awg", "AWG", "16"),
    ("AWG16", "AWG", "16"),
    ("16 ga", "AWG", "16"),
    ("16 ga.", "AWG", "16"),
    ("16 gauge", "AWG", "16"),
    ("16-gauge", "AWG", "16"),
    ("#16", "AWG", "16"),
    ("#16 AWG", "AWG", "16"),
    ("08 AWG", "AWG", "8"),
    ("1/0 AWG", "AWG", "1/0"),
    ("AWG 2/0", "AWG", "2/0"),
    ("0 AWG", "AWG", "1/0"),
    ("000 AWG", "AWG", "3/0"),
    ("0000 ga", "AWG", "4/0"),
    ("2.5 mm²", "mm2", "2.5"),
    ("2.5 mm2", "mm2", "2.5"),
    ("2.5mm^2", "mm2", "2.5"),
    ("2.50 MM2", "mm2", "2.5"),
    ("2.5 sq mm", "mm2", "2.5"),
    (".75 mm²", "mm2", "0.75"),
    ("16 mm²", "mm2", "16"),
    ("½ mm²", "mm2", "0.5"),
]

# reader, text, the words marked, piece of the message, piece of the help
WRONG = [
    # nothing, or no number
    (read_length, "", "", "nothing is written", "such as 14 ft 6 in"),
    (read_length, "   ", "   ", "nothing is written", "such as 14 ft 6 in"),
    (read_length, '""', '""', "nothing is written", "such as 14 ft 6 in"),
    (read_length, "long", "long", "no number", "such as 14 ft 6 in"),
    (read_size, "AWG", "AWG", "no number in AWG", "16 AWG or 2.5 mm²"),
    (read_current, "ft", "ft", "no number in ft; a current is wanted", "3 A"),
    (read_length, "ft 3", "ft 3", "before its number", "write 3 ft"),
    (read_current, "UP TO 3 A", "UP TO", "leaves the number open", "write 3 A"),
    (read_current, "3\u00a0A or 4\u202fA", "3\u00a0A or 4\u202fA", "is a choice", "write 3 A or 4 A"),
    # the unit
    (read_length, "14", "14", "14 has no unit", "write 14 ft or 14 m"),
    (read_length, "14 ft 6", "6", "6 has no unit", "write 14 ft 6 in"),
    (read_length, "14' 6 1/2", "6 1/2", "6 1/2 has no unit", "write 14' 6 1/2 in"),
    (read_length, "14 6 ft", "14", "14 has no unit", "such as 14 ft 6 in"),
    (read_power_or_current, "1e3", "1e3", "1e3 has no unit", "write 1000 W or 1000 A"),
    (read_power_or_current, "3", "3", "3 has no unit", "write 3 W or 3 A"),
    (read_capacity, "35", "35", "no unit", "write 35 Ah"),
    (read_size, "16", "16", "16 has no unit", "write 16 AWG or 16 mm²"),
    (read_size, "1/0", "1/0", "1/0 has no unit", "write 1/0 AWG"),
    (read_size, "2.5", "2.5", "2.5 has no unit", "write 2.5 mm²"),
    (read_temperature, "40", "40", "40 has no unit", "write 40 °C or 40 °F"),
    (read_temperature, "40 °", "°", "which degrees", "write 40 °C or 40 °F"),
    (read_percent, "3", "3", "no unit", "write 3 %"),
    (read_hours, "3", "3", "no unit", "write 3 h or 3 min"),
    (read_length, "3 W", "3 W", "3 W is a power; a length is wanted here", "14 ft 6 in"),
    (read_length, "12 V", "12 V", "12 V is a voltage", "14 ft 6 in"),
    (read_length, "5 min", "5 min", "5 min is a time", "write 5 m, if m is meant"),
    (read_length, "2.5 mm²", "2.5 mm²", "is an area", "write 2.5 mm, if mm is meant"),
    (read_hours, "5 m", "5 m", "5 m is a length; a time is wanted", "write 5 min, if min is meant"),
    (read_capacity, "35 A", "35 A", "35 A is a current", "write 35 Ah, if Ah is meant"),
    (read_capacity, "400 Wh", "400 Wh", "400 Wh is an energy", "31.2 Ah, if its voltage is 12.8 V"),
    (read_current, "35 Ah", "35 Ah", "is a battery capacity", "write 35 A, if A is meant"),
    (read_size, "2.5 mm", "2.5 mm", "2.5 mm is a length", "write 2.5 mm², if mm² is meant"),
    (read_size, "3 W", "3 W", "3 W is a power; a wire size is wanted", "16 AWG"),
    (read_length, "16 AWG", "16 AWG", "16 AWG is a wire size; a length is wanted", "14 ft 6 in"),
    (read_voltage, "120 VAC", "120 VAC", "an alternating voltage", "12.8 V"),
    (read_power_or_current, "3 W 12 V", "12 V", "12 V is a voltage", "3 W or 0.25 A"),
    (read_length, "3 fet", "fet", "fet is not a unit used for a length", "write 3 ft"),
    (read_length, "3 parsecs", "parsecs", "parsecs is not a unit", "14 ft 6 in"),
    (read_current, "3 Ampers", "Ampers", "not a unit used for a current", "write 3 A"),
    (read_mass, "2 tons", "tons", "tons is not a unit", "1400 lb or 640 kg"),
    (read_size, "14 gage", "gage", "gage is not a unit", "write 14 AWG"),
    (read_size, "250 kcmil", "kcmil", "kcmil is not a unit", "16 AWG"),
    (read_temperature, "300 K", "K", "K is not a unit", "40 °C"),
    (read_temperature, "104 farenheit", "farenheit", "farenheit is not a unit", "write 104 °F"),
    (read_temperature, "40 celcius", "celcius", "celcius is not a unit", "write 40 °C"),
    (read_power, "3 MW", "MW", "the M in MW can mean milli or mega", "write 3 mW"),
    (read_current, "35 MA", "MA", "milli or mega", "write 35 mA"),
    (
        read_current,
        "2 A per ft",
        "per ft",
        "one length's share; the whole is wanted",
        "write 2 A for the whole",
    ),
    (read_power_or_current, "24 W per 5 m", "per 5", "does not name one unit of length", "write 4.8 W per m"),
    (read_power_or_current, "5 W per", "per", "does not name one unit of length", "3 W or 0.25 A"),
    (read_power_or_current, "5 W/h", "/h", "does not name one unit of length", "3 W or 0.25 A"),
    # the number
    (read_size, "2,5 mm²", "2,5", "the comma inside 2,5 can mean two things", "write 2.5 mm²"),
    (read_capacity, "1,000 Ah", "1,000", "the comma inside 1,000", "write 1000 Ah or 1 Ah"),
    (read_mass, "1,400.5 lb", "1,400.5", "the comma inside 1,400.5", "write 1400.5 lb"),
    (read_length, "1.000,5 mm", "1.000,5", "the comma inside", "write 1000.5 mm"),
    (read_length, "14 ft 6,5 in", "6,5", "the comma inside 6,5", "write 14 ft 6.5 in"),
    (read_length, "1 000 mm", "1 000", "written in pieces", "write 1000 mm"),
    (read_length, "1_000 mm", "1_000", "written in pieces", "write 1000 mm"),
    (read_length, "1.2.3 ft", "1.2.3", "more than one point", "14 ft 6 in"),
    (read_length, "5. ft", "5.", "no digit behind its point", "write 5 ft"),
    (read_current, "1O A", "1O", "a letter where a digit is wanted", "write 10 A"),
    (read_current, "l5 A", "l5", "a letter where a digit is wanted", "write 15 A"),
    (read_size, "1/O AWG", "1/O", "a letter where a digit is wanted", "write 1/0 AWG"),
    (read_power, "３ W", "３", "not written in plain digits", "write 3 W"),
    (read_power, "1５ W", "1５", "not written in plain digits", "write 15 W"),
    (read_length, "3/0 in", "3/0", "a fraction over zero", "14 ft 6 in"),
    (read_length, "6 1/0 in", "6 1/0", "a fraction over zero", "14 ft 6 in"),
    (read_length, "6 3/2 in", "6 3/2", "not smaller than one", "14 ft 6 in"),
    (read_length, "9" * 5000 + " ft", "9" * 5000, "too long a number: 5000", "14 ft 6 in"),
    (read_count, "1" * 5000, "1" * 5000, "too long a number", "such as 8"),
    (read_length, "1e400 ft", "1e400", "too large a number", "14 ft 6 in"),
    (read_length, "1e-400 ft", "1e-400", "too small a number", "14 ft 6 in"),
    (read_length, "1e12 ft", "1e12 ft", "above the most that is read", "14 ft 6 in"),
    (read_length, "1e-12 m", "1e-12 m", "below the least that is read", "14 ft 6 in"),
    (read_length, ".inf", ".inf", "not a number that can be measured", "14 ft 6 in"),
    (read_power, "inf W", "inf", "not a number that can be measured", "3 W"),
    (read_voltage, "nan V", "nan", "not a number that can be measured", "12.8 V"),
    (read_length, "-3 ft", "-3", "-3 is below zero", "write 3 ft"),
    (read_size, "-1 mm²", "-1", "-1 is below zero", "write 1 mm²"),
    (read_length, "0 ft", "0 ft", "0 ft is zero; a length above zero is wanted", "leave the line out"),
    (read_length, "0 ft 0 in", "0 ft 0 in", "is zero", "leave the line out"),
    (read_voltage, "0 V", "0 V", "a voltage above zero is wanted", "12.8 V"),
    (read_power_or_current, "0 W", "0 W", "a power or a current above zero", "leave the line out"),
    (read_temperature, "-300 C", "-300 C", "below the least that is read, -273.15 °C", "40 °C"),
    (read_percent, "110 %", "110 %", "above the most that is read, 100 %", "3 %"),
    # more than one value, or none in particular
    (read_power, "3-5 W", "3-5", "3-5 is a range", "write 3 W or 5 W"),
    (read_power, "3–5 W", "3–5", "is a range", "write 3 W or 5 W"),
    (read_power, "3 to 5 W", "3 to 5", "is a range", "write 3 W or 5 W"),
    (read_power, "3..5 W", "3..5", "is a range", "write 3 W or 5 W"),
    (read_length, "3 ft to 5 ft", "3 ft to 5 ft", "is a range", "write 3 ft or 5 ft"),
    (read_power, "3 W or 5 W", "3 W or 5 W", "is a choice", "write 3 W or 5 W"),
    (read_power, "3 W, 5 W", "5 W", "5 W is a second value", "write 3 W or 5 W"),
    (read_length, "3 ft 5 ft", "5 ft", "5 ft is a second value", "write 3 ft or 5 ft"),
    (read_length, "6 in 14 ft", "14 ft", "14 ft is a second value", "write 14 ft 6 in"),
    (read_length, "14 ft 6 in 3 mm", "3 mm", "3 mm is a second value", "write 14 ft 6 in or 3 mm"),
    (read_length, "14 ft 16 in", "16 in", "16 in is 12 in or more behind 14 ft", "write 15 ft 4 in"),
    (read_length, "14 ft 12 in", "12 in", "12 in or more", "write 15 ft"),
    (read_hours, "1 h 75 min", "75 min", "60 min or more", "write 2 h 15 min"),
    (read_length, "14.5 ft 6 in", "14.5 ft", "14.5 ft is not whole, yet 6 in follows", "14 ft 6 in"),
    (read_power, "~3 W", "~", "~ leaves the number open", "write 3 W"),
    (read_power, "about 3 W", "about", "about leaves the number open", "write 3 W"),
    (read_power, "< 3 W", "<", "leaves the number open", "write 3 W"),
    (read_power, "2 x 3 W", "x", "leaves something to work out", "write one number"),
    (read_power, "2 × 3 W", "×", "leaves something to work out", "write one number"),
    (read_length, "12:30", "12:30", "12:30 looks like a clock time; a length is wanted", "14 ft 6 in"),
    (read_length, "1:30:15", "1:30:15", "looks like a clock time", "14 ft 6 in"),
    # signs and words that do not belong
    (read_length, "14 ft long", "long", "long is not part of a length", "write 14 ft"),
    (read_power, "3 W @ 12 V", "@", "@ is not part of a power", "write 3 W"),
    (read_power, "+3 W", "+", "+ is not part of a power", "write 3 W"),
    (read_power, "“3 W", "“", "a quote mark stands before", "write 3 W"),
    (read_power, "3\u200b W", "\u200b", "cannot be seen stands here (U+200B)", "write 3 W; delete"),
    (read_power, "3 W\u202e", "\u202e", "(U+202E)", "delete that character"),
    (read_power, "3\x07 W", "\x07", "(U+0007)", "delete that character"),
    (read_power, "\ud8003 W", "\ud800", "(U+D800)", "delete that character"),
    (read_power, "3 W " * 40, "3 W " * 40, "160 characters are too many for a power", "3 W"),
    # sizes outside the two series
    (read_size, "15 AWG", "15 AWG", "15 AWG is not a wire size used here", "write 16 AWG or 14 AWG"),
    (read_size, "24 AWG", "24 AWG", "not a wire size used here", "write 22 AWG"),
    (read_size, "5/0 AWG", "5/0 AWG", "not a wire size used here", "write 4/0 AWG"),
    (read_size, "00000 AWG", "00000 AWG", "not a wire size used here", "write 4/0 AWG"),
    (read_size, "14.5 AWG", "14.5 AWG", "not a wire size used here", "16 AWG or 2.5 mm²"),
    (read_size, "3 mm²", "3 mm²", "3 mm² is not a wire size used here", "write 2.5 mm² or 4 mm²"),
    (read_size, "120 mm²", "120 mm²", "not a wire size used here", "write 70 mm²"),
    (read_size, "0.2 mm²", "0.2 mm²", "not a wire size used here", "write 0.5 mm²"),
    (read_size, "16/2", "16/2", "16/2 names a cable by its wires as well", "write 16 AWG"),
    (read_size, "16/2 AWG", "16/2", "names a cable", "write 16 AWG"),
    (read_size, "16 AWG wire", "wire", "wire is not part of a wire size", "write 16 AWG"),
    (read_size, "16 AWG 14 AWG", "14 AWG", "14 AWG is a second value", "write 16 AWG or 14 AWG"),
    # counts
    (read_count, "8 ways", "ways", "ways is not part of a whole number", "write 8"),
    (read_count, "8.5", "8.5", "8.5 is not a whole number", "such as 8"),
    (read_count, "0", "0", "a whole number above zero is wanted", "leave the line out"),
    (read_count, "-3", "-3", "-3 is below zero", "such as 8"),
    (read_count, "1,000", "1,000", "the comma inside 1,000", "write 1000 or 1"),
    (read_count, "8 9", "9", "9 is not part of a whole number", "write 8"),
    (read_count, "eight", "eight", "eight is not part of a whole number", "such as 8"),
    (read_count, "2000000", "2000000", "above the most that is read", "such as 8"),
    # yes and no
    (read_yes_no, "on", "on", "on is not yes or no", "write yes"),
    (read_yes_no, "off", "off", "off is not yes or no", "write no"),
    (read_yes_no, "y", "y", "y is not yes or no", "write yes"),
    (read_yes_no, "maybe so", "maybe so", "maybe so is not yes or no", "write yes or no"),
    (read_yes_no, "", "", "nothing is written here; yes or no is wanted", "write yes or no"),
]


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


def named(row):
    return f"{row[0].__name__[5:]} {row[1]!a:.30}"


@pytest.mark.parametrize(("reader", "base", "text", "parts"), MEASURED)
def test_reads_as_pint_converts(registry, reader, base, text, parts):
    expected = sum(registry.Quantity(number, unit).to(base).magnitude for number, unit in parts)
    assert reader(text) == pytest.approx(expected, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(("text", "expected"), DRAWS)
def test_reads_draws(text, expected):
    assert read_power_or_current(text) == expected


@pytest.mark.parametrize(("text", "kind", "value"), SIZES)
def test_reads_sizes(text, kind, value):
    assert read_size(text) == SizeText(kind, value)


@pytest.mark.parametrize("size", AWG_SIZES)
def test_every_awg_size_is_read_as_printed(size):
    assert show_size(SizeText("AWG", size)) == f"{size} AWG"
    assert read_size(f"{size} AWG") == SizeText("AWG", size)


@pytest.mark.parametrize("size", METRIC_SIZES)
def test_every_metric_size_is_read_as_printed(size):
    assert show_size(SizeText("mm2", size)) == f"{size} mm²"
    assert read_size(f"{size} mm²") == SizeText("mm2", size)


@pytest.mark.parametrize(
    ("text", "expected"), [("8", 8), (" 12 ", 12), ("8.0", 8), ("1e3", 1000), ("“8”", 8)]
)
def test_reads_counts(text, expected):
    count = read_count(text)
    assert count == expected
    assert isinstance(count, int)


@pytest.mark.parametrize(
    ("text", "expected"), [("yes", True), ("No", False), ("TRUE", True), ("false", False), ("“yes”", True)]
)
def test_reads_yes_and_no(text, expected):
    assert read_yes_no(text) is expected


@pytest.mark.parametrize("reader", [read_length, read_current, read_power, read_voltage])
def test_zero_passes_only_where_it_is_asked_for(reader):
    text = {read_length: "0 m", read_current: "0 mA", read_power: "0 W", read_voltage: "0 V"}[reader]
    assert isinstance(reader(text), Misread)
    assert reader(text, zero_ok=True) == 0.0


def test_zero_draw_and_count_pass_where_asked_for():
    assert read_power_or_current("0 A", zero_ok=True) == Draw(0.0, "A", False)
    assert read_count("0", zero_ok=True) == 0
    assert isinstance(read_power_or_current("-1 A", zero_ok=True), Misread)


@pytest.mark.parametrize(("reader", "text", "marked", "message", "advice"), WRONG, ids=map(named, WRONG))
def test_says_what_is_wrong_and_what_to_do(reader, text, marked, message, advice):
    wrong = reader(text)
    assert isinstance(wrong, Misread)
    assert text[wrong.start : wrong.start + wrong.length] == marked
    assert message in wrong.message
    assert advice in wrong.help
    assert wrong.length >= 1


@pytest.mark.parametrize(("reader", "text"), [row[:2] for row in WRONG], ids=map(named, WRONG))
def test_every_spelling_that_the_help_names_is_read(reader, text):
    advice = reader(text).help.removeprefix("write ")
    advice = re.split(r", such as ", advice)[-1]
    for spelling in re.split(r", if |, or leave|; | for the whole", advice)[0].split(" or "):
        assert not isinstance(reader(spelling), Misread), spelling


@pytest.mark.parametrize("text", [row[1] for row in WRONG if len(row[1]) > 100])
def test_long_texts_give_short_sentences(text):
    assert len(read_length(text).message) < 100


@pytest.mark.parametrize(
    ("metres", "feet", "metric"),
    [
        (4.4196, "14 ft 6 in", "4.42 m"),
        (4.4323, "14 ft 6 1/2 in", "4.43 m"),
        (4.2672, "14 ft", "4.27 m"),
        (0.3048, "1 ft", "305 mm"),
        (0.308, "1 ft", "308 mm"),
        (0.304, "1 ft", "304 mm"),
        (0.127, "5 in", "127 mm"),
        (0.01905, "3/4 in", "19 mm"),
        (0.1651, "6 1/2 in", "165 mm"),
        (0.9996, "3 ft 3 1/2 in", "1.00 m"),
        (0.0, "0 in", "0 mm"),
    ],
)
def test_prints_lengths_as_a_tape_measure_is_read(metres, feet, metric):
    assert show_length(metres, "feet") == feet
    assert show_length(metres, "metric") == metric


@pytest.mark.parametrize(
    ("metres", "feet", "metric"),
    [
        (0.3429, "13 1/2 in", "343 mm"),
        (0.0127, "1/2 in", "13 mm"),
        (0.0254, "1 in", "25 mm"),
        (0, "0 in", "0 mm"),
    ],
)
def test_prints_measures_of_small_things_to_the_eighth(metres, feet, metric):
    assert show_measure(metres, "feet") == feet
    assert show_measure(metres, "metric") == metric


@pytest.mark.parametrize(
    ("metres", "feet", "metric"),
    [
        (0.2604, "10 1/4 in", "260 mm"),
        (0.2602, "10 1/8 in", "260 mm"),
        (0.30479, "11 7/8 in", "304 mm"),
        (3.3147, "10 ft 10 1/2 in", "3.31 m"),
        (3.3139, "10 ft 10 in", "3.31 m"),
        (0.9999, "3 ft 3 in", "999 mm"),
        (0.3048 * 3 - 1e-12, "3 ft", "914 mm"),
    ],
)
def test_prints_what_is_left_without_rounding_up(metres, feet, metric):
    assert show_rest(metres, "feet") == feet
    assert show_rest(metres, "metric") == metric


@pytest.mark.parametrize("value", [-0.1, math.nan, math.inf])
def test_prints_no_length_or_weight_that_cannot_be(value):
    with pytest.raises(ValueError, match="is not a length"):
        show_length(value, "feet")
    with pytest.raises(ValueError, match="is not a length"):
        show_measure(value, "feet")
    with pytest.raises(ValueError, match="is not a weight"):
        show_mass(value, "metric")


def test_prints_weights(registry):
    kilograms = registry.Quantity(1400, "pound").to("kilogram").magnitude
    assert show_mass(kilograms, "feet") == "1400 lb"
    assert show_mass(kilograms, "metric") == "635 kg"


def test_reading_does_not_wait_for_pint():
    code = (
        "import sys; from builder.quantities import read_length, show_length;"
        "read_length('14 ft 6 in'); assert 'pint' not in sys.modules;"
        "show_length(1.0, 'feet'); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@pytest.mark.parametrize("room", ["", ".misread", ".readers", ".showing", ".sizes", ".units"])
def test_examples_in_docstrings_hold(room):
    found = doctest.testmod(importlib.import_module(quantities.__name__ + room))
    assert found.attempted > 0
    assert found.failed == 0


def test_the_table_is_as_wide_as_promised():
    right, wrong = len(MEASURED) + len(DRAWS) + len(SIZES), len(WRONG)
    assert right >= 60
    assert wrong >= 60
