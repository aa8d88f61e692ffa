"""A small manual written by hand: an invented trailer, four pages, a menu with a group, two pictures."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from builder.pages.source import ManualSource, NavEntry

SHIM = "assets/iframe-worker.js"
ROOT = Path(__file__).parents[2]

STYLE = """
body { --md-text-font-family: "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
[data-md-color-scheme] { --md-primary-fg-color: #ffffff; --md-primary-bg-color: #1f242b; --page: #ffffff; }
[data-md-color-scheme="slate"] { --md-primary-fg-color: #14171b; --page: #14171b; }
body { background: var(--page); }
.table-holder { overflow-x: auto; }
.table { border-collapse: collapse; }
.table th, .table td { padding: 0.2rem 0.6rem; white-space: nowrap; }
@media print {
  .table-holder { overflow: visible; }
  .table th, .table td { white-space: normal; padding: 0.1rem 0.2rem; }
}
"""

FUSE_PICTURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 18 18" width="18" height="18" role="img">'
    "<title>zebrafinch &amp; fuse of 3&#160;A</title><style>.f{fill:#7a4b9c}</style>"
    '<g id="fuse-3"><rect class="f" x="3" y="2" width="12" height="9"/>'
    '<path d="M5 11v5M13 11v5" stroke="#343b45" fill="none"/><text x="4" y="9">*3* _A_</text></g></svg>\n'
)
WIRE_PICTURE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 14" width="32" height="14">'
    "<title>red wire</title>"
    '<rect x="1" y="1" width="30" height="12" rx="6" fill="#d11"/></svg>'
)

WIDE_HEADS = ("Wire", "From", "To", "Size", "Colour", "Length", "Terminal", "Landed")


def table(label: str, heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    head = "\n".join(f'<th scope="col">{text}</th>' for text in heads)
    body = "\n".join("<tr>" + "\n".join(f"<td>{cell}</td>" for cell in row) + "</tr>" for row in rows)
    return (
        f'<div class="table-holder" tabindex="0" role="region" aria-label="{label}"><table class="table">'
        f"<caption>{label}</caption><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>\n"
    )


def wide_table() -> str:
    rows = [
        (
            f"{n}A",
            "front box fuse block",
            "step lamp left",
            "16 AWG",
            "red and white",
            "14 ft 6 in",
            "ring 8",
            "done",
        )
        for n in range(1, 9)
    ]
    return table("What lands where", WIDE_HEADS, rows)


FUSES_PAGE = (
    "# Fuses and the front box\n\nWay 1 is at the left.\n\n"
    + table(
        "Fuses",
        ("Way", "Fuse", "Feeds"),
        [
            (
                "1",
                '<img data-picture="pictures/fuse-3.svg" alt=""> <b>3 A</b>',
                '<a href="circuits/fan.html">fan</a>',
            )
        ],
    )
    + "\n## Spare fuses\n\nTwo lie behind the lid.\n"
)
FAN_PAGE = (
    "---\nhide: [toc]\n---\n\n# Fan\n\nThe roof vent quagmire fan.\n\n"
    '<figure><a href="../pictures/fuse-3.svg"><img data-picture="pictures/fuse-3.svg" alt=""></a>'
    '<img data-picture="pictures/wire-red.svg" alt=""></figure>\n\n'
    "Its fuse is on the [fuses page](../fuses.md#spare-fuses).\n"
)


def sample_files() -> dict[str, str | bytes]:
    return {
        "index.md": "# Start here\n\nHow to switch everything off: see the [fuses](fuses.md).\n",
        "circuits/fan.md": FAN_PAGE,
        "fuses.md": FUSES_PAGE,
        "lands.md": "# What lands where\n\nEvery conductor.\n\n" + wide_table(),
        "pictures/fuse-3.svg": FUSE_PICTURE,
        "pictures/wire-red.svg": WIRE_PICTURE,
        "assets/sample.css": STYLE,
        SHIM: (ROOT / "themes/manual" / SHIM).read_text(encoding="utf-8"),
        "data/cut-list.csv": "wire,length\r\n4A,4.4 m\r\n",
        "data/photo.bin": bytes(range(256)),
    }


SAMPLE_NAV = (
    NavEntry("Start here", "index.md"),
    NavEntry("Circuits", children=(NavEntry("Fan", "circuits/fan.md"),)),
    NavEntry("Fuses & the front box", "fuses.md"),
    NavEntry("What lands where", "lands.md"),
)


def sample_manual(
    title: str = "Mill Lane, trailer no. 3",
    files: dict[str, str | bytes] | None = None,
    nav: tuple[NavEntry, ...] = SAMPLE_NAV,
) -> ManualSource:
    return ManualSource(
        title=title,
        language="en",
        edition="workshop",
        content_number="c0ffee12",
        files=files or sample_files(),
        nav=nav,
        style_sheets=("assets/sample.css",),
        scripts=(SHIM,),
    )


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def site_files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
