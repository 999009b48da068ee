"""What serve.py does: set up, build, serve."""

from __future__ import annotations

import argparse
import signal
from collections.abc import Sequence

from house.build import build, checked_public_url
from house.paths import SITE
from house.say import TroubleError, say
from house.server import Server, open_server
from house.setup import set_up

DEFAULT_PORT = 8000
PORTS_TRIED = 20


def _port(text: str) -> int:
    """A port number as typed, or argparse's own message with what is allowed."""
    if text.isascii() and text.isdigit() and int(text) <= 65535:
        return int(text)
    raise argparse.ArgumentTypeError(f"{text!r} is not a port: give a whole number from 0 (any free one) to 65535")


def _arguments(words: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="serve.py", description="Set up what is missing, build the site and serve it on this machine."
    )
    parser.add_argument("--build-only", action="store_true", help="write the folder site/ and stop")
    parser.add_argument("--port", type=_port, default=DEFAULT_PORT, help=f"default {DEFAULT_PORT}; 0: any free one")
    parser.add_argument(
        "--public-url",
        default="",
        metavar="ADDRESS",
        help="where the site will be published, for links and QR codes, like https://example.org/rotor/",
    )
    return parser.parse_args(words)


def _open(port: int) -> Server:
    try:
        server = open_server(SITE, port, PORTS_TRIED if port else 1)
    except (OSError, OverflowError) as error:
        raise TroubleError(
            f"No free port from {port} to {min(port + PORTS_TRIED - 1, 65535)}. Give another with --port."
        ) from error
    if port and server.server_port != port:
        say(f"Port {port} is busy; using {server.server_port}.")
    return server


def main(words: Sequence[str] | None = None) -> int:
    arguments = _arguments(words)
    public_url = checked_public_url(arguments.public_url)
    node_folder = set_up()
    build(node_folder, public_url)
    if arguments.build_only:
        say(f"The site is in {SITE}")
        return 0
    server = _open(arguments.port)
    say(f"Serving at http://127.0.0.1:{server.server_port}/ (Ctrl+C stops)")
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        say("\nStopped.")
    finally:
        server.server_close()
    return 0
