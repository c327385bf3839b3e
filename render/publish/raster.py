"""A drawing as PNG, by showing the PDF that we write of it. The one home of pypdfium2 and pillow.

Black and greys on white; the same drawing gives the same bytes.
"""

import io

from drafting.geometry import Box
from drafting.units import Mm
from render.drawing import About, Document, Drawing, Kind, Page
from render.pdf import POINTS, pdf_bytes

GREYS = 16
"""Lines of one ink need no more steps from black to white than this at their edges."""


def png_bytes(drawing: Drawing, *, width: Mm, height: Mm, pixels: tuple[int, int]) -> bytes:
    """Return what a page of that size shows of a drawing, as the bytes of a PNG.

    Args:
        width, height: of the page; its lower left corner is the drawing's origin.
        pixels: width and height of the picture, in the page's own proportion.
    """
    import pypdfium2
    from PIL import Image

    page = Page(
        width=width,
        height=height,
        window=Box(left=0.0, bottom=0.0, right=width, top=height),
        drawing=drawing,
        label="picture",
    )
    document = Document(
        title="", author="", subject="", keywords="", language="en", about=About(kind=Kind.LAY),
        pages=(page,),
    )  # fmt: skip
    with pypdfium2.PdfDocument(pdf_bytes(document)) as file:
        shown = file[0].render(scale=pixels[0] / (width * POINTS), grayscale=True)
        image = shown.to_pil().convert("L")
    # The bitmap is rounded up to whole dots; what is more than asked for is white.
    exact = Image.new("L", pixels, 255)
    exact.paste(image.crop((0, 0, *pixels)) if image.size >= pixels else image)
    step = 255 / (GREYS - 1)
    out = io.BytesIO()
    exact.point([round(round(grey / step) * step) for grey in range(256)]).save(
        out, format="PNG", optimize=True
    )
    return out.getvalue()
