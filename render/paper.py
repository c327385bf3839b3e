"""Papers, and the grid of pages that a plane is cut into.

Millimetres. ISO 216 and the North American sizes. Imports the spec's words, printer and errors.
"""

from dataclasses import dataclass

from drafting.errors import DraftingError
from drafting.geometry import Box
from drafting.printer import AS_DRAWN, Correction
from drafting.spec import PaperName
from drafting.units import Mm


class PaperError(DraftingError):
    """Margins or overlap leave no room on a paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, upright.

    Attributes:
        title: as printers name it.
        margin: what most home printers leave blank at each edge.
    """

    name: PaperName
    title: str
    width: Mm
    height: Mm
    margin: Mm = 10.0


# Letter, Legal and Tabloid printers feed from trays whose trailing edge loses half an inch.
PAPERS = {
    paper.name: paper
    for paper in (
        Paper(name=PaperName.A4, title="A4", width=210.0, height=297.0),
        Paper(name=PaperName.LETTER, title="US Letter", width=215.9, height=279.4, margin=12.7),
        Paper(name=PaperName.A3, title="A3", width=297.0, height=420.0),
        Paper(name=PaperName.TABLOID, title="Tabloid", width=279.4, height=431.8, margin=12.7),
        Paper(name=PaperName.LEGAL, title="US Legal", width=215.9, height=355.6, margin=12.7),
        # The largest page that lies inside both; it prints on either without scaling.
        Paper(name=PaperName.A4_LETTER, title="A4 or US Letter", width=210.0, height=279.4),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """How a plane is cut into pages of one size.

    Attributes:
        margin: blank at each edge of a page; the rest is its window.
        overlap: how much of its neighbour each page repeats; 0 for butt joins.
        correction: what pages are enlarged by for one printer. They are planned in the
            millimetres that come out of it, so the window is that much smaller.
    """

    paper: Paper
    margin: Mm
    overlap: Mm
    correction: Correction = AS_DRAWN

    @property
    def window(self) -> Box:
        """The drawn part of a page, in the page's own frame and in true millimetres."""
        return Box(
            left=self.margin,
            bottom=self.margin,
            right=self.margin + (self.paper.width - 2 * self.margin) / self.correction.across,
            top=self.margin + (self.paper.height - 2 * self.margin) / self.correction.up,
        )

    @property
    def step_x(self) -> Mm:
        """From one page's window to the next one's, sideways."""
        return self.window.width - self.overlap

    @property
    def step_y(self) -> Mm:
        """From one page's window to the next one's, up."""
        return self.window.height - self.overlap


LEAST_WINDOW: Mm = 140.0
"""The test square and its words need this much of a page's width and height."""


def grid(
    name: PaperName,
    *,
    margin: Mm | None,
    overlap: Mm,
    correction: Correction = AS_DRAWN,
) -> Grid:
    """Return the grid of a paper; a margin of None is the paper's own.

    Raises:
        PaperError: margins and overlap leave too little of a page.
    """
    paper = PAPERS[name]
    kept = paper.margin if margin is None else margin
    found = Grid(paper=paper, margin=kept, overlap=overlap, correction=correction)
    if not found.step_x >= LEAST_WINDOW or not found.step_y >= LEAST_WINDOW:
        raise PaperError(
            f"margins of {kept:g} mm and an overlap of {overlap:g} mm leave"
            f" {max(found.step_x, 0):.0f} by {max(found.step_y, 0):.0f} mm of {paper.title};"
            f" at least {LEAST_WINDOW:g} mm is needed each way"
        )
    return found
