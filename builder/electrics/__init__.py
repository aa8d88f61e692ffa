"""The figures: takes the trailer and its routes, gives currents, drops, conductors and protection.

Nothing here says whether a figure is good enough; that is for the rules. The formulas are pure functions
of plain numbers with the unit in the name.
"""
