"""From the manual source to something a reader opens.

Takes a ``ManualSource`` (Markdown, SVG, CSV, JSON, style sheets by relative path) and gives

* a folder that opens in a browser (``site.publish_site``),
* a folder that a plain ``mkdocs build`` publishes (``source_folder.write_source``),
* the same pages inside somebody's MkDocs project (``plugin.WiringManualPlugin``).

All three go through one configuration (``settings``) and one preparation of the files (``pages_ready``), so
that the pages come out byte for byte the same. This file imports nothing: the small Markdown extension
(``pictures``) must load under a publisher that has no MkDocs.
"""
