"""What mistakes of TOML's grammar look like, what they are called, and how each is mended."""

from __future__ import annotations

import re
from collections.abc import Callable

_Match = re.Match[str]


def _plain(number: str) -> str:
    """A number with signs between its thousands, as TOML has it."""
    whole, comma, share = number.partition(",")
    if comma:
        return re.sub(r"[ .']", "", whole) + "." + share
    return re.sub(r"[ ']", "", number)


def _decimal(fraction: str) -> str:
    """A fraction of at most a whole number and a share, as a decimal number."""
    *whole, share = re.split("[ -]", fraction)
    above, below = (int(one) for one in share.split("/"))
    return f"{int(whole[0] if whole else 0) + above / below:.6g}" if below else "a decimal number"


def _hyphens(name: str) -> str:
    return re.sub(r" +", "-", name.strip())


_VALUE = r"(?:^|[{,\s])[\w.\"'-]+\s*=\s*"
_STOP = r"\s*(?:[,}\]#]|$)"

STUMBLES: list[tuple[str, str, Callable[[_Match], str]]] = [
    (
        r"^\s*(?:[\w.-]+|\[[^\]]*)([\u00a0\u2000-\u200b\u202f\u3000])",
        "a space from another program that isn't one",
        lambda found: "Type a plain space in its place",
    ),
    (
        r"[“”„‟«»]",
        "curly quotes",
        lambda found: 'Use the straight quote " at both ends of a text',
    ),
    (
        r"^[^#]*[‘’‚]",
        "a curly apostrophe outside a text",
        lambda found: "Use straight quotes at both ends of a text",
    ),
    (
        r"""^[^'#]*"[^"]*\d(")[^"\],}#]*[^"\],}#\s=]""",
        "a text that ends at an inch mark inside it",
        lambda found: "Put that text in single quotes, as '3 1/2\" tube', or write in for inches",
    ),
    (
        _VALUE + r"([-+]?\d{1,3}(?:[ .']\d{3})+(?:,\d+)?|[-+]?\d{1,3}(?:[ ']\d{3})+(?:\.\d+)?)" + _STOP,
        "a number with a sign between its thousands",
        lambda found: f"Write {_plain(found[1])}",
    ),
    (
        _VALUE + r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})\b",
        "a date that TOML doesn't know",
        lambda found: f'Write "{found[3]}-{found[2]:0>2}-{found[1]:0>2}", year first and in quotes',
    ),
    (
        _VALUE + r"((?:\+-|[±~≈−–<>≤≥])\s*)([\d.]+)",
        "a number with a sign before it",
        lambda found: f"Write {'-' if found[1].strip() in '−–' else ''}{found[2]}",
    ),
    (
        _VALUE + r"([-+]?\d+),(\d+)" + _STOP,
        "a number with a comma",
        lambda found: f"Write {found[1]}.{found[2]}: a number has a point here",
    ),
    (
        _VALUE + r"([-+]?)(\.\d+)",
        "a number that begins with its point",
        lambda found: f"Write {found[1]}0{found[2]}",
    ),
    (
        _VALUE + r"([-+]?\d+)\.(?!\d)",
        "a number that ends with its point",
        lambda found: f"Write {found[1]}.0",
    ),
    (
        _VALUE + r"[-+]?0+(\d[\d.]*)",
        "a number that begins with 0",
        lambda found: f"Write {found[1]}",
    ),
    (
        _VALUE + r"(\d+(?:[ -]\d+)?/\d+)",
        "a fraction",
        lambda found: f'Write {_decimal(found[1])}, or the text "{found[1]}" where a text is wanted',
    ),
    (
        _VALUE + r"([-+]?[\d.]+)\s*([A-Za-z°%\"'][\w*·/ ]*)",
        "a number with something behind it",
        lambda found: f"Write {found[1]} alone; its unit has the key unit",
    ),
    (
        _VALUE + r"(?i:(yes|no|on|off|true|false))\b",
        "an answer that TOML doesn't know",
        lambda found: f"Write {'true' if found[1].lower() in {'yes', 'on', 'true'} else 'false'}",
    ),
    (
        r"[\w-]\s*=(=+)",
        "more than one =",
        lambda found: "Write one = between key and value",
    ),
    (
        r"=\s*(?:\"[^\"]*\"|'[^']*'|[\w.-]+)\s*(;)",
        "a semicolon behind a value",
        lambda found: "Remove it: the end of the line ends a value",
    ),
    (
        r"^\s*(?:[^#\"']|\"[^\"]*\"|'[^']*')*?(//)",
        "// before a comment",
        lambda found: "Write # in its place",
    ),
    (
        r"=\s*'[^']*\w(')\w",
        "a text in single quotes that ends at an apostrophe inside it",
        lambda found: "Put that text in double quotes",
    ),
    (
        r"=\s*\"[^\"]*(\")[^\",}\]#=]+\"",
        "a text that ends at a quote inside it",
        lambda found: "Put that text in single quotes",
    ),
    (
        r"=\s*\[\s*([A-Za-z][\w -]*)\s*[,\]]",
        "a text without quotes in a list",
        lambda found: f'Write ["{found[1].strip()}"]',
    ),
    (
        _VALUE + r"([A-Za-z][^\"',}\]#]*?)" + _STOP,
        "a text without quotes",
        lambda found: f'Write "{found[1].strip()}"',
    ),
    (
        _VALUE + r"(?:#.*)?$",
        "a key without a value",
        lambda found: "Write a value behind the =, or remove the key",
    ),
    (
        r"^\s*\[+[^\]\"'#]*?([\w-]+(?: +[\w-]+)+)\s*\]",
        "an id with a space in it",
        lambda found: f"Write {_hyphens(found[1])}",
    ),
    (
        r"^\s*(?:[\w-]+\.)*([\w-]+(?: +[\w-]+)+)\s*=",
        "an id with a space in it",
        lambda found: f"Write {_hyphens(found[1])}",
    ),
    (
        r"^\s*(?:- )?\"?[\w.-]+\"?\s*:",
        "a colon behind a key",
        lambda found: "Write = between key and value",
    ),
    (
        r"^\s*\[+[\w.\s-]*([^\w\s.\"'\[\]#-]|(?=\w)[^\x00-\x7f])[^\]]*\]",
        "an id with another sign in it than letters from a to z, digits and hyphens",
        lambda found: f"Take the sign {found[1]} out of the id",
    ),
    (
        r"^[^=#\"']*\S(\t)[^=]*$",
        "a row with tabs, as it comes from a spreadsheet",
        lambda found: "Write KEY = VALUE, or KEY = { … } with commas between",
    ),
    (
        r"^\s*(```)",
        "a mark of another kind of file",
        lambda found: "Remove the line",
    ),
]
"""What a line looks like in which that is wrong, what stands there, how to mend it."""

_RENAME = "Rename it, or remove one of the two"
_HEADER = "Write the header that is missing between the two, as [step.NAME], or remove one of them"
_QUOTE = 'Put the quote " at its end'
_SINGLE = "Put that text in single quotes"

BY_MESSAGE: list[tuple[str, str, str]] = [
    ("overwrite a value", "a key or a table stands here for the second time", _HEADER),
    ("twice", "a table stands here for the second time", _RENAME),
    ("mutate immutable", "something is added to a table closed before", "Write all its keys in one place"),
    ("unterminated string", "a text has no end", _QUOTE),
    ("illegal character", "a text has no end, or a control character in it", _QUOTE),
    ("unclosed array", "a list has no end", "Put ] at its end, and a comma between its items"),
    ("unclosed inline table", "a table has no end", "Put } at its end, and a comma between its keys"),
    ("duplicate inline table key", "a key stands twice in this table", _RENAME),
    ("hex", "a backslash inside a text", _SINGLE),
    ("backslash", "a backslash inside a text", _SINGLE),
    ("escape", "a backslash inside a text", _SINGLE),
    ("after a key", "a key has no = behind it", "Write KEY = VALUE"),
    ("end of a table", "a table's header has no end", "Put ] at its end"),
    ("array declaration", "a table's header begins with two brackets", "Write one [ before it and one ] behind it"),
    ("after a statement", "something stands behind the value", "Begin a new line, or put the text in quotes"),
    ("invalid value", "this value is none that TOML knows", 'Put a text in quotes: "…"'),
    ("invalid statement", "this line is none that TOML knows", "Write KEY = VALUE, or # before a comment"),
    ("initial character for a key", "this is no key", "Write KEY = VALUE; a key has no such sign"),
]  # fmt: skip
"""A part of the parser's message, what it means, how to mend it."""
