"""A person's text in Markdown: literal, whatever reads it."""

from __future__ import annotations

import re

from jobtrack.literal import visible

ESCAPED = {ord(char): f"\\{char}" for char in "\\`*_[]<>#|~&"}
BEGINS_A_BLOCK = re.compile(r"^(\d*)([-+.)=])(?=[\s=-]|$)")
"""A number with a dot, a dash, a stroke: at the beginning of a line these begin a list, a rule or a heading."""
ENDINGS = "[a-z]{2}|biz|com|edu|gov|net|org|pro|web|xxx|aero|asia|coop|info|museum|name|shop"
"""What the name of a machine ends in, for readers that make links of bare names."""
ADDRESS = re.compile(rf"(?i)(?<=\bwww)\.|:(?=//)|(?<=\w)\.(?=(?:{ENDINGS})\b)")
MAIL = re.compile(r"(?<=\S)@+(?=\S)")
"""Some readers look for mail addresses when the strokes are gone already; a piece of code between the parts
keeps them apart in all of them."""


def md(text: str) -> str:
    """A person's text in Markdown: literal, on one line, no address in it a link."""
    literal = BEGINS_A_BLOCK.sub(r"\1\\\2", visible(text).strip(" ").translate(ESCAPED))
    return MAIL.sub(r"`\g<0>`", ADDRESS.sub(r"\\\g<0>", literal))
