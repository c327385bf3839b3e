"""The one typeface, its widths, and what to do about a letter it lacks.

Fira Sans (SIL Open Font Licence) comes from its own package as static TrueType: Latin, Greek,
Cyrillic, fractions and arrows. Widths are per unit of type height. A home of reportlab, which
reads the font file and embeds it.
"""

import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

REPLACEMENT = "\u25ca"
"""What stands in for a letter that the font lacks: a lozenge, which nothing else here uses."""

_FILES = {False: "FiraSans-Regular.ttf", True: "FiraSans-SemiBold.ttf"}
NAMES = {False: "FiraSans", True: "FiraSans-SemiBold"}

# The font has no thin spaces; its plain ones stand in for them. No letter is lost.
_SPACES = {"\u2009": "\u00a0", "\u202f": "\u00a0", "\u2032": "'", "\u2033": '"'}


@cache
def font(*, bold: bool) -> Any:
    """Return the font, read once. Its package may be laid out as a folder only."""
    import fontpkg_fira_sans
    from reportlab.pdfbase.ttfonts import TTFont

    folder = Path(fontpkg_fira_sans.__file__).parent / "files"
    return TTFont(NAMES[bold], str(folder / _FILES[bold]))


@cache
def _advances(*, bold: bool) -> dict[int, float]:
    face = font(bold=bold).face
    return {code: width / 1000 for code, width in face.charWidths.items()}


@cache
def printable(text: str) -> str:
    """Return the text with every letter that the font lacks replaced by a lozenge.

    Joined by NFC first, so that a letter and its accent are looked up as one.
    """
    joined = unicodedata.normalize("NFC", "".join(_SPACES.get(c, c) for c in text))
    return "".join(c if _has(c) else REPLACEMENT for c in joined)


def lacking(text: str) -> tuple[str, ...]:
    """Return the letters of a text that the font cannot print, each once, in their order."""
    joined = unicodedata.normalize("NFC", "".join(_SPACES.get(c, c) for c in text))
    return tuple(dict.fromkeys(c for c in joined if not _has(c)))


def _has(letter: str) -> bool:
    """Tell whether the font prints a letter; one function for printing and for reporting."""
    return letter == "\u00a0" or (letter.isprintable() and ord(letter) in _advances(bold=False))


@cache
def width(text: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a text is set, in the unit of ``size``."""
    advances = _advances(bold=bold)
    return size * sum(advances.get(ord(c), 0.5) for c in printable(text))


def wrapped(text: str, size: float, most: float, *, bold: bool = False) -> tuple[str, ...]:
    """Return the text broken into lines at most ``most`` wide, inside a word if it is longer."""
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and width(longer, size, bold=bold) > most:
            lines.append(line)
            longer = word
        while len(longer) > 1 and width(longer, size, bold=bold) > most:
            kept = _longest(longer, size, most, bold=bold)
            lines.append(kept)
            longer = longer[len(kept) :]
        line = longer
    return (*lines, line) if line or not lines else tuple(lines)


def _longest(text: str, size: float, most: float, *, bold: bool) -> str:
    """Return as many of the first letters as fit, at least one."""
    count = len(text)
    while count > 1 and width(text[:count], size, bold=bold) > most:
        count -= 1
    return text[:count]


def shortened(text: str, size: float, most: float, *, bold: bool = False) -> str:
    """Return the text, cut with an ellipsis if it would be wider than ``most``."""
    if width(text, size, bold=bold) <= most:
        return text
    while text and width(text + "…", size, bold=bold) > most:
        text = text[:-1]
    return text.rstrip() + "…"
