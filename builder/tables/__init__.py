"""The published tables: takes the data files in ``data/``, gives look-ups.

Each data file is CSV under a head of ``# key: value`` lines: title, source, edition, table, unit and how it
is known. How a figure is known is one of four words: ``read`` (in the text of the document itself),
``quoted`` (on a page that reproduces it), ``memory`` (not confirmed) or ``practice`` (custom of the trade).
A look-up that finds nothing raises `NoRow`; the rest of the room is one module a subject.
"""

from builder.tables.table import Fact, Known, NoRow

__all__ = ["Fact", "Known", "NoRow"]
