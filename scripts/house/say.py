"""How the scripts speak: what is being done, and one clear sentence when it can't be."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

TAIL_LINES = 25  # enough of a failed tool's own words to see why, not a screenful


class TroubleError(Exception):
    """Something expected is missing or failed; the text is written for the person at the keyboard."""


def say(text: str) -> None:
    """Print a line at once, also when the output is a pipe."""
    print(text, flush=True)


def run_quietly(
    command: Sequence[str | Path],
    failure: str,
    cwd: Path | None = None,
    env: Mapping[str, str] | None = None,
) -> str:
    """Run a tool without showing its output; if it fails, show the end of it and say what failed."""
    words = [str(word) for word in command]
    try:
        done = subprocess.run(
            words,
            cwd=cwd,
            env=env,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            errors="replace",
        )
    except OSError as error:
        raise TroubleError(f"{failure} ({words[0]} could not be started: {error.strerror})") from error
    if done.returncode != 0:
        for line in done.stdout.rstrip().splitlines()[-TAIL_LINES:]:
            print("    " + line, file=sys.stderr)
        raise TroubleError(failure)
    return done.stdout


def guarded(main: Callable[[], int]) -> int:
    """Run a script's main; expected trouble ends in a sentence, Ctrl+C in silence."""
    try:
        return main()
    except TroubleError as trouble:
        print(f"\n{trouble}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:
        # Whoever read our output has gone (`serve.py | head`): no more words, also not from Python's own last flush.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
