"""Digits and capitals large enough to be read across a workshop, made of blocks; no Textual here.

A character is a drawing five dots high. A dot is a square of the terminal: half a row by one cell, or whole rows.
Only full and half blocks are used, which every console has.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

TALL_DOTS = 5
SMALL = 0
"""The size in which a dot is half a row high and a cell wide; in size 1, 2, 3 it is so many rows, twice as wide."""
LARGEST = 4
SMALL_ROWS = 3

_DRAWN = {
    "0": "### #.# #.# #.# ###", "1": ".#. ##. .#. .#. ###", "2": "### ..# ### #.. ###", "3": "### ..# ### ..# ###",
    "4": "#.# #.# ### ..# ..#", "5": "### #.. ### ..# ###", "6": "### #.. ### #.# ###", "7": "### ..# ..# .#. .#.",
    "8": "### #.# ### #.# ###", "9": "### #.# ### ..# ###",
    ".": ". . . . #", ",": ".. .. .. .# #.", "-": "... ... ### ... ...", "+": "... .#. ### .#. ...",
    "~": "..... .#..# #.#.# #..#. .....", "<": "..# .#. #.. .#. ..#", ">": "#.. .#. ..# .#. #..",
    "/": "..# ..# .#. #.. #..", "=": "... ### ... ### ...", ":": ". # . # .", ";": ".. .# .. .# #.",
    "'": "# # . . .", '"': "#.# #.# ... ... ...", "°": "### #.# ### ... ...", "(": ".# #. #. #. .#",
    ")": "#. .# .# .# #.", "?": "##. ..# .#. ... .#.", "!": "# # # . #", "%": "#.# ..# .#. #.. #.#",
    "±": ".#. ### .#. ... ###", "×": "... #.# .#. #.# ...", "·": ". . # . .", "&": ".#.. #.#. .#.. #.#. .#.#",
    "A": ".#. #.# ### #.# #.#", "B": "##. #.# ##. #.# ##.", "C": ".## #.. #.. #.. .##", "D": "##. #.# #.# #.# ##.",
    "E": "### #.. ##. #.. ###", "F": "### #.. ##. #.. #..", "G": ".### #... #.## #..# .###",
    "H": "#.# #.# ### #.# #.#", "I": "### .#. .#. .#. ###", "J": "..# ..# ..# #.# .#.", "K": "#.# #.# ##. #.# #.#",
    "L": "#.. #.. #.. #.. ###", "M": "#...# ##.## #.#.# #...# #...#", "N": "#..# ##.# #.## #..# #..#",
    "O": ".##. #..# #..# #..# .##.", "P": "##. #.# ##. #.. #..", "Q": ".##. #..# #..# #.#. .#.#",
    "R": "##. #.# ##. #.# #.#", "S": ".## #.. .#. ..# ##.", "T": "### .#. .#. .#. .#.", "U": "#.# #.# #.# #.# ###",
    "V": "#.# #.# #.# #.# .#.", "W": "#...# #...# #.#.# ##.## #...#", "X": "#.# #.# .#. #.# #.#",
    "Y": "#.# #.# .#. .#. .#.", "Z": "### ..# .#. #.. ###", " ": ".. .. .. .. ..",
}  # fmt: skip
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
"""What a cell shows of an upper and a lower dot."""


def drawable(text: str) -> bool:
    """Whether each character has a drawing; letters are drawn as capitals, without their accents."""
    return all(one in _DRAWN for one in _plain(text))


def large(text: str, size: int) -> list[str]:
    """The text in one row of large characters, as rows of cells. Its characters have to be drawable."""
    dots = _dots(_plain(text))
    if size == SMALL:
        return [_half_row(*pair) for pair in zip(dots[::2], [*dots[1::2], "." * len(dots[0])], strict=True)]
    drawn = ["".join(("█" if dot == "#" else " ") * (2 * size) for dot in row) for row in dots]
    return [row for row in drawn for _ in range(size)]


def wide(text: str, size: int) -> int:
    """How many cells the text takes."""
    plain = _plain(text)
    dots = sum(len(_rows(one)[0]) for one in plain) + max(len(plain) - 1, 0)
    return dots * max(2 * size, 1)


def high(size: int) -> int:
    """How many rows a row of large characters takes."""
    return TALL_DOTS * size if size else SMALL_ROWS


def in_rows(text: str, size: int, width: int) -> list[str] | None:
    """The text broken between words to a width, an empty row between two; None where a word is too wide or has none."""
    words = text.split()
    if not drawable(text) or any(wide(one, size) > width for one in words):
        return None
    found: list[str] = []
    for row in _broken(words, size, width):
        found += ["", *large(row, size)] if found else large(row, size)
    return found


def _broken(words: Iterable[str], size: int, width: int) -> list[str]:
    rows: list[str] = []
    for word in words:
        joined = f"{rows[-1]} {word}" if rows else word
        if rows and wide(joined, size) <= width:
            rows[-1] = joined
        else:
            rows.append(word)
    return rows


def _plain(text: str) -> str:
    """Capitals without accents; what has no plain letter under it stays."""
    apart = (one for one in unicodedata.normalize("NFD", text.upper()) if not unicodedata.combining(one))
    return "".join({"’": "'", "–": "-", "“": '"', "”": '"', "…": "."}.get(one, one) for one in apart)


def _rows(character: str) -> list[str]:
    return _DRAWN[character].split()


def _dots(plain: str) -> list[str]:
    """The five rows of dots of a text, a column of none between two characters."""
    drawn = [_rows(one) for one in plain]
    return [".".join(one[row] for one in drawn) for row in range(TALL_DOTS)]


def _half_row(upper: str, lower: str) -> str:
    return "".join(_HALVES[(above == "#", below == "#")] for above, below in zip(upper, lower, strict=True))
