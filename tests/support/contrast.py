"""How far apart two colours are: relative luminance and contrast ratio as W3C's WCAG 2.2 defines them."""

from __future__ import annotations

RGB = tuple[int, int, int]
AA, AAA, NO_TEXT = 4.5, 7.0, 3.0
"""What text wants at least (1.4.3), in high contrast (1.4.6), and what is no text but has to be seen (1.4.11)."""

NAMES = ("black", "red", "green", "brown", "blue", "magenta", "cyan", "white")
XTERM = ((0, 0, 0), (205, 0, 0), (0, 205, 0), (205, 205, 0), (0, 0, 238), (205, 0, 205), (0, 205, 205), (229, 229, 229),
         (127, 127, 127), (255, 0, 0), (0, 255, 0), (255, 255, 0), (92, 92, 255), (255, 0, 255), (0, 255, 255),
         (255, 255, 255))  # fmt: skip
CONSOLE = ((0, 0, 0), (170, 0, 0), (0, 170, 0), (170, 85, 0), (0, 0, 170), (170, 0, 170), (0, 170, 170),
           (170, 170, 170), (85, 85, 85), (255, 85, 85), (85, 255, 85), (255, 255, 85), (85, 85, 255), (255, 85, 255),
           (85, 255, 255), (255, 255, 255))  # fmt: skip
"""The sixteen colours as xterm and the Linux console have them by default; both from memory."""


def luminance(colour: RGB) -> float:
    """Relative luminance, 0 for black to 1 for white."""
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (each / 255 for each in colour)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: RGB, other: RGB) -> float:
    """The ratio, from 1 for the same to 21 for black on white."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)
