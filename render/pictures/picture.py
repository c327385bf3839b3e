"""A picture of the booklet as a value: what is drawn, its size, what to see in it.

Millimetres on the booklet's page, x to the right, y up. Imports the drawing and geometry alone.
"""

from dataclasses import dataclass

from drafting.geometry import Box
from drafting.units import Mm
from render.drawing import Drawing

WIDE: Mm = 122.0
"""Width of the text on the booklet's page; no picture is wider."""

TALL: Mm = 150.0
"""No picture is taller, so that its caption stands under it on the same page."""

SMALL_TYPE: Mm = 2.9
"""Least height of type in a picture: 8 points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A line drawing with its words, in the language of the sheet.

    Attributes:
        name: short and hyphenated, the same in every language: ``hem-section``.
        drawing: strokes and texts at the size they are printed.
        box: what is shown of it, all of the drawing inside.
        caption: what to see, one or two sentences.
        alt: the same for somebody who cannot see it: what is drawn, with its numbers.
    """

    name: str
    drawing: Drawing
    box: Box
    caption: str
    alt: str
