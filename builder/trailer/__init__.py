"""The resolved model of one trailer.

Takes nothing; gives the frozen dataclasses that every other room reads: parts, terminals, wires,
circuits, loads, supplies and boxes, each with its origin in the build file.
"""
