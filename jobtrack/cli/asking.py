"""Questions on the terminal, a plain line each, answered on standard input; it may be a pipe."""

from __future__ import annotations

import sys
from shutil import get_terminal_size
from textwrap import fill

from jobtrack.cli.saying import LONGEST, BadInput
from jobtrack.literal import visible

NARROWEST = 20
"""Characters of the narrowest row."""
ENDED = "the answers ended before the last question; nothing is written"
STOPPED = "stopped before the last question; nothing is written"


def ask(question: str) -> str:
    """The answer to a question, without what can't be printed. Raises BadInput where none comes any more."""
    print(_in_rows(question), end=" ", flush=True)
    typed = _line()
    if len(typed.encode("utf-8", "replace")) > LONGEST:
        raise BadInput(f"an answer is longer than {LONGEST} bytes; nothing is written, begin anew")
    return "".join(sign for sign in " ".join(typed.split()) if sign.isprintable())


def tell(text: str) -> None:
    """One thing between two questions."""
    print(_in_rows(text))


def _in_rows(text: str) -> str:
    """A text made visible; on a terminal broken between words, which the terminal itself wouldn't do."""
    if not sys.stdout.isatty():
        return visible(text)
    width = max(get_terminal_size().columns - 1, NARROWEST)
    return fill(visible(text), width, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)


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
