"""If something stops working: guides by symptom, made from the build's own circuits.

Takes a trailer and its figures; gives symptoms, steps and leaves as frozen dataclasses. It knows no sentences:
a step is a kind with its parts, terminals and limits, and the theme has the words.
"""
