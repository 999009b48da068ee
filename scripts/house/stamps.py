"""Doing slow work only when what it starts from has changed."""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

from house.paths import BUILD
from house.say import say

SKIPPED = {"node_modules", "__pycache__", ".git"}


def files_under(places: Iterable[Path]) -> list[Path]:
    """Every file of these files and folders, in a fixed order, without caches."""
    found: set[Path] = set()
    for place in places:
        if place.is_file():
            found.add(place)
        elif place.is_dir():
            for folder, folders, names in os.walk(place):  # Path.walk came with Python 3.12
                folders[:] = [name for name in folders if name not in SKIPPED]
                found.update(Path(folder, name) for name in names if not name.endswith(".pyc"))
    return sorted(found)


def fingerprint(places: Iterable[Path], *words: str) -> str:
    """One short text that changes when a file's name or content, or one of the words, changes."""
    digest = hashlib.sha256()
    for path in files_under(places):
        digest.update(str(path).encode())
        digest.update(hashlib.sha256(path.read_bytes()).digest())
    for word in words:
        digest.update(b"\0" + word.encode())
    return digest.hexdigest()


class Stamp:
    """A note of the state that was last worked up, kept in the build folder."""

    def __init__(self, name: str) -> None:
        self.path = BUILD / "stamps" / name

    def says(self, state: str) -> bool:
        return self.path.is_file() and self.path.read_text(encoding="utf-8") == state

    def clear(self) -> None:
        self.path.unlink(missing_ok=True)

    def write(self, state: str) -> None:
        self.path.parent.mkdir(parents=True, exist_ok=True)
        self.path.write_text(state, encoding="utf-8")


@contextlib.contextmanager
def one_at_a_time() -> Iterator[None]:
    """Keep two scripts in one checkout from setting up or building at once (where the system has file locks)."""
    BUILD.mkdir(exist_ok=True)
    try:
        import fcntl
    except ImportError:  # Windows: two at once is the reader's own doing there
        yield
        return
    with (BUILD / "lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say("Waiting for another script that is at work in this folder …")
            fcntl.flock(lock, fcntl.LOCK_EX)
        yield
