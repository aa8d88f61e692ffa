"""The manual before anything publishes it.

Takes the trailer, its figures, findings and drawings; gives the versioned JSON record and the manual source:
a mapping of relative path to Markdown, SVG, CSV and JSON. It knows nothing of who publishes it.
"""
