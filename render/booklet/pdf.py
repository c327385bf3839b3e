"""The sewing booklet as PDF: A5 pages to be printed two to a sheet and folded, or enlarged.

Imports reportlab's half only when a booklet is written.
"""

from drafting.language import speaking
from render.booklet.model import Booklet


def booklet_pdf(booklet: Booklet) -> bytes:
    """Return the booklet as the bytes of a PDF file; the same booklet gives the same bytes."""
    from render.booklet.leaves import bytes_of

    with speaking(booklet.language):
        return bytes_of(booklet)
