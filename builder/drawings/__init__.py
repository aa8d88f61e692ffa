"""The drawings: takes plain values, or the trailer and its figures, gives SVG text.

Pure functions; only the layout engine is a process of its own, and its failure is a value. A drawing is one line
of SVG with nothing from outside: no script, no style of its own, no id that two drawings on one page could share.
Colours that belong to a thing (insulation, fuse body) are written into the drawing; ink, edges and paper follow
the page through class names, so that one drawing serves the light page, the dark page and paper.
"""
