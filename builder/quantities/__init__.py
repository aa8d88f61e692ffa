"""Quantities: what a maker writes, such as ``14 ft 6 in``, as a number in the base unit, or what is wrong.

Takes one text from the build file. Gives a plain number (metres, amperes, watts, volts, amp-hours, kilograms,
degrees Celsius, per cent, hours), a wire size, or a :class:`Misread` that marks the very words and says what
to write instead. Nothing here raises for any text. Printing goes the other way, from a number to the spelling
a reader expects.

>>> round(read_length("14 ft 6 in"), 4)
4.4196
>>> read_size("000 AWG")
SizeText(kind='AWG', value='3/0')
>>> read_length("2,5 m").help
'write 2.5 m'
"""

from builder.quantities.misread import Misread
from builder.quantities.readers import (
    Draw,
    read_angle,
    read_capacity,
    read_count,
    read_current,
    read_hours,
    read_length,
    read_mass,
    read_percent,
    read_power,
    read_power_or_current,
    read_temperature,
    read_voltage,
    read_yes_no,
)
from builder.quantities.showing import show_length, show_mass, show_rest, show_size
from builder.quantities.sizes import AWG_SIZES, METRIC_SIZES, SizeText, read_size

__all__ = [
    "AWG_SIZES",
    "METRIC_SIZES",
    "Draw",
    "Misread",
    "SizeText",
    "read_angle",
    "read_capacity",
    "read_count",
    "read_current",
    "read_hours",
    "read_length",
    "read_mass",
    "read_percent",
    "read_power",
    "read_power_or_current",
    "read_size",
    "read_temperature",
    "read_voltage",
    "read_yes_no",
    "show_length",
    "show_mass",
    "show_rest",
    "show_size",
]
