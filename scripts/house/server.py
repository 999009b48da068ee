"""A small web server for the built folder: right types, compressed, nothing but files of that folder."""

from __future__ import annotations

import gzip
import socket
import threading
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

# Named here because a system's own table may say otherwise, and WebAssembly is refused under a wrong type.
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
    ".xml": "application/xml",
    ".zip": "application/zip",
}
COMPRESSED = {".css", ".html", ".js", ".json", ".map", ".svg", ".txt", ".wasm", ".xml", ".zip"}
SMALLEST_TO_COMPRESS = 1_000


class _Compressed:
    """Compressed files, kept in memory until the file changes."""

    def __init__(self) -> None:
        self._kept: dict[Path, tuple[int, bytes]] = {}
        self._lock = threading.Lock()

    def of(self, path: Path, changed: int, content: bytes) -> bytes:
        with self._lock:
            kept = self._kept.get(path)
            if kept is None or kept[0] != changed:
                kept = (changed, gzip.compress(content, 6, mtime=0))
                self._kept[path] = kept
            return kept[1]


class Handler(SimpleHTTPRequestHandler):
    """GET and HEAD of files; a folder gives its index.html, a missing file the site's own 404 page."""

    protocol_version = "HTTP/1.1"
    server_version = "HandToDisc"

    def __init__(self, *args: object, folder: Path, compressed: _Compressed) -> None:
        self._folder = folder
        self._compressed = compressed
        super().__init__(*args, directory=str(folder))  # type: ignore[arg-type]

    def do_GET(self) -> None:
        self._answer(with_body=True)

    def do_HEAD(self) -> None:
        self._answer(with_body=False)

    def _answer(self, with_body: bool) -> None:
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            if not self.path.split("?")[0].split("#")[0].endswith("/"):
                self._empty(HTTPStatus.MOVED_PERMANENTLY, ("Location", self.path.split("?")[0] + "/"))
                return
            path = path / "index.html"
        status = HTTPStatus.OK
        if not path.is_file() or not path.resolve().is_relative_to(self._folder.resolve()):
            status, path = HTTPStatus.NOT_FOUND, self._folder / "404.html"
            if not path.is_file():
                self._empty(status)
                return
        self._send_file(path, status, with_body)

    def _send_file(self, path: Path, status: HTTPStatus, with_body: bool) -> None:
        changed = path.stat().st_mtime_ns
        content = path.read_bytes()
        tag = f'"{changed:x}-{len(content):x}"'
        if status == HTTPStatus.OK and self.headers.get("If-None-Match") == tag:
            self._empty(HTTPStatus.NOT_MODIFIED, ("ETag", tag))
            return
        compress = (
            path.suffix in COMPRESSED
            and len(content) >= SMALLEST_TO_COMPRESS
            and "gzip" in self.headers.get("Accept-Encoding", "")
        )
        if compress:
            content = self._compressed.of(path, changed, content)
        self.send_response(status)
        self.send_header("Content-Type", TYPES.get(path.suffix, "application/octet-stream"))
        self.send_header("Content-Length", str(len(content)))
        if compress:
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Vary", "Accept-Encoding")
        self.send_header("Cache-Control", "no-cache")  # a rebuilt site shows at the next load
        self.send_header("ETag", tag)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        if with_body:
            self.wfile.write(content)

    def _empty(self, status: HTTPStatus, *headers: tuple[str, str]) -> None:
        self.send_response(status)
        for name, value in headers:
            self.send_header(name, value)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the library's own name
        """Say nothing for each file: the address is all a reader needs."""


class Server(ThreadingHTTPServer):
    """One thread for each connection; a browser that goes away in the middle is no error."""

    daemon_threads = True
    allow_reuse_address = True

    def handle_error(self, request: object, client_address: object) -> None:
        import sys

        if not isinstance(sys.exc_info()[1], (ConnectionError, TimeoutError)):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def _is_taken(port: int) -> bool:
    """Whether something answers there already (a bind alone may succeed beside it on some systems)."""
    with socket.socket() as probe:
        probe.settimeout(0.3)
        return probe.connect_ex(("127.0.0.1", port)) == 0


def open_server(folder: Path, port: int, tries: int = 1) -> Server:
    """A server of this folder on 127.0.0.1, on the first free port from this one; 0 means any.

    Raises OSError when none of them is free.
    """
    handler = partial(Handler, folder=folder, compressed=_Compressed())
    for offset in range(tries):
        if port and _is_taken(port + offset):
            continue
        try:
            return Server(("127.0.0.1", port + offset if port else 0), handler)
        except OSError:
            if offset == tries - 1:
                raise
    raise OSError(f"ports {port} to {port + tries - 1} are taken")
