"""A small web server on this machine's own loopback, which no other machine can reach."""

from __future__ import annotations

import errno
import os
import socketserver
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from builder.publish.errors import PublishError
from builder.publish.showing import Answer, Request

LOOPBACK = "127.0.0.1"
FIRST_PORT = 8012
_PORTS_TRIED = 20
_LARGEST_BODY = 65_536
_ASK_S = 0.1
_METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT")
_BUSY = {errno.EADDRINUSE, getattr(errno, "WSAEADDRINUSE", errno.EADDRINUSE)}


@contextmanager
def served(port: int | None, answer: Callable[[Request], Answer]) -> Iterator[str]:
    """Serve answers on loopback, each request in a thread of its own, until the block ends.

    Arguments: ``port``, 1 to 65535, 0 for any free one, or None for the usual one or the next free after it;
    ``answer``, called from several threads.
    Returns, as a context manager, the address of the first page. Raises ``PublishError`` when no port can be
    had. Source: own work.
    """
    server = _Server(port, answer)
    thread = threading.Thread(target=server.serve_forever, args=(_ASK_S,), daemon=True)
    thread.start()
    try:
        yield f"http://{LOOPBACK}:{server.server_address[1]}/"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    # on the other system this would let two servers have one port
    allow_reuse_address = os.name != "nt"

    def __init__(self, port: int | None, answer: Callable[[Request], Answer]) -> None:
        self.answer = answer
        ports = range(FIRST_PORT, FIRST_PORT + _PORTS_TRIED) if port is None else (port,)
        for one in ports:
            try:
                super().__init__((LOOPBACK, one), _Handler)
            except OSError as error:
                if port is not None and error.errno not in _BUSY:
                    raise PublishError(_refused(one, error)) from error
            else:
                return
        raise PublishError(_taken(port))

    def server_bind(self) -> None:
        """Take the port, without asking a name server how this machine is called."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = LOOPBACK, self.server_address[1]

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Say nothing of a browser that left before its answer was whole."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    timeout = 30
    error_content_type = "text/plain; charset=utf-8"
    error_message_format = "%(code)d %(message)s\n"
    server: _Server

    def _answer(self) -> None:
        self._read_body()
        made = self.server.answer(
            Request(self.command, self.path, tuple(self.headers.get_all("Host", failobj=[])))
        )
        self.send_response(made.status)
        for name, value in made.headers.items():
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(made.body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(made.body)

    def _read_body(self) -> None:
        """Take a small body off the line: a browser may lose the answer when its own words go unread."""
        told = self.headers.get("Content-Length", "")
        if told.isascii() and told.isdigit():
            self.rfile.read(min(int(told), _LARGEST_BODY))

    def version_string(self) -> str:
        """Return what serves, without the version of anything."""
        return "wiring-manual"

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002 - the name is the library's
        """Keep requests off the terminal."""


for _method in _METHODS:
    setattr(_Handler, f"do_{_method}", _Handler._answer)


def _taken(port: int | None) -> str:
    if port is None:
        last = FIRST_PORT + _PORTS_TRIED - 1
        return f"The ports {FIRST_PORT} to {last} are all taken. Name a free one with --port."
    return f"Port {port} is taken by another program. Name another with --port, or leave --port out."


def _refused(port: int, error: OSError) -> str:
    return f"Port {port} may not be used ({error.strerror or error}). Name one above 1023 with --port."
