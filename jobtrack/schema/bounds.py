"""What is looked at before a stranger's TOML text is parsed, so that parsing ends soon and in little memory.

A text within these bounds may still be nonsense; a text beyond them is refused unread. The signs are
counted wherever they stand, in texts and comments too: a bound is far above what anybody writes.
"""

from __future__ import annotations

import re

FILE_LIMIT = 16 * 1024 * 1024
"""Bytes of the largest template, and of the largest header of a job file."""
LINE_LIMIT = 64 * 1024
"""Bytes of the longest line."""
DEPTH_LIMIT = 8
"""Parts of the longest dotted key, and how deep lists and tables may stand in one another."""
DIGIT_LIMIT = 400
"""Signs of the longest number: more digits than any float has a use for."""

MOST = {b"[": 60_000, b"]": 60_000, b"{": 80_000, b"}": 80_000, b"=": 300_000, b",": 400_000}
MOST |= {b'"': 800_000, b"'": 400_000, b"\n": 400_000}
"""How often each sign may stand in a text. In the shipped template written 142 times over, which makes 5,000
steps, it is 26 and 39 thousand, 161, 205; 319 thousand, and lines."""

_APART = re.compile(
    rb'"""(?:[^"\\]++|\\.|"{1,2}(?!"))*+"{0,5}|'
    rb"'''(?:[^']++|'{1,2}(?!'))*+'{0,5}|"
    rb'"(?:[^"\\\n]++|\\.)*+"?|'
    rb"'[^'\n]*+'?|#[^\n]*+",
    re.DOTALL,
)
"""A text with its quotes, or a comment; one without an end reaches as far as it can."""
_DIGITS = re.compile(rb"(?<![0-9A-Fa-f_])[0-9A-Fa-f_]{%d}" % (DIGIT_LIMIT + 1))
_PART = rb"(?:[A-Za-z0-9_-]++|!)[ \t]*+"
_DOTTED = re.compile(rb"(?:\A|[^\w.\t -])[ \t]*+(?:%s\.[ \t]*+){%d}%s" % (_PART, DEPTH_LIMIT, _PART))
_BRACKET = re.compile(rb"[\[\]{}]")


class UnreadableText(ValueError):
    """Bytes that are no text to be parsed: `LINE: why; mend`."""


def as_text(raw: bytes, whose: str) -> str:
    """The text of a file within the bounds, line ends as LF. Raises UnreadableText; `whose`: "no template needs"."""
    if beyond := beyond_bounds(raw):
        raise UnreadableText(f"{beyond[0]}: {beyond[1]}; {whose} that, shorten it")
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise UnreadableText(f"{line}: not UTF-8 text; save the file as UTF-8") from error


def beyond_bounds(data: bytes) -> tuple[int, str] | None:
    """The line of what goes beyond a bound and what it is; None: the text may be parsed."""
    if len(data) > FILE_LIMIT:
        return 1, f"larger than {FILE_LIMIT // 1024 // 1024} MiB"
    for sign, most in MOST.items():
        if data.count(sign) > most:
            what = "lines" if sign == b"\n" else f"times the sign {sign.decode()}"
            return 1, f"more than {most} {what}"
    lengths = [len(line) for line in data.split(b"\n")]
    if max(lengths) > LINE_LIMIT:
        number = next(number for number, length in enumerate(lengths, 1) if length > LINE_LIMIT)
        return number, f"a line longer than {LINE_LIMIT // 1024} KiB"
    return _deep_or_long(_APART.sub(_stand_in, data))


def _stand_in(found: re.Match[bytes]) -> bytes:
    """What is left of a text, so that lines are still counted right: a comment leaves nothing."""
    text = found[0]
    return b"" if text.startswith(b"#") else b"!" + b"\n" * text.count(b"\n")


def _deep_or_long(bare: bytes) -> tuple[int, str] | None:
    """A number too long, a key with too many parts or tables too deep in one another, texts taken out."""
    for pattern, what in ((_DIGITS, "a number too long"), (_DOTTED, "a key with too many parts")):
        if found := pattern.search(bare):
            return _line(bare, found.end()), what
    depth = 0
    for found in _BRACKET.finditer(bare):
        depth = max(0, depth + (found[0] in b"[{") - (found[0] in b"]}"))
        if depth > DEPTH_LIMIT:
            return _line(bare, found.start()), "lists or tables too deep in one another"
    return None


def _line(data: bytes, end: int) -> int:
    return data.count(b"\n", 0, end) + 1
