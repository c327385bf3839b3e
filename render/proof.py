"""Reading a written PDF back and measuring what it really holds. The one home of pypdf.

Knows nothing of how the file was drawn: pages, windows, the test square, the long rules and
the grid are measured in what ``walk`` finds on its pages. Millimetres. A file that says it is
corrected for a printer is measured as it comes out of that printer.
"""

import io
import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from drafting.errors import DraftingError
from drafting.printer import AS_DRAWN, NONSENSE, Correction
from drafting.units import Mm
from render.drawing import About, Kind
from render.walk import DEEPEST, PLAIN, Content, Form, Rect, Spot, walk

SQUARE: Mm = 100.0
SQUARE_TOLERANCE: Mm = 0.02
GRID_TOLERANCE: Mm = 0.02
NEARLY = 0.15
"""An outline this near the test square's size is the test square at another size."""

MOST_CORRECTED = 1 / (1 - NONSENSE)
"""No printer needs more."""

POINT: Mm = 25.4 / 72
SCALE_TOLERANCE = 1e-4
"""A hundredth of a millimetre in the test square."""

LEVEL: Mm = 5e-3
"""A line that rises by less is level."""

TICK: Mm = 8.0
"""Strokes across a rule are shorter than this."""

_Line = tuple[Spot, Spot]

_TILE = re.compile(r"[A-Z]+[0-9]+")
"""Label of a page of the plane: its row in letters, its column in figures."""


class NotAPatternError(DraftingError):
    """A file cannot be read as a PDF at all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What a PDF was found to hold, and what is wrong with it.

    Attributes:
        page: width and height of its pages; of the first if they differ.
        square: width and height of the test square on the first page, as it comes out of the
            printer that the file is corrected for, if it is; None if it is not 100 mm then.
        drawn: width and height of the same square in the file, at whatever size; or None.
        about: what the file says of itself; where it says nothing, what a print at home would.
        rules: lengths of the rules across and up the first page, 0 where there is none; as
            they come out of that printer.
        step: from one page to the next on the assembled plane, across and up, where pages
            join; 0 where they do not; as they come out of that printer.
        fonts: names of the fonts, and whether each is embedded.
        faults: a sentence each; empty when all is well.
    """

    pages: int
    page: tuple[Mm, Mm]
    square: tuple[Mm, Mm] | None
    drawn: tuple[Mm, Mm] | None
    rules: tuple[Mm, Mm]
    step: tuple[Mm, Mm]
    true_size: bool
    fonts: tuple[tuple[str, bool], ...]
    about: About
    faults: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Raw:
    """One page of a file, unmeasured: what of it is shown, in units of ``unit`` points."""

    box: Rect
    unit: float
    content: Content


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """What is taken out of a file, unmeasured."""

    pages: tuple[_Raw, ...]
    labels: tuple[str, ...]
    fonts: tuple[tuple[str, bool], ...]
    true_size: bool
    about: About


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    """One page in numbers. What is drawn is as it comes out of the printer.

    Attributes:
        page: width and height of what a printer is given.
        inked: where anything is drawn, in the file: left, bottom, right, top; or None.
        window: the same as it comes out of the printer, with which the page begins at 0, 0.
        outlines: width and height of every upright outline of four sides.
        scale: what matrices and units enlarge the page's lines by; 0, 0 if they turn them; None
            if it has none.
    """

    page: tuple[Mm, Mm]
    inked: Rect | None
    window: Rect | None
    lines: tuple[_Line, ...]
    outlines: tuple[tuple[Mm, Mm], ...]
    scale: tuple[float, float] | None


def page_count(data: bytes) -> int:
    """Return how many pages a file has; 0 for one that is no PDF."""
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(data)).pages) if data.startswith(b"%PDF") else 0


def proof(data: bytes) -> Proof:
    """Return what the bytes of a PDF hold, measured.

    Raises:
        NotAPatternError: they are no PDF, or an encrypted one.
    """
    read = _read(data)
    about = read.about
    pages = tuple(_measured(page, about) for page in read.pages)
    tiles = tuple(
        page for page, label in zip(pages, read.labels, strict=False) if _TILE.fullmatch(label)
    )
    nearest = _nearest_square(pages[0].outlines)
    square = nearest if nearest is not None and _off(nearest) <= SQUARE_TOLERANCE else None
    step, step_faults = _step(tiles)
    faults = [
        *_scale_faults(pages, nearest, about),
        *_page_faults(pages, about),
    ]
    if not read.true_size:
        faults.append("It does not ask printers to leave its size alone.")
    faults += [f"The font {name} is not in the file." for name, held in read.fonts if not held]
    return Proof(
        pages=len(pages),
        page=pages[0].page,
        square=square,
        drawn=_in_file(nearest, about.correction),
        rules=_rules(pages, about),
        step=step,
        true_size=read.true_size,
        fonts=read.fonts,
        about=about,
        faults=(*faults, *step_faults),
    )


def proof_line(found: Proof) -> str:
    """Return a proof in one line."""
    width, height = found.page
    pages = "1 page" if found.pages == 1 else f"{found.pages} pages"
    words = [f"{pages} of {width:.1f} × {height:.1f} mm"]
    if found.drawn is not None:
        words.append(_square_words(found.drawn, found.square, found.about.correction))
    across, up = found.rules
    if across and up:
        words.append(f"rules {across:.2f} and {up:.2f} mm")
    elif across or up:
        words.append(f"rule {across or up:.2f} mm {'across' if across else 'up'}")
    if max(found.step) > 0:
        ways = zip(found.step, ("across", "up"), strict=True)
        apart = [f"{side:.2f} mm {way}" for side, way in ways if side]
        words.append("pages apart by " + " and ".join(apart))
    if found.true_size:
        words.append("no scaling asked for")
    if found.fonts and all(held for _, held in found.fonts):
        words.append("fonts embedded")
    return ", ".join(words)


def _square_words(
    drawn: tuple[Mm, Mm], square: tuple[Mm, Mm] | None, correction: Correction
) -> str:
    in_file = f"test square {drawn[0]:.2f} × {drawn[1]:.2f} mm"
    if not correction.needed:
        return in_file
    makes = " × ".join(f"{SQUARE / by:.2f}" for by in correction)
    words = f"{in_file} in the file, corrected for a printer that makes {makes} mm of 100 × 100"
    if square is None:
        return words
    return f"{words}: there it measures {square[0]:.2f} × {square[1]:.2f} mm"


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


def _raw(page: Any) -> _Raw:
    """Return what of a page is shown and what is drawn on it.

    A page that is only turned for the screen is measured as it was drawn: printers turn it
    back on their paper.
    """
    media, crop = page.mediabox, page.cropbox
    box = (
        max(float(media.left), float(crop.left)),
        max(float(media.bottom), float(crop.bottom)),
        min(float(media.right), float(crop.right)),
        min(float(media.top), float(crop.top)),
    )
    unit = float(_held(page, "/UserUnit", 1))
    if not all(abs(number) < 1e6 for number in (*box, unit)):
        raise NotAPatternError("its pages have no size")
    content = page.get_contents()
    data: bytes = content.get_data() if content is not None else b""
    held = Content(data=data, forms=_forms(page.get("/Resources"), DEEPEST))
    return _Raw(box=box, unit=unit, content=held)


def _forms(resources: Any, depth: int) -> Mapping[str, Form]:
    """Return the forms that content with those resources may draw, forms within them too."""
    if resources is None or depth == 0:
        return {}
    listed = resources.get_object().get("/XObject")
    found: dict[str, Form] = {}
    for name, reference in listed.get_object().items() if listed is not None else ():
        held = reference.get_object()
        if held.get("/Subtype") != "/Form":
            continue
        a, b, c, d, e, f = (float(number) for number in _held(held, "/Matrix", PLAIN))
        box = [float(number) for number in _held(held, "/BBox", ())]
        found[str(name).removeprefix("/")] = Form(
            content=Content(data=held.get_data(), forms=_forms(held.get("/Resources"), depth - 1)),
            matrix=(a, b, c, d, e, f),
            box=_upright_box(box),
        )
    return found


def _held(dictionary: Any, key: str, otherwise: Any) -> Any:
    """Return what stands under a key, itself and no reference to it."""
    if key not in dictionary:
        return otherwise
    return dictionary[key]


def _upright_box(numbers: Sequence[float]) -> Rect | None:
    if len(numbers) != 4:
        return None
    a, b, c, d = numbers
    return min(a, c), min(b, d), max(a, c), max(b, d)


def _measured(raw: _Raw, about: About) -> _Measured:
    left, bottom, right, top = raw.box
    by = raw.unit * POINT
    across, up = about.correction

    def printed(spot: Spot) -> Spot:
        # A file keeps five or six figures; what lies behind them is noise.
        return round(spot[0] / across, 4), round(spot[1] / up, 4)

    found = walk(raw.content, (by, 0.0, 0.0, by, -left * by, -bottom * by))
    # A large sheet has a foot under its window.
    window = found.mostly if about.kind is Kind.LARGE else found.window
    return _Measured(
        page=((right - left) * by, (top - bottom) * by),
        inked=window,
        window=window and (*printed(window[:2]), *printed(window[2:])),
        lines=tuple((printed(a), printed(b)) for a, b in found.lines),
        outlines=tuple(
            _sides([printed(corner) for corner in outline])
            for outline in found.outlines
            if _upright(outline)
        ),
        scale=found.scale and (found.scale[0] / POINT, found.scale[1] / POINT),
    )


def _upright(corners: Sequence[Spot]) -> bool:
    """Tell whether four corners follow each other along upright and level lines only."""
    return all(
        min(abs(a[0] - b[0]), abs(a[1] - b[1])) < LEVEL
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )


def _sides(corners: Sequence[Spot]) -> tuple[Mm, Mm]:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return max(xs) - min(xs), max(ys) - min(ys)


def _nearest_square(outlines: Sequence[tuple[Mm, Mm]]) -> tuple[Mm, Mm] | None:
    """Return the sides of the outline nearest to 100 by 100 mm, if it is near at all."""
    nearest = min(outlines, key=_off, default=None)
    return nearest if nearest is not None and _off(nearest) <= NEARLY * SQUARE else None


def _off(sides: tuple[Mm, Mm]) -> Mm:
    return max(abs(side - SQUARE) for side in sides)


def _in_file(sides: tuple[Mm, Mm] | None, correction: Correction) -> tuple[Mm, Mm] | None:
    return sides and (sides[0] * correction.across, sides[1] * correction.up)


def _scale_faults(
    pages: Sequence[_Measured], nearest: tuple[Mm, Mm] | None, about: About
) -> list[str]:
    """Return how the drawing's scale is not the one that the file was written with."""
    if any(page.scale == (0.0, 0.0) for page in pages):
        return ["Its drawing was turned after it was written; sizes cannot be told."]
    first = pages[0].scale or (1.0, 1.0)
    faults = [
        f"Page {number} is drawn at another scale than the first: {_ways(across, up)}."
        for number, page in enumerate(pages, start=1)
        if page.scale is not None
        for across, up in [(page.scale[0] / first[0], page.scale[1] / first[1])]
        if _differ(across, up)
    ][:1]
    if about.kind in (Kind.PROJECTOR, Kind.CARD, Kind.LAY):
        return faults + _scaled(first)
    drawn = _in_file(nearest, about.correction)
    if nearest is None or drawn is None:
        return [*faults, "There is no test square of 100 mm on the first page."]
    if _off(nearest) <= SQUARE_TOLERANCE:
        return faults
    scale = drawn[0] / SQUARE, drawn[1] / SQUARE
    if about.correction.needed:
        return [
            *faults,
            f"It says that it is drawn at {_ways(*about.correction)} for one printer, but its"
            f" test square is at {_ways(*scale)}.",
        ]
    return [
        *faults,
        f"Its drawing was scaled after it was written: to {_ways(*scale)}; its test square"
        f" is {drawn[0]:.2f} × {drawn[1]:.2f} mm.",
    ]


def _scaled(scale: tuple[float, float]) -> list[str]:
    """Return the fault of a scaled drawing that has no square to tell its size by.

    A scale of a tenth, or of twenty, is another program's unit and not its enlargement.
    """
    if not _differ(*scale) or not all(0.5 < way < 2 for way in scale):
        return []
    return [f"Its drawing was scaled after it was written: to {_ways(*scale)}."]


def _differ(across: float, up: float) -> bool:
    return max(abs(across - 1), abs(up - 1)) > SCALE_TOLERANCE


def _ways(across: float, up: float) -> str:
    return f"{across:.2%} across and {up:.2%} up"


def _page_faults(pages: Sequence[_Measured], about: About) -> list[str]:
    """Return what is wrong with the pages' sizes and with where they are drawn on."""
    faults: list[str] = []
    # A lay plan lies the way in which it is larger.
    if about.kind not in (Kind.PROJECTOR, Kind.LAY):
        sizes = {tuple(round(side, 2) for side in page.page) for page in pages}
        if len(sizes) > 1:
            faults.append(f"Its pages have {len(sizes)} different sizes.")
        if not _one_window([page.inked for page in pages]):
            faults.append("Its pages are not all drawn in the same window.")
    if not all(_on_page(page) for page in pages):
        faults.append("Its drawing does not lie whole on its pages.")
    return faults


def _one_window(windows: Sequence[Rect | None]) -> bool:
    known = [window for window in windows if window is not None]
    return len(known) == len(windows) and all(
        max(sides) - min(sides) <= GRID_TOLERANCE for sides in zip(*known, strict=True)
    )


def _on_page(page: _Measured) -> bool:
    if page.inked is None:
        return True
    left, bottom, right, top = page.inked
    wide, high = page.page
    return (
        min(left, bottom) >= -GRID_TOLERANCE
        and right <= wide + GRID_TOLERANCE
        and top <= high + GRID_TOLERANCE
    )


def _rules(pages: Sequence[_Measured], about: About) -> tuple[Mm, Mm]:
    """Return the longest level and the longest upright rule: on large sheets, of any page.

    A projector's is the frame of its grid, which needs no ticks.
    """
    if about.kind is Kind.LAY:
        return 0.0, 0.0  # its length marks are drawn small
    ticked = about.kind is not Kind.PROJECTOR
    found = [
        _rules_of(page, ticked=ticked)
        for page in (pages if about.kind is Kind.LARGE else pages[:1])
    ]
    return max(across for across, _ in found), max(up for _, up in found)


def _rules_of(page: _Measured, *, ticked: bool) -> tuple[Mm, Mm]:
    """Return the longest level and upright lines of whole centimetres, with ticks at both ends."""
    level = [(a, b) for a, b in page.lines if _level(a, b)]
    plumb = [(a, b) for a, b in page.lines if _plumb(a, b)]
    if not ticked:
        return _longest_whole(level), _longest_whole(plumb)
    return (
        _longest_whole(_between_ticks(level, plumb)),
        _longest_whole(_between_ticks(plumb, level)),
    )


def _between_ticks(lines: Sequence[_Line], others: Sequence[_Line]) -> list[_Line]:
    """Return the lines at both ends of which a short stroke of the other way begins or ends."""
    # Spots by tenths of a millimetre, and the next ones: another program may round its own way.
    ticks = {
        (math.floor(x * 10) + right, math.floor(y * 10) + over)
        for a, b in others
        if math.dist(a, b) < TICK
        for x, y in (a, b)
        for right in (0, 1)
        for over in (0, 1)
    }
    return [line for line in lines if all((round(x * 10), round(y * 10)) in ticks for x, y in line)]


def _level(a: Spot, b: Spot) -> bool:
    return abs(b[1] - a[1]) < LEVEL


def _plumb(a: Spot, b: Spot) -> bool:
    return abs(b[0] - a[0]) < LEVEL


def _longest_whole(lines: Sequence[_Line]) -> Mm:
    lengths = [math.dist(a, b) for a, b in lines]
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
        left, bottom, right, top = page.window
        wide, high = right - left, top - bottom
        for a, b in page.lines:
            whole = abs(abs(b[1] - a[1]) - high) < GRID_TOLERANCE
            if _plumb(a, b) and whole and a[0] - left > wide / 2:
                across.append(a[0] - left)
            whole = abs(abs(b[0] - a[0]) - wide) < GRID_TOLERANCE
            if _level(a, b) and whole and a[1] - bottom < high / 2:
                up.append(top - a[1])
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
            correction=_correction(told),
        )
    except (KeyError, TypeError, ValueError):
        return About()


def _correction(told: Any) -> Correction:
    """Return what a file says it is corrected by; none if that is more than any printer needs."""
    found = Correction(*(float(_held(told, key, 1)) for key in ("/Across", "/Up")))
    likely = all(1 / MOST_CORRECTED <= way <= MOST_CORRECTED for way in found)
    return found if likely else AS_DRAWN


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
