"""The style of the drawings: what a stand-alone file carries, and what the site's style sheet must say too."""

from __future__ import annotations

FONT = '"Helvetica Neue",Arial,"Liberation Sans",sans-serif'

LIGHT = "--pg:#ffffff;--in:#1f242b;--ed:#343b45;--mu:#59626d"
DARK = "--pg:#14171b;--in:#eceff3;--ed:#cdd4dc;--mu:#a7b0bb"
PAPER = "--pg:#ffffff;--in:#000000;--ed:#000000;--mu:#333333"

RULES = (
    f".wd text{{font-family:{FONT};fill:#1f242b;fill:var(--in)}}",
    ".wd .wd-n{font-size:12px;font-weight:700}",
    ".wd .wd-m{font-size:11px;fill:#59626d;fill:var(--mu)}",
    ".wd .wd-x{text-decoration:underline}",
    ".wd .wd-w{font-size:10.5px}",
    ".wd .wd-nr{font-size:11px;font-weight:700}",
    ".wd .wd-l{font-size:14px;font-weight:700}",
    ".wd .wd-q{font-size:10px}",
    ".wd .wd-s,.wd .wd-h,.wd .wd-d{fill:none;stroke:#1f242b;stroke:var(--in);stroke-width:1.9;"
    "stroke-linecap:round;stroke-linejoin:round}",
    ".wd .wd-h{stroke-width:1.5}",
    ".wd .wd-d{stroke-width:1.6;stroke-dasharray:4 3.5}",
    ".wd .wd-f,.wd .wd-o{fill:#fff;fill:var(--pg);stroke:#1f242b;stroke:var(--in);stroke-width:1.9}",
    ".wd .wd-o{stroke-dasharray:3.2 2.8}",
    ".wd .wd-k{fill:#1f242b;fill:var(--in)}",
    ".wd .wd-b{fill:none;stroke:#1f242b;stroke:var(--in);stroke-width:5;stroke-linecap:round}",
    ".wd .wd-j{fill:#1f242b;fill:var(--in);stroke:#fff;stroke:var(--pg);stroke-width:1.4}",
    ".wd .wd-e,.wd .wd-c,.wd .wd-t,.wd .wd-g{fill:none;stroke-linejoin:round}",
    ".wd .wd-e{stroke:#343b45;stroke:var(--ed);stroke-width:7.2}",
    ".wd .wd-c{stroke-width:4.6}",
    ".wd .wd-t{stroke-width:2.2;stroke-dasharray:6 4}",
    ".wd .wd-g{stroke:#fff;stroke:var(--pg);stroke-width:12}",
    ".wd .wd-p{fill:#fff;fill:var(--pg);stroke:#343b45;stroke:var(--ed);stroke-width:1.2}",
    ".wd .wd-h0{fill:#fff;fill-opacity:0}",
    ".wd a{cursor:pointer;text-decoration:none}",
    ".wd a:hover .wd-h0,.wd a:focus .wd-h0{stroke:#59626d;stroke:var(--mu);stroke-width:1;stroke-dasharray:2 2}",
    ".wd .wd-waiting .wd-s,.wd .wd-waiting .wd-f{stroke-dasharray:3.5 3}",
)
"""Every rule begins with the drawings' own class, since the style of an inline drawing reaches the whole page."""


def own_style() -> str:
    """Return the style of a stand-alone file, light, dark and on paper, on one line."""
    return (
        f".wd{{{LIGHT};background:#fff;background:var(--pg)}}"
        f"@media screen and (prefers-color-scheme:dark){{.wd{{{DARK}}}}}"
        + "".join(RULES)
        + f"@media print{{.wd{{{PAPER}}}}}"
    )
