"""Characters that look alike, in one form: spaces, dashes, primes, quotes, fractions."""

from __future__ import annotations

import re


def _characters(alike: dict[str, str]) -> dict[int, str]:
    return {ord(c): to for to, characters in alike.items() for c in characters}


_ALIKE = _characters(
    {
        "-": "\u2010\u2011\u2012\u2013\u2014\u2212\ufe63\uff0d",
        "'": "\u2018\u2019\u2032\u02b9\u00b4`",
        '"': "\u201c\u201d\u2033\u02ba",
        "·": "\u22c5\u2219\u2022\u2027",
        "/": "\u2044\u2215",
        "°": "º",
        "~": "\u2248\u223c",
        "..": "…",
    }
)
_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_VULGAR_SIGN = re.compile("(-?)([" + "".join(_VULGAR) + "])")
_PER_MINUTE = re.compile(r"(?<=\d)\s+1/min$|(?<=\d)\s*min(?:\^?-1|⁻¹)$")
_POWER = re.compile(r"\^([23])|(?<=[mns])([23])$")


def plain_characters(text: str) -> str:
    """Give `text` in the few characters that numbers and units are read from; single spaces."""
    text = _VULGAR_SIGN.sub(_spaced_fraction, text.translate(_ALIKE)).replace("''", '"')
    text = _PER_MINUTE.sub(" /min", text.strip())
    return " ".join(_POWER.sub(lambda m: "²" if "2" in m[0] else "³", text.strip()).split())


def _spaced_fraction(match: re.Match[str]) -> str:
    return f"{match[1] or ' '}{_VULGAR[match[2]]} "
