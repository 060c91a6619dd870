"""How well one colour stands out from another (WCAG 2.2, 1.4.3 and 1.4.11)."""

from __future__ import annotations

Colour = tuple[int, ...]
"""Red, green and blue, each from 0 to 255."""


def channels(colour: str) -> Colour:
    """A colour as style sheets write it, `#777` or `#777777`."""
    digits = colour.removeprefix("#")
    digits = "".join(2 * digit for digit in digits) if len(digits) == 3 else digits
    return tuple(int(digits[at : at + 2], 16) for at in (0, 2, 4))


def luminance(colour: Colour) -> float:
    """WCAG 2.2, definition of relative luminance: 0 for black, 1 for white."""
    shares = [value / 255 for value in colour]
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return float(sum(weight * s for weight, s in zip((0.2126, 0.7152, 0.0722), linear, strict=True)))


def contrast(one: Colour, two: Colour) -> float:
    """WCAG 2.2, definition of contrast ratio: from 1 to 21; not rounded."""
    light, dark = sorted((luminance(one), luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
