"""Writing the parts of a pattern as DXF R12 at true size. The one home of ezdxf.

Layers are numbered after ASTM D6673; the file does not claim to follow that standard in
anything else. A unit is a millimetre: R12 has no header variable for it, so words say so, in
a comment at the head and in the test square. Everything is plain ASCII.
"""

import io
import math
import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from drafting.geometry import Arc, Path, Point, bounds, distance, in_parts, stepped
from drafting.language import said_later, say, speaking
from drafting.units import Mm
from render import fonts, style
from render.drawing import Anchor, Stroke, Text, placed
from render.files import SPELT
from render.parts import FOOT, Plane
from render.piece_drawing import LineKind

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.blocklayout import BlockLayout

BOUNDARY, NOTCHES, GRAIN, INTERNAL, SEWN, WORDS = "1", "4", "7", "8", "14", "15"

LAYERS = {
    LineKind.CUTTING: BOUNDARY,
    LineKind.NOTCH: NOTCHES,
    LineKind.GRAIN: GRAIN,
    LineKind.FOLD: INTERNAL,
    LineKind.INNER: INTERNAL,
    LineKind.MARK: INTERNAL,
    LineKind.STITCHING: SEWN,
}

UNIT = said_later("1 unit = 1 mm")
LAYERED = said_later(
    "Layered after ASTM D6673: 1 boundary, 4 notches, 7 grain, 8 internal lines, 14 sew line,"
    " 15 text."
)
"""Said of a file in its square; the comment at its head, for programs, stays English."""

LONGEST_TEXT = 250
"""R12 holds 255 signs to a string."""

LONGEST_NAME = 31
"""R12 holds 31 signs to the name of a block."""

_ALIGN = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}

_SIGNS = {
    "×": "x", "·": "-", "•": "-", "–": "-", "—": "-", "−": "-", "…": "...", "“": '"', "”": '"',
    "„": '"', "«": '"', "»": '"', "‘": "'", "’": "'", "‚": "'", "′": "'", "″": '"', "\u2044": "/",
    "°": " deg", "±": "+/-", "→": "->", "←": "<-", "≈": "about ", "≤": "<=", "≥": ">=",
}  # fmt: skip
_LETTERS = {**SPELT, **{k.upper(): v.capitalize() for k, v in SPELT.items() if k != "ß"}}

LOST = "?"
"""What stands for a sign that has no spelling in ASCII."""


def dxf_bytes(plane: Plane) -> bytes:
    """Return the plane as the bytes of a DXF R12 file: a block a piece, each inserted once."""
    with _fixed_records():
        from ezdxf.document import Drawing

        # ezdxf.new() would set a unit, and then warn that R12 cannot hold it.
        document = Drawing.new("R12")
        document.header["$HANDLING"] = 0
        document.header["$LUNITS"] = 2
        space = document.modelspace()
        space.reset_extents((0, 0, 0), (_mm(plane.width), _mm(plane.height), 0))
        space.reset_limits((0, 0), (_mm(plane.width), _mm(plane.height)))
        document.set_modelspace_vport(
            height=_mm(plane.height), center=(_mm(plane.width / 2), _mm(plane.height / 2))
        )
        for layer in (BOUNDARY, NOTCHES, GRAIN, INTERNAL, SEWN, WORDS):
            document.layers.add(layer)
        _write_square(document, plane)
        for part in plane.parts:
            block = document.blocks.new(_block_name(part.number, part.piece.name))
            for line in part.lines:
                _write_stroke(document, block, line.stroke, LAYERS[line.kind])
            for text in part.words:
                _write_text(block, text)
            space.add_blockref(
                block.name,
                (_mm(part.placement.x), _mm(part.placement.y)),
                dxfattribs={"rotation": round(math.degrees(part.placement.turn), 9) + 0.0},
            )
        out = io.StringIO()
        document.write(out)
    head = f"999\nhemsweep: {UNIT}\n999\n{LAYERED}\n"
    # The programs of cutting tables are at home on Windows.
    return (head + out.getvalue()).replace("\n", "\r\n").encode("ascii")


def lost(plane: Plane) -> tuple[str, ...]:
    """Return the signs of a plane's words that have no spelling in ASCII, each once."""
    words = [text.text for text in plane.square.texts]
    words += [text.text for part in plane.parts for text in part.words]
    return tuple(
        dict.fromkeys(sign for sign in "".join(words) if sign != LOST and LOST in ascii_words(sign))
    )


def ascii_words(words: str) -> str:
    """Return words spelt in ASCII: "28¼ in × 3" becomes "28 1/4 in x 3".

    Signs with a meaning of their own in a DXF text are taken apart.
    """
    joined = unicodedata.normalize("NFC", words)
    # A fraction must not run into the number before it: 28¼ is not 281/4.
    apart = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", joined)
    plain = "".join(_spelt(sign) for sign in apart)
    return re.sub("%(?=%)", "% ", plain).replace("^", "'")


def _spelt(sign: str) -> str:
    if sign in _SIGNS or sign in _LETTERS:
        return _SIGNS.get(sign) or _LETTERS[sign]
    broken = unicodedata.normalize("NFKD", sign).replace("\u2044", "/")
    kept = "".join(c for c in broken if " " <= c <= "~")
    return kept or ("" if unicodedata.combining(sign) else LOST)


@contextmanager
def _fixed_records() -> Iterator[None]:
    """Have ezdxf write no dates, identities or versions of its own meanwhile."""
    from ezdxf import options  # type: ignore[attr-defined]  # public, but not in its types

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _mm(value: Mm) -> float:
    """Return a length to a millionth of a millimetre, the same on every machine, never -0."""
    return round(value, 6) + 0.0


def _block_name(number: int, words: str) -> str:
    """Return a name of capitals, figures and underlines, told apart by its number."""
    plain = re.sub(r"[^A-Z0-9]+", "_", ascii_words(words).upper()).strip("_")
    return f"PIECE_{number}_{plain}"[:LONGEST_NAME].rstrip("_")


def _write_square(document: "Document", plane: Plane) -> None:
    """Write the test square as a block; what the file says of itself stands at its foot."""
    (outline,) = plane.square.strokes
    box = bounds(outline.path)
    block = document.blocks.new("TEST_SQUARE")
    own = placed(plane.square, x=-box.left, y=-box.bottom)
    for stroke in own.strokes:
        _write_stroke(document, block, stroke, BOUNDARY)
    with speaking(plane.language):
        told_of_it = f"{say(UNIT)}. {say(LAYERED)}"
    rows = fonts.wrapped(told_of_it, style.NOTE, box.width - 16)
    lead = style.NOTE * style.LEADING
    told = [
        Text(
            text=row,
            at=Point(box.width / 2, FOOT - lead * k),
            size=style.NOTE,
            anchor=Anchor.MIDDLE,
        )
        for k, row in enumerate(rows, start=1)
    ]
    for text in (*own.texts, *told):
        _write_text(block, text)
    document.modelspace().add_blockref(block.name, (_mm(box.left), _mm(box.bottom)))


def _write_stroke(document: "Document", block: "BlockLayout", stroke: Stroke, layer: str) -> None:
    path = stroke.path
    closed = distance(path[0].start, path[-1].end) < 1e-6
    attributes: dict[str, Any] = {"layer": layer}
    if stroke.pen.dash:
        attributes["linetype"] = _line_type(document, stroke.pen.dash)
    line = block.add_polyline2d(
        _points(path, closed=closed), format="xyb", close=closed, dxfattribs=attributes
    )
    # Dashes run on over the points of the line.
    line.dxf.flags |= 128 if stroke.pen.dash else 0


def _points(path: Path, *, closed: bool) -> list[tuple[float, float, float]]:
    """Return x, y and bulge of each point of a path; bulge is the tangent of a quarter sweep.

    Source: DXF reference, VERTEX, group 42: above 0 when the arc runs counter-clockwise.
    """
    segments = in_parts(path, math.pi)
    points = []
    for segment in segments:
        sweep = segment.finish - segment.begin if isinstance(segment, Arc) else 0.0
        bulge = round(math.tan(sweep / 4), 12) + 0.0
        points.append((_mm(segment.start.x), _mm(segment.start.y), bulge))
    if not closed:
        end = segments[-1].end
        points.append((_mm(end.x), _mm(end.y), 0.0))
    return points


def _line_type(document: "Document", dash: tuple[Mm, ...]) -> str:
    """Return the name of the line type with these dashes, made when first asked for."""
    name = "DASH_" + "_".join(f"{part:g}".replace(".", "P") for part in dash)
    if name not in document.linetypes:
        pattern = [part if k % 2 == 0 else -part for k, part in enumerate(dash)]
        document.linetypes.add(name, [math.fsum(dash), *pattern])
    return name


def _write_text(block: "BlockLayout", text: Text) -> None:
    """Write a text between its two ends, so that no typeface takes more room than was found."""
    from ezdxf.enums import TextEntityAlignment

    wide = fonts.width(text.text, text.size, bold=text.bold)
    left = stepped(text.at, text.angle, -_ALIGN[text.anchor] * wide)
    for words, begin, end in _runs(text.text):
        ends = [stepped(left, text.angle, share * wide) for share in (begin, end)]
        entity = block.add_text(
            words,
            height=_mm(style.CAP_HEIGHT * text.size),
            rotation=round(math.degrees(math.remainder(text.angle, math.tau)), 6) + 0.0,
            dxfattribs={"layer": WORDS},
        )
        one, other = ((_mm(p.x), _mm(p.y)) for p in ends)
        entity.set_placement(one, other, align=TextEntityAlignment.FIT)


def _runs(words: str) -> Iterator[tuple[str, float, float]]:
    """Yield words in ASCII, in pieces that R12 can hold, with the shares they begin and end at."""
    plain = ascii_words(words).strip()
    for begin in range(0, len(plain), LONGEST_TEXT):
        run = plain[begin : begin + LONGEST_TEXT]
        yield run, begin / len(plain), (begin + len(run)) / len(plain)
