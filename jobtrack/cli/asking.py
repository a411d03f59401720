"""Questions on the terminal, a plain line each, answered on standard input; it may be a pipe."""

from __future__ import annotations

import sys

from jobtrack.cli.saying import LONGEST, BadInput
from jobtrack.literal import visible

ENDED = "the answers ended before the last question; nothing is written"
STOPPED = "stopped before the last question; nothing is written"


def ask(question: str) -> str:
    """The answer to a question, without what can't be printed. Raises BadInput where none comes any more."""
    print(visible(question), end=" ", flush=True)
    typed = _line()
    if len(typed.encode("utf-8", "replace")) > LONGEST:
        raise BadInput(f"an answer is longer than {LONGEST} bytes; nothing is written, begin anew")
    return "".join(sign for sign in " ".join(typed.split()) if sign.isprintable())


def _line() -> str:
    """One line of standard input; from a pipe it is shown as if it had been typed."""
    why, typed = ENDED, ""
    try:
        typed = sys.stdin.readline() if sys.stdin is not None else ""
    except KeyboardInterrupt:
        why = STOPPED
    except UnicodeDecodeError:
        why = "an answer isn't UTF-8 text; nothing is written, begin anew"
    if not typed:
        print()
        raise BadInput(why)
    if not sys.stdin.isatty():
        print(visible(typed.rstrip("\n")))
    return typed
