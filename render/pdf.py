"""Writing a document as PDF with reportlab. The one place where points (1/72 in) exist.

Only writes out what a document holds: the same document gives the same bytes.
"""

import io
import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import groupby
from types import MappingProxyType
from typing import Any

from drafting.geometry import Arc, Path
from drafting.language import say, speaking
from drafting.units import Mm
from render import fonts
from render.drawing import (
    About,
    Anchor,
    Document,
    Drawing,
    Layer,
    Page,
    Pen,
    Stroke,
    Text,
    layer_words,
)

POINTS = 72 / 25.4
"""Points to a millimetre."""

_SPAN = math.pi / 6
"""Longest arc given to one Bezier curve: its error is then 4e-7 of the radius, under 1 µm."""

SWITCHED = (Layer.CUTTING, Layer.STITCHING, Layer.MARKS, Layer.TEXT, Layer.GRID)
"""Layers that a reader can switch off. What tells where a page belongs is always shown."""

_ALIGN = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}


def pdf_bytes(document: Document) -> bytes:
    """Return the document as the bytes of a PDF 1.7 file."""
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0  # binary streams: a tenth smaller
    for bold in (False, True):
        pdfmetrics.registerFont(fonts.font(bold=bold))
    out = io.BytesIO()
    canvas = Canvas(
        out,
        pdfVersion=(1, 7),
        invariant=1,
        pageCompression=1,
        lang=document.language,
        initialFontName=fonts.NAMES[False],
    )
    _describe(canvas, document)
    groups = _layers(canvas, document)
    for number, page in enumerate(document.pages):
        _write_page(canvas, number, page, groups.keys)
        _name_layers(canvas, page, groups)
    canvas.save()
    return out.getvalue()


def _describe(canvas: Any, document: Document) -> None:
    canvas.setTitle(document.title)
    canvas.setAuthor(document.author)
    canvas.setSubject(document.subject)
    canvas.setKeywords(document.keywords)
    canvas.setCreator("hemsweep")
    canvas.setProducer("hemsweep, reportlab")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("Duplex", "Simplex")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    # reportlab's own setter does not know this key.
    canvas._doc.Catalog.ViewerPreferences.dict["PickTrayByPDFSize"] = "true"
    _tell_about(canvas, document.about)
    canvas.showOutline()


def _tell_about(canvas: Any, about: About) -> None:
    """Write what a proof asks for into the catalogue.

    Source: ISO 32000-1, 14.5, page-piece dictionaries. Its date must be there; ours never
    changes, for the same document gives the same bytes.
    """
    from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFString

    private = {
        "Kind": PDFString(about.kind.value),
        "Waist": round(about.waist, 3),
        "Sweep": round(about.sweep, 3),
    }
    if about.correction.needed:
        private["Across"] = round(about.correction.across, 6)
        private["Up"] = round(about.correction.up, 6)
    ours = {
        "LastModified": PDFString("D:20000101000000Z"),
        "Private": PDFDictionary(private),
    }
    _add_to_catalogue(canvas, "PieceInfo", PDFDictionary({"hemsweep": PDFDictionary(ours)}))


def _add_to_catalogue(canvas: Any, key: str, value: Any) -> None:
    """Add an entry that reportlab has no call for: its list of keys is told of one more."""
    catalogue = canvas._doc.Catalog
    catalogue.__NoDefault__ = [*catalogue.__NoDefault__, key]
    setattr(catalogue, key, value)


def _used(drawing: Drawing) -> tuple[Layer, ...]:
    """Return the layers that can be switched and that a drawing has anything on."""
    held = {s.layer for s in drawing.strokes} | {t.layer for t in drawing.texts}
    return tuple(layer for layer in SWITCHED if layer in held)


def _used_sizes(drawing: Drawing) -> tuple[tuple[str, ...], ...]:
    """Return the sets of sizes that a drawing has anything for, in one order whatever it holds."""
    held = {s.sizes for s in drawing.strokes} | {t.sizes for t in drawing.texts}
    return tuple(sorted(held - {()}))


@dataclass(slots=True)
class _Groups:
    """References to a document's layers: its kinds of lines, its sizes, and sets of sizes."""

    layers: dict[Layer, Any]
    sizes: dict[tuple[str, ...], Any]
    keys: dict[tuple[str, ...], str]


def _layers(canvas: Any, document: Document) -> _Groups:
    """List the document's layers in its catalogue; return a reference to each.

    What belongs to several sizes is shown while any one of them is: it is a member of them all.
    Source: ISO 32000-1, 8.11. reportlab has no call for optional content.
    """
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFString

    def group(name: str) -> Any:
        told = PDFDictionary({"Type": PDFName("OCG"), "Name": PDFString(name)})
        return canvas._doc.Reference(told)

    held = {layer for page in document.pages for layer in _used(page.drawing)}
    with speaking(document.language):
        layers = {layer: group(layer_words(layer)) for layer in SWITCHED if layer in held}
        sizes: dict[tuple[str, ...], Any] = {
            (name,): group(say("size {size}", size=name)) for name in document.sizes
        }
    sets = {of for page in document.pages for of in _used_sizes(page.drawing)}
    for of in sorted(one for one in sets if len(one) > 1):
        told = {
            "Type": PDFName("OCMD"),
            "OCGs": PDFArray([sizes[one,] for one in of]),
            "P": PDFName("AnyOn"),
        }
        sizes[of] = canvas._doc.Reference(PDFDictionary(told))
    groups = [*(sizes[name,] for name in document.sizes), *layers.values()]
    if groups:
        shown = {"Order": PDFArray(groups), "BaseState": PDFName("ON")}
        content = {"OCGs": PDFArray(groups), "D": PDFDictionary(shown)}
        _add_to_catalogue(canvas, "OCProperties", PDFDictionary(content))
    keys = {of: f"S{number}" for number, of in enumerate(sizes)}
    return _Groups(layers=layers, sizes=sizes, keys=keys)


def _name_layers(canvas: Any, page: Page, groups: _Groups) -> None:
    """Give the page just written the names under which its operators call the layers."""
    from reportlab.pdfbase.pdfdoc import PDFResourceDictionary

    resources = PDFResourceDictionary()
    resources.basicFonts()
    resources.Properties = {_key(layer): groups.layers[layer] for layer in _used(page.drawing)}
    for of in _used_sizes(page.drawing):
        resources.Properties[groups.keys[of]] = groups.sizes[of]
    canvas._doc.Pages.pages[-1].Resources = resources


def _key(layer: Layer) -> str:
    return f"L{SWITCHED.index(layer)}"


@contextmanager
def _shown_with(canvas: Any, key: str) -> Iterator[None]:
    """Mark what is drawn meanwhile as content of a layer; none if the key is empty.

    Only marked content will do: Ghostscript pays no heed to the layer of a form.
    """
    if not key:
        yield
        return
    canvas._code.append(f"/OC /{key} BDC")
    yield
    canvas._code.append("EMC")


def _write_page(canvas: Any, number: int, page: Page, keys: Mapping[tuple[str, ...], str]) -> None:
    canvas.setPageSize((page.width * POINTS, page.height * POINTS))
    canvas.addPageLabel(number, prefix=page.called or page.label)
    if page.bookmark:
        canvas.bookmarkPage(page.label)
        canvas.addOutlineEntry(page.bookmark, page.label, level=page.level, closed=0)
    window, correction = page.window, page.correction
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(
        window.left * POINTS,
        window.bottom * POINTS,
        window.width * correction.across * POINTS,
        window.height * correction.up * POINTS,
    )
    canvas.clipPath(clip, stroke=0, fill=0)
    if correction.needed:
        _enlarge(canvas, page)
    canvas.setLineCap(0)
    canvas.setLineJoin(0)
    _draw_on_layers(canvas, page.drawing, keys)
    canvas.restoreState()
    _draw_on_layers(canvas, page.foot)
    canvas.showPage()


def draw(canvas: Any, drawing: Drawing) -> None:
    """Draw a drawing from the canvas's origin on, for good: no reader can switch any of it off."""
    pen: Pen | None = None
    for stroke in drawing.strokes:
        pen = _stroke(canvas, stroke, pen)
    for text in drawing.texts:
        _text(canvas, text)


def _draw_on_layers(
    canvas: Any, drawing: Drawing, keys: Mapping[tuple[str, ...], str] = MappingProxyType({})
) -> None:
    """Draw a drawing, each part of it shown with its layer and with its sizes."""
    pen: Pen | None = None
    for (sizes, layer), strokes in groupby(drawing.strokes, key=_shown_for):
        with _shown_with(canvas, keys.get(sizes, "")), _shown_with(canvas, _switch(layer)):
            for stroke in strokes:
                pen = _stroke(canvas, stroke, pen)
    for (sizes, layer), texts in groupby(drawing.texts, key=_shown_for):
        with _shown_with(canvas, keys.get(sizes, "")), _shown_with(canvas, _switch(layer)):
            for text in texts:
                _text(canvas, text)


def _shown_for(part: Stroke | Text) -> tuple[tuple[str, ...], Layer]:
    return part.sizes, part.layer


def _switch(layer: Layer) -> str:
    """Return the key of a layer that can be switched, else nothing."""
    return _key(layer) if layer in SWITCHED else ""


def _enlarge(canvas: Any, page: Page) -> None:
    """Draw what follows larger by the page's correction, from its window's corner on."""
    across, up = page.correction
    canvas.transform(
        across,
        0,
        0,
        up,
        page.window.left * (1 - across) * POINTS,
        page.window.bottom * (1 - up) * POINTS,
    )


def _stroke(canvas: Any, stroke: Stroke, before: Pen | None) -> Pen:
    """Draw one stroke, changing only what differs from the pen before; return its pen."""
    pen = stroke.pen
    if before is None or before.width != pen.width:
        canvas.setLineWidth(pen.width * POINTS)
    if before is None or before.grey != pen.grey:
        canvas.setStrokeGray(pen.grey)
    if pen.dash or before is None or before.dash:
        canvas.setDash([dash * POINTS for dash in pen.dash], stroke.phase * POINTS)
    path = canvas.beginPath()
    _lay(path, stroke.path)
    canvas.drawPath(path, stroke=1, fill=0)
    return pen


def _lay(out: Any, path: Path) -> None:
    start = path[0].start
    out.moveTo(start.x * POINTS, start.y * POINTS)
    for segment in path:
        if isinstance(segment, Arc):
            _lay_arc(out, segment)
        else:
            out.lineTo(segment.end.x * POINTS, segment.end.y * POINTS)
    end = path[-1].end
    if len(path) > 1 and math.hypot(end.x - start.x, end.y - start.y) < 1e-6:
        out.close()


def _lay_arc(out: Any, arc: Arc) -> None:
    """Write an arc as Bezier curves. Source: control points lie 4/3 tan(t/4) r along tangents."""
    steps = max(1, math.ceil(abs(arc.finish - arc.begin) / _SPAN))
    step = (arc.finish - arc.begin) / steps
    reach = 4 / 3 * math.tan(step / 4) * arc.radius
    cx, cy, r = arc.centre.x, arc.centre.y, arc.radius
    c, s = math.cos(arc.begin), math.sin(arc.begin)
    for k in range(1, steps + 1):
        angle = arc.begin + step * k
        nc, ns = math.cos(angle), math.sin(angle)
        out.curveTo(
            (cx + r * c - reach * s) * POINTS,
            (cy + r * s + reach * c) * POINTS,
            (cx + r * nc + reach * ns) * POINTS,
            (cy + r * ns - reach * nc) * POINTS,
            (cx + r * nc) * POINTS,
            (cy + r * ns) * POINTS,
        )
        c, s = nc, ns


def _text(canvas: Any, text: Text) -> None:
    words = fonts.printable(text.text)
    size = text.size * POINTS
    back: Mm = _ALIGN[text.anchor] * fonts.width(text.text, text.size, bold=text.bold)
    c, s = math.cos(text.angle), math.sin(text.angle)
    line = canvas.beginText()
    line.setFont(fonts.NAMES[text.bold], size)
    line.setFillGray(text.grey)
    line.setTextTransform(
        c, s, -s, c, (text.at.x - back * c) * POINTS, (text.at.y - back * s) * POINTS
    )
    line.textOut(words)
    canvas.drawText(line)
