"""Reading a written PDF back and measuring what it really holds. The one home of pypdf.

Knows nothing of how the file was drawn: pages, windows, the test square, the long rules and
the grid are measured in the file's own operators. Millimetres.
"""

import io
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from drafting.errors import DraftingError
from drafting.units import Mm
from render.drawing import About, Kind

SQUARE: Mm = 100.0
SQUARE_TOLERANCE: Mm = 0.02
GRID_TOLERANCE: Mm = 0.02
POINT: Mm = 25.4 / 72
SCALE_TOLERANCE = 1e-4
"""A hundredth of a millimetre in the test square."""

# Possessive: a number that does not fit is not tried again digit by digit.
_NUMBER = rb"([-+]?+(?:\d++(?:\.\d*+)?+|\.\d++))"
_PAIR = _NUMBER + rb"\s++" + _NUMBER
_CLIP = re.compile(_PAIR + rb"\s+" + _PAIR + rb"\s+re\s+W")
_LINE = re.compile(_PAIR + rb"\s+m\s+" + _PAIR + rb"\s+l\s+S")
_MATRIX = re.compile(_PAIR + rb"\s+" + _PAIR + rb"\s+" + _PAIR + rb"\s+cm\b")
_FOUR = re.compile(
    _PAIR + rb"\s+m" + (rb"\s+" + _PAIR + rb"\s+l") * 3 + rb"(?:\s+" + _PAIR + rb"\s+l)?\s+h\s+S"
)


_TILE = re.compile(r"[A-Z]+[0-9]+")
"""Label of a page of the plane: its row in letters, its column in figures."""


class NotAPatternError(DraftingError):
    """A file cannot be read as a PDF at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What a PDF was found to hold, and what is wrong with it.

    Attributes:
        page: width and height of its pages; of the first if they differ.
        square: width and height of the test square on the first page, or None.
        about: what the file says of itself; where it says nothing, what a print at home would.
        rules: lengths of the rules across and up the first page, 0 where there is none.
        step: from one page to the next on the assembled plane, across and up, where pages
            join; 0 where they do not.
        fonts: names of the fonts, and whether each is embedded.
        faults: a sentence each; empty when all is well.
    """

    pages: int
    page: tuple[Mm, Mm]
    square: tuple[Mm, Mm] | None
    rules: tuple[Mm, Mm]
    step: tuple[Mm, Mm]
    true_size: bool
    fonts: tuple[tuple[str, bool], ...]
    about: About
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """What is taken out of a file, unmeasured. Sizes of pages in points, with their unit."""

    pages: tuple[tuple[float, float, float, bytes], ...]
    labels: tuple[str, ...]
    fonts: tuple[tuple[str, bool], ...]
    true_size: bool
    about: About


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    """One page's operators in numbers.

    Attributes:
        scale: how the drawing is enlarged across and up by what surrounds it; 1 is not at all.
    """

    page: tuple[Mm, Mm]
    scale: tuple[float, float]
    window: tuple[Mm, Mm, Mm, Mm] | None
    lines: tuple[tuple[Mm, Mm, Mm, Mm], ...]
    content: bytes


def proof(data: bytes) -> Proof:
    """Return what the bytes of a PDF hold, measured.

    Raises:
        NotAPatternError: they are no PDF, or an encrypted one.
    """
    read = _read(data)
    pages = tuple(_measured(*page) for page in read.pages)
    tiles = tuple(
        page for page, label in zip(pages, read.labels, strict=False) if _TILE.fullmatch(label)
    )
    sizes = {tuple(round(side, 2) for side in page.page) for page in pages}
    square = _square(pages[0].content)
    step, step_faults = _step(tiles)
    faults: list[str] = []
    if square is None and read.about.kind not in (Kind.PROJECTOR, Kind.CARD):
        faults.append("There is no test square of 100 mm on the first page.")
    faults += _scale_faults(pages)
    alike = read.about.kind is not Kind.PROJECTOR
    if alike and len(sizes) > 1:
        faults.append(f"Its pages have {len(sizes)} different sizes.")
    windows = {page.window for page in pages}
    if alike and (len(windows) > 1 or None in windows):
        faults.append("Its pages are not all drawn in the same window.")
    if not read.true_size:
        faults.append("It does not ask printers to leave its size alone.")
    faults += [f"The font {name} is not in the file." for name, held in read.fonts if not held]
    return Proof(
        pages=len(pages),
        page=pages[0].page,
        square=square,
        rules=_rules(pages[0]),
        step=step,
        true_size=read.true_size,
        fonts=read.fonts,
        about=read.about,
        faults=(*faults, *step_faults),
    )


def proof_line(found: Proof) -> str:
    """Return a proof in one line."""
    width, height = found.page
    pages = "1 page" if found.pages == 1 else f"{found.pages} pages"
    words = [f"{pages} of {width:.1f} × {height:.1f} mm"]
    if found.square is not None:
        words.append(f"test square {found.square[0]:.2f} × {found.square[1]:.2f} mm")
    if min(found.rules) > 0:
        words.append(f"rules {found.rules[0]:.2f} and {found.rules[1]:.2f} mm")
    if max(found.step) > 0:
        ways = zip(found.step, ("across", "up"), strict=True)
        apart = [f"{side:.2f} mm {way}" for side, way in ways if side]
        words.append("pages apart by " + " and ".join(apart))
    if found.true_size:
        words.append("no scaling asked for")
    if found.fonts and all(held for _, held in found.fonts):
        words.append("fonts embedded")
    return ", ".join(words)


def _read(data: bytes) -> _Read:
    import logging

    from pypdf import PdfReader
    from pypdf.errors import DependencyError

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    try:
        reader = PdfReader(io.BytesIO(data))
        if reader.is_encrypted:
            raise NotAPatternError("it is locked with a password")
        if not len(reader.pages):
            raise NotAPatternError("it has no pages")
        return _Read(
            pages=tuple(_raw(page) for page in reader.pages),
            labels=tuple(reader.page_labels),
            fonts=_fonts(reader),
            true_size=_scaling(reader) == "/None",
            about=_about(reader),
        )
    except NotAPatternError:
        raise
    except DependencyError as error:
        # pypdf needs another library only to unlock a file.
        raise NotAPatternError("it is locked with a password") from error
    except Exception as error:
        # A damaged file makes pypdf raise almost anything; nothing is measured in here.
        raise NotAPatternError("it cannot be read as a PDF") from error


def _raw(page: Any) -> tuple[float, float, float, bytes]:
    box = page.mediabox
    content = page.get_contents()
    data: bytes = content.get_data() if content is not None else b""
    return float(box.width), float(box.height), float(page.get("/UserUnit", 1)), data


def _measured(width: float, height: float, unit: float, data: bytes) -> _Measured:
    clip = _CLIP.search(data)
    return _Measured(
        page=(width * unit * POINT, height * unit * POINT),
        scale=_scale(data, unit),
        window=_mm(clip) if clip else None,
        lines=tuple(_mm(found) for found in _LINE.finditer(data)),
        content=data,
    )


def _scale(content: bytes, unit: float) -> tuple[float, float]:
    """Return the scale that a page's unit and matrices give it, across and up.

    We write none but the plain one, so all that are found were put round the drawing later.
    """
    across = up = unit
    for found in _MATRIX.finditer(content):
        a, b, c, d, _, _ = (float(number) for number in found.groups())
        across, up = across * math.hypot(a, b), up * math.hypot(c, d)
        if max(abs(b), abs(c)) > SCALE_TOLERANCE:
            across = up = 0.0
    return across, up


def _scale_faults(pages: tuple[_Measured, ...]) -> list[str]:
    scales = [page.scale for page in pages]
    across, up = max(scales, key=lambda scale: max(abs(scale[0] - 1), abs(scale[1] - 1)))
    if max(abs(across - 1), abs(up - 1)) <= SCALE_TOLERANCE:
        return []
    if not across or not up:
        return ["Its drawing was turned after it was written; sizes cannot be told."]
    return [f"Its drawing was scaled after it was written: to {across:.2%} across and {up:.2%} up."]


def _mm(found: re.Match[bytes]) -> tuple[Mm, Mm, Mm, Mm]:
    a, b, c, d = (round(float(number) * POINT, 4) for number in found.groups())
    return a, b, c, d


def _square(content: bytes) -> tuple[Mm, Mm] | None:
    """Return the sides of the closed outline of four lines that comes nearest 100 by 100 mm."""
    best: tuple[Mm, Mm] | None = None
    for found in _FOUR.finditer(content):
        numbers = [float(n) * POINT for n in found.groups() if n is not None]
        xs, ys = numbers[::2], numbers[1::2]
        if not _upright(list(zip(xs, ys, strict=True))[:4]):
            continue
        sides = (max(xs) - min(xs), max(ys) - min(ys))
        if best is None or _off(sides) < _off(best):
            best = sides
    return best if best is not None and _off(best) <= SQUARE_TOLERANCE else None


def _off(sides: tuple[Mm, Mm]) -> Mm:
    return max(abs(side - SQUARE) for side in sides)


def _upright(corners: list[tuple[Mm, Mm]]) -> bool:
    """Tell whether four corners follow each other along upright and level lines only."""
    return all(
        min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-3
        for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
    )


def _rules(page: _Measured) -> tuple[Mm, Mm]:
    """Return the longest level and the longest upright line of whole centimetres."""
    across = [abs(c - a) for a, b, c, d in page.lines if abs(d - b) < 1e-3]
    up = [abs(d - b) for a, b, c, d in page.lines if abs(c - a) < 1e-3]
    return _longest_whole(across), _longest_whole(up)


def _longest_whole(lengths: list[Mm]) -> Mm:
    whole = [long for long in lengths if abs(long / 10 - round(long / 10)) < 2e-3 and long >= 100]
    return max(whole, default=0.0)


def _step(pages: tuple[_Measured, ...]) -> tuple[tuple[Mm, Mm], list[str]]:
    """Return how far apart pages lie on the plane, from their own join lines.

    A join is drawn across the whole window: on the page that is cut it lies on the window's
    rim, on the page it is laid on where the next window begins.
    """
    across: list[Mm] = []
    up: list[Mm] = []
    for page in pages:
        if page.window is None:
            continue
        left, bottom, width, height = page.window
        for a, b, c, d in page.lines:
            if abs(c - a) < 1e-3 and abs(abs(d - b) - height) < 0.01 and a - left > width / 2:
                across.append(a - left)
            if abs(d - b) < 1e-3 and abs(abs(c - a) - width) < 0.01 and b - bottom < height / 2:
                up.append(bottom + height - b)
    faults = [
        f"Its pages are not joined on one grid: steps of {min(steps):.2f} to {max(steps):.2f} mm."
        for steps in (across, up)
        if steps and max(steps) - min(steps) > GRID_TOLERANCE
    ]
    return (_mean(across), _mean(up)), faults


def _mean(lengths: list[Mm]) -> Mm:
    return math.fsum(lengths) / len(lengths) if lengths else 0.0


def _scaling(reader: Any) -> str:
    try:
        return str(reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"])
    except (KeyError, TypeError):
        return ""


def _about(reader: Any) -> About:
    """Return what we wrote into the catalogue for a proof; the defaults for what is missing."""
    try:
        told = reader.trailer["/Root"]["/PieceInfo"]["/hemsweep"]["/Private"]
        return About(
            kind=Kind(str(told["/Kind"])),
            waist=max(float(told["/Waist"]), 0.0),
            sweep=max(float(told["/Sweep"]), 0.0),
        )
    except (KeyError, TypeError, ValueError):
        return About()


def _fonts(reader: Any) -> tuple[tuple[str, bool], ...]:
    found: dict[str, bool] = {}
    for font in _font_objects(reader):
        name = str(font.get("/BaseFont", "unnamed")).lstrip("/")
        inner = font
        if "/DescendantFonts" in font:
            inner = font["/DescendantFonts"][0].get_object()
        described = inner.get("/FontDescriptor")
        keys = described.get_object().keys() if described is not None else ()
        found[name] = any(key.startswith("/FontFile") for key in keys)
    return tuple(sorted(found.items()))


def _font_objects(reader: Any) -> Iterator[Any]:
    """Yield every font that pages may set text in."""
    for page in reader.pages:
        resources = page.get("/Resources")
        fonts = resources.get_object().get("/Font") if resources is not None else None
        if fonts is not None:
            for font in fonts.get_object().values():
                yield font.get_object()
