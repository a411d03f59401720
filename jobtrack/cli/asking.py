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
    try:
        typed = sys.stdin.readline() if sys.stdin is not None else ""
    except KeyboardInterrupt:
        raise BadInput(STOPPED) from None
    except UnicodeDecodeError:
        raise BadInput("an answer isn't UTF-8 text; nothing is written, begin anew") from None
    if not typed:
        raise BadInput(ENDED)
    if not sys.stdin.isatty():
        print(visible(typed.rstrip("\n")))
    if len(typed.encode("utf-8", "replace")) > LONGEST:
        raise BadInput(f"an answer is longer than {LONGEST} bytes; nothing is written, begin anew")
    return "".join(sign for sign in " ".join(typed.split()) if sign.isprintable())
