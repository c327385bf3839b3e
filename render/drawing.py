"""The one kind of drawing that every file is written from: strokes and texts on layers.

Millimetres and radians; x to the right, y up. Imports geometry, printer and the language alone.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from drafting.geometry import Box, Path, Point, moved, moved_point
from drafting.language import say, say_as
from drafting.printer import AS_DRAWN, Correction
from drafting.units import Mm


class Layer(StrEnum):
    """Layers, by what a reader may want to see or hide."""

    CUTTING = "cutting lines"
    STITCHING = "stitching lines"
    MARKS = "marks"
    TEXT = "text"
    PAGE = "page"
    GRID = "grid"


def layer_words(layer: Layer) -> str:
    """Return what a layer is called in the language spoken."""
    return {
        Layer.CUTTING: say("cutting lines"),
        Layer.STITCHING: say("stitching lines"),
        Layer.MARKS: say_as("layer", "marks"),
        Layer.TEXT: say_as("layer", "text"),
        Layer.PAGE: say_as("layer", "page"),
        Layer.GRID: say_as("layer", "grid"),
    }[layer]


class Anchor(StrEnum):
    """Which part of a text stands at its point."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """How a line is drawn: its width, its dashes (drawn, left out, …), its grey (0 is black)."""

    width: Mm
    dash: tuple[Mm, ...] = ()
    grey: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A drawn path.

    Attributes:
        phase: how much of the dash pattern lies before the path's start.
        sizes: of a graded pattern, the sizes it belongs to; none where it belongs to all.
    """

    path: Path
    pen: Pen
    layer: Layer
    phase: Mm = 0.0
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A run of text; ``at`` lies on its baseline, ``size`` is the height of the type.

    Attributes:
        sizes: of a graded pattern, the sizes it belongs to; none where it belongs to all.
    """

    text: str
    at: Point
    size: Mm
    angle: float = 0.0
    anchor: Anchor = Anchor.START
    bold: bool = False
    grey: float = 0.0
    layer: Layer = Layer.TEXT
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Strokes and texts in one frame."""

    strokes: tuple[Stroke, ...] = ()
    texts: tuple[Text, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page of a document.

    Attributes:
        window: nothing outside it is drawn; in the drawing's own, true millimetres.
        label: what the page goes by, the same in every language.
        called: what a reader calls it in the document's language, if that is not its label.
        bookmark: its line in the outline, or empty.
        level: depth of that line in the outline, 0 at the top.
        correction: what the drawing is enlarged by in the file, so that it comes true out of
            one printer; the window's lower left corner stays where it is.
        foot: what is drawn outside the window too: the strip at the foot of a large sheet.
    """

    width: Mm
    height: Mm
    window: Box
    drawing: Drawing
    label: str
    called: str = ""
    bookmark: str = ""
    level: int = 0
    correction: Correction = AS_DRAWN
    foot: Drawing = Drawing()


class Kind(StrEnum):
    """What a document is printed on, or shown by; it tells what a proof must find in it."""

    PAGES = "pages"
    LARGE = "large sheets"
    PROJECTOR = "projector"
    CARD = "card"
    TRIAL = "trial"
    LAY = "lay plans"


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What a file says of itself to a program, so that it can be proven later.

    Attributes:
        waist, sweep: of the waist seam and the hem, what is as long as the print makes it.
        correction: what its pages are drawn with for one printer.
    """

    kind: Kind = Kind.PAGES
    waist: Mm = 0.0
    sweep: Mm = 0.0
    correction: Correction = AS_DRAWN


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """Pages with what a file says of itself.

    Attributes:
        sizes: those that a reader can show one by one, smallest first; none if there is one.
    """

    title: str
    author: str
    subject: str
    keywords: str
    language: str
    about: About = About()
    pages: tuple[Page, ...]
    sizes: tuple[str, ...] = ()


def together(*drawings: Drawing) -> Drawing:
    """Return one drawing that holds the others, in their order."""
    return Drawing(
        strokes=tuple(stroke for drawing in drawings for stroke in drawing.strokes),
        texts=tuple(text for drawing in drawings for text in drawing.texts),
    )


def placed(drawing: Drawing, *, x: Mm = 0.0, y: Mm = 0.0, turn: float = 0.0) -> Drawing:
    """Return the drawing turned about its origin, then shifted."""
    return Drawing(
        strokes=tuple(
            replace(stroke, path=moved(stroke.path, x=x, y=y, turn=turn))
            for stroke in drawing.strokes
        ),
        texts=tuple(
            replace(text, at=moved_point(text.at, x=x, y=y, turn=turn), angle=text.angle + turn)
            for text in drawing.texts
        ),
    )
