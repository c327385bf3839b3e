"""Writing the parts of a pattern as SVG at true size. The one home of svgwrite.

A unit of the file is a millimetre. Here is the one place where y turns downwards. Strokes and
words lie where they are drawn, without transforms, so that the plainest reader can follow.
"""

import io
import math
import re
from collections.abc import Iterator
from html import escape
from typing import Any

from drafting.geometry import Arc, Box, Path, Point, distance, in_parts
from drafting.language import say, speaking
from drafting.piece_names import piece_words
from drafting.units import Mm
from render import fonts
from render.drawing import Anchor, Drawing, Layer, Stroke, Text, layer_words
from render.parts import Plane

LAYERS = (Layer.CUTTING, Layer.STITCHING, Layer.MARKS, Layer.TEXT)

_LONGEST = math.pi / 2
"""Longest arc written as one. Near half a turn the last digit of its ends would move its
middle by tenths of a millimetre."""

_ANCHORS = {Anchor.START: "start", Anchor.MIDDLE: "middle", Anchor.END: "end"}


def svg_bytes(plane: Plane) -> bytes:
    """Return the plane as the bytes of an SVG 1.1 file: a group a piece, in it a group a layer."""
    with speaking(plane.language):
        return _plane_svg(plane)


def _plane_svg(plane: Plane) -> bytes:
    """Return the file, what it says of itself in the language spoken."""
    import svgwrite

    wide, high = _number(plane.width), _number(plane.height)
    out = svgwrite.Drawing(
        size=(f"{wide}mm", f"{high}mm"), viewBox=f"0 0 {wide} {high}", debug=False
    )
    out.set_desc(title=plane.title, desc=say("Sewing pattern at true size, in millimetres."))
    out.add(_group(out, "test-square", say("test square, 100 mm"), plane.square, plane.height))
    for part in plane.parts:
        ident = f"piece-{part.number}-{_plain(part.piece.name)}"
        out.add(_group(out, ident, piece_words(part.piece.name), part.on_plane(), plane.height))
    text = io.StringIO()
    out.write(text)
    return text.getvalue().encode()


def drawing_svg(
    drawing: Drawing, width: Mm, height: Mm, title: str, desc: str, *, ground: bool = False
) -> bytes:
    """Return one drawing as the bytes of an SVG 1.1 file, a group a layer.

    Args:
        width, height: of the picture; its lower left corner is the drawing's origin.
        title, desc: what a screen reader says of it, in short and at length.
        ground: it lies on white, so that it is seen on a dark page too.
    """
    import svgwrite

    wide, high = _number(width), _number(height)
    out = svgwrite.Drawing(
        size=(f"{wide}mm", f"{high}mm"),
        viewBox=f"0 0 {wide} {high}",
        debug=False,
        role="img",
    )
    out.set_desc(title=title, desc=desc)
    if ground:
        out.add(out.rect(size=(wide, high), fill="white"))
    for layer in Layer:
        strokes = [stroke for stroke in drawing.strokes if stroke.layer is layer]
        texts = [text for text in drawing.texts if text.layer is layer]
        if not strokes and not texts:
            continue
        group = out.g(id=_plain(layer.value))
        for stroke in strokes:
            group.add(_stroke(out, stroke, height))
        for text in texts:
            group.add(_text(out, text, height))
        out.add(group)
    written = io.StringIO()
    out.write(written)
    return written.getvalue().encode()


def svg_of_page(drawing: Drawing, box: Box, alt: str, *, classes: str) -> str:
    """Return what a box shows of a drawing as an element that stands in the text of a web page.

    Args:
        alt: what is drawn, for somebody who cannot see it; fit for XML.
        classes: names by which the page's style sheet knows the picture; it is told the
            picture's own width too, as ``--wide``.
    """
    import svgwrite

    out = svgwrite.Drawing(debug=False)
    inner = [_stroke(out, stroke, box.top) for stroke in drawing.strokes]
    inner += [_text(out, text, box.top) for text in drawing.texts]
    wide, high = _number(box.width), _number(box.height)
    return (
        f'<svg class="{escape(classes)}" style="--wide: {wide}mm" role="img"'
        f' aria-label="{escape(alt)}" width="{wide}mm" height="{high}mm"'
        f' viewBox="{_number(box.left)} 0 {wide} {high}">'
        + "".join(element.tostring() for element in inner)
        + "</svg>"
    )


def _ink(grey: float) -> str:
    """Return a grey as SVG names it; 0 is black."""
    return "black" if grey == 0 else "#" + f"{round(grey * 255):02x}" * 3


def _plain(words: str) -> str:
    """Return words as letters, figures and hyphens, safe in an id."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")


def _number(value: float) -> str:
    """Return a number to a ten-thousandth of a millimetre, without needless zeros."""
    short = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if short == "-0" else short


def _group(out: Any, ident: str, title: str, drawing: Drawing, top: Mm) -> Any:
    group = out.g(id=ident)
    group.set_desc(title=title)
    for layer in LAYERS:
        strokes = [stroke for stroke in drawing.strokes if stroke.layer is layer]
        texts = [text for text in drawing.texts if text.layer is layer]
        if not strokes and not texts:
            continue
        inner = out.g(id=f"{ident}-{_plain(layer.value)}")
        inner.set_desc(title=layer_words(layer))
        for stroke in strokes:
            inner.add(_stroke(out, stroke, top))
        for text in texts:
            inner.add(_text(out, text, top))
        group.add(inner)
    return group


def _stroke(out: Any, stroke: Stroke, top: Mm) -> Any:
    pen = stroke.pen
    dashes = {}
    if pen.dash:
        dashes["stroke_dasharray"] = ",".join(_number(dash) for dash in pen.dash)
    if stroke.phase:
        dashes["stroke_dashoffset"] = _number(stroke.phase)
    return out.path(
        d=" ".join(_commands(stroke.path, top)),
        fill="none",
        stroke=_ink(pen.grey),
        stroke_width=_number(pen.width),
        **dashes,
    )


def _commands(path: Path, top: Mm) -> Iterator[str]:
    """Yield a path's commands. A turn against the clock stays one, as it is seen."""
    start, end = path[0].start, path[-1].end
    closed = distance(start, end) < 1e-6
    segments = in_parts(path, _LONGEST)
    yield f"M {_spot(start, top)}"
    for k, segment in enumerate(segments):
        if isinstance(segment, Arc):
            r = _number(segment.radius)
            clockwise = int(segment.finish < segment.begin)
            yield f"A {r} {r} 0 0 {clockwise} {_spot(segment.end, top)}"
        elif not (closed and k == len(segments) - 1):  # the last side is drawn by closing
            yield f"L {_spot(segment.end, top)}"
    if closed:
        yield "Z"


def _spot(point: Point, top: Mm) -> str:
    return f"{_number(point.x)} {_number(top - point.y)}"


def _text(out: Any, text: Text, top: Mm) -> Any:
    words = fonts.printable(text.text)
    x, y = _number(text.at.x), _number(top - text.at.y)
    degrees = _number(-math.degrees(math.remainder(text.angle, math.tau)))
    turned = {} if degrees == "0" else {"transform": f"rotate({degrees} {x} {y})"}
    if text.grey:
        turned["fill"] = _ink(text.grey)
    return out.text(
        words,
        insert=(x, y),
        font_family="'Fira Sans', sans-serif",
        font_size=_number(text.size),
        font_weight="600" if text.bold else "400",
        text_anchor=_ANCHORS[text.anchor],
        # Set in another typeface, the words still keep to the room that was found for them.
        textLength=_number(fonts.width(text.text, text.size, bold=text.bold)),
        lengthAdjust="spacingAndGlyphs",
        **turned,
    )
