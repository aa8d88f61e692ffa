"""What a preview answers: from all that is shown just now and one request to one answer. No file, no socket.

The whole manual is held in memory by path, so a request can reach nothing else, whatever address it names.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from http import HTTPStatus
from urllib.parse import unquote, urlsplit

from builder.pages.previewed import START, head_pieces, own_files, own_page

OWN = "~preview/"
"""Begins the addresses of the preview's own files; no page of a manual has such a sign in its address."""

METHODS = ("GET", "HEAD")
_HOSTS = {"localhost", "127.0.0.1", "[::1]"}
_HOST = re.compile(r"(\[[0-9A-Fa-f:.]*\]|[^:\[\]]*)(?::\d+)?")
_TYPES = {
    "css": "text/css; charset=utf-8",
    "csv": "text/csv; charset=utf-8",
    "html": "text/html; charset=utf-8",
    "ico": "image/x-icon",
    "jpeg": "image/jpeg",
    "jpg": "image/jpeg",
    "js": "text/javascript; charset=utf-8",
    "json": "application/json",
    "pdf": "application/pdf",
    "png": "image/png",
    "svg": "image/svg+xml",
    "txt": "text/plain; charset=utf-8",
    "webp": "image/webp",
    "woff2": "font/woff2",
}
_ALWAYS = {
    # nothing may be kept: a page of before would ask to be reloaded again and again
    "Cache-Control": "no-store",
    # other sites that the maker has open may neither read nor frame the manual
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "SAMEORIGIN",
}
_BODY = re.compile(rb"<body\b[^>]*>")
_HEAD_END, _TITLE_END, _ARTICLE = b"</head>", b"</h1>", b"<article"
_CIRCUIT = re.compile(r"circuit-(\d+)-(.+)\.html")


@dataclass(frozen=True)
class Shown:
    """All that a preview shows at one moment.

    ``manual`` is the last good manual by path, empty before the first one; ``panels`` are the findings of
    each page as HTML; ``banner`` is HTML, empty while the file gives the manual that is shown.
    """

    manual: Mapping[str, bytes] = field(default_factory=dict)
    panels: Mapping[str, str] = field(default_factory=dict)
    banner: str = ""

    @cached_property
    def number(self) -> str:
        """Stands for all of it: the same content gives the same number, in any run."""
        made = hashlib.sha256(self.banner.encode("utf-8"))
        for path, content in sorted(self.manual.items()):
            made.update(f"\0{path}\0{len(content)}\0".encode())
            made.update(content)
        for page, panel in sorted(self.panels.items()):
            made.update(f"\0{page}\0{panel}".encode())
        return made.hexdigest()[:16]


@dataclass(frozen=True, slots=True)
class Request:
    """One request: its method, its target as it was sent, and every Host line that came with it."""

    method: str
    target: str
    hosts: Sequence[str]


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer; ``headers`` hold all but its length."""

    status: HTTPStatus
    headers: Mapping[str, str]
    body: bytes


def answer(shown: Shown, request: Request) -> Answer:
    """Answer one request.

    Arguments: ``shown``, all that is shown just now; ``request``. Returns the answer with its body, which a
    HEAD request leaves unsent. Source: RFC 9110 (from memory); refusing foreign host names is common
    practice against DNS rebinding.
    """
    if len(request.hosts) != 1 or not host_is_ours(request.hosts[0]):
        return _plain(HTTPStatus.FORBIDDEN, "This preview answers to localhost and 127.0.0.1 alone.\n")
    if request.method not in METHODS:
        refused = _plain(HTTPStatus.METHOD_NOT_ALLOWED, "A preview can only be read.\n")
        return Answer(refused.status, {**refused.headers, "Allow": ", ".join(METHODS)}, refused.body)
    path = path_of(request.target)
    if path is None:
        return _plain(HTTPStatus.BAD_REQUEST, "This address cannot be read.\n")
    if path == f"{OWN}number":
        return _plain(HTTPStatus.OK, shown.number)
    if path.startswith(OWN):
        own = own_files().get(path.removeprefix(OWN))
        return _not_there() if own is None else _made(HTTPStatus.OK, path, own)
    return _of_manual(shown, path)


def host_is_ours(host: str) -> bool:
    """Whether a Host line names this machine's own loopback, with any port or none.

    Arguments: ``host``, as sent. Returns the answer. Source: common practice.
    """
    found = _HOST.fullmatch(host.strip())
    return found is not None and found[1].lower() in _HOSTS


def path_of(target: str) -> str | None:
    """Return the path of a manual's file that a request's target means; None where it can mean none.

    Arguments: ``target``, as sent, such as ``/find.html?h=lamp``. Returns a relative path; a folder gives
    its first page. Source: own work.
    """
    if not target.startswith("/"):
        return None
    try:
        path = unquote(urlsplit(f"//x{target}").path, errors="strict")[1:]
    except ValueError:
        return None
    if ".." in path.split("/") or "\\" in path or not path.isprintable():
        return None
    return path + START if not path or path.endswith("/") else path


def _of_manual(shown: Shown, path: str) -> Answer:
    is_page = path.endswith(".html") or "." not in path.rpartition("/")[2]
    if path in shown.manual:
        body = shown.manual[path]
        return _made(HTTPStatus.OK, path, dressed(shown, path, body) if is_page else body)
    if not is_page:
        return _not_there()
    if not shown.manual:
        what = "nothing" if shown.banner else "waiting"
        return _own_page(HTTPStatus.SERVICE_UNAVAILABLE, what, shown)
    moved = moved_to(path, shown.manual)
    if moved:
        return Answer(HTTPStatus.FOUND, {**_ALWAYS, "Location": f"/{moved}"}, b"")
    return _own_page(HTTPStatus.NOT_FOUND, "missing", shown)


def dressed(shown: Shown, path: str, page: bytes) -> bytes:
    """Return a finished page with the preview's own pieces in it.

    The script goes into the head, the banner before all else on the page, the findings below its title.

    Arguments: ``shown``, all that is shown just now; ``path``, the page's; ``page``, as it would be
    published. Returns the page. Source: own work.
    """
    head, head_end, rest = page.partition(_HEAD_END)
    body = _BODY.search(rest)
    if not head_end or body is None:
        return page
    before, after = rest[: body.end()], rest[body.end() :]
    panel = shown.panels.get(path, "").encode("utf-8")
    article = max(after.find(_ARTICLE), 0)
    title = after.find(_TITLE_END, article)
    place = title + len(_TITLE_END) if title >= 0 else article
    pieces = (
        head,
        head_pieces(shown.number).encode("utf-8"),
        head_end,
        before,
        shown.banner.encode("utf-8"),
        after[:place],
        panel,
        after[place:],
    )
    return b"".join(pieces)


def moved_to(path: str, manual: Mapping[str, bytes]) -> str | None:
    """Return where a circuit's page has gone after the circuit got another number or another name.

    Arguments: ``path``, which the manual lacks; ``manual``, its files by path. Returns the one page of the
    same name, else the one of the same number, else None. Source: own work.
    """
    asked = _CIRCUIT.fullmatch(path)
    if asked is None:
        return None
    pages = [found for page in manual if (found := _CIRCUIT.fullmatch(page))]
    for group in (2, 1):
        same = [page[0] for page in pages if page[group] == asked[group]]
        if len(same) == 1:
            return same[0]
    return None


def _own_page(status: HTTPStatus, what: str, shown: Shown) -> Answer:
    page = own_page(what, shown.number, shown.banner)
    return _made(status, START, page.encode("utf-8"))


def _made(status: HTTPStatus, path: str, body: bytes) -> Answer:
    kind = _TYPES.get(path.rpartition(".")[2].lower(), "application/octet-stream")
    return Answer(status, {**_ALWAYS, "Content-Type": kind}, body)


def _plain(status: HTTPStatus, text: str) -> Answer:
    return _made(status, "x.txt", text.encode("utf-8"))


def _not_there() -> Answer:
    return _plain(HTTPStatus.NOT_FOUND, "The manual has no such file just now.\n")
