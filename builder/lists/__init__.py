"""Lists for the workshop: what to buy, what to write on the wires, what to measure.

Takes a trailer and its figures; gives frozen dataclasses, which the record and the pages print.
"""
