"""Papers, and the grid of pages that a plane is cut into.

Millimetres. ISO 216 and the North American sizes. Imports the spec's words, printer, errors and
the language.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from drafting.errors import DraftingError
from drafting.geometry import Box
from drafting.language import said_later, say
from drafting.printer import AS_DRAWN, Correction
from drafting.spec import PaperName
from drafting.units import Mm


class PaperError(DraftingError):
    """Margins or overlap leave no room on a paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, upright.

    Attributes:
        title: as printers name it, in English; ``paper_words`` says it.
        margin: what most home printers leave blank at each edge.
    """

    name: PaperName
    title: str
    width: Mm
    height: Mm
    margin: Mm = 10.0


def _roll(name: PaperName, title: str, width: Mm, usable: Mm) -> Paper:
    """Return a roll, as long as one page of a file may be."""
    margin = (width - usable) / 2
    return Paper(name=name, title=title, width=width, height=LONGEST, margin=margin)


LONGEST: Mm = 14_400 * 25.4 / 72
"""A PDF page is at most 14 400 points long and wide: 5.08 m. Source: ISO 32000-1, annex C."""

# Letter, Legal and Tabloid printers feed from trays whose trailing edge loses half an inch.
PAPERS = {
    paper.name: paper
    for paper in (
        Paper(name=PaperName.A4, title="A4", width=210.0, height=297.0),
        Paper(
            name=PaperName.LETTER,
            title=said_later("US Letter"),
            width=215.9,
            height=279.4,
            margin=12.7,
        ),
        Paper(name=PaperName.A3, title="A3", width=297.0, height=420.0),
        Paper(name=PaperName.TABLOID, title="Tabloid", width=279.4, height=431.8, margin=12.7),
        Paper(
            name=PaperName.LEGAL,
            title=said_later("US Legal"),
            width=215.9,
            height=355.6,
            margin=12.7,
        ),
        # The largest page that lies inside both; it prints on either without scaling.
        Paper(
            name=PaperName.A4_LETTER, title=said_later("A4 or US Letter"), width=210.0, height=279.4
        ),
        Paper(name=PaperName.A0, title="A0", width=841.0, height=1189.0),
        Paper(name=PaperName.A1, title="A1", width=594.0, height=841.0),
        # Plotters leave 5 to 17 mm blank along a roll: 820 of 841 and 890 of 914 are drawn on.
        _roll(PaperName.ROLL_841, said_later("roll 841 mm wide"), 841.0, 820.0),
        _roll(PaperName.ROLL_914, said_later("roll 914 mm wide"), 914.0, 890.0),
        _roll(PaperName.ROLL_36IN, said_later("roll 36 in wide"), 914.4, 890.0),
        Paper(
            name=PaperName.PROJECTOR,
            title=said_later("projector"),
            width=LONGEST,
            height=LONGEST,
            margin=60.0,
        ),
    )
}

SHEETS = (PaperName.A0, PaperName.A1)
ROLLS = (PaperName.ROLL_841, PaperName.ROLL_914, PaperName.ROLL_36IN)
HOME = tuple(name for name in PAPERS if name not in (*SHEETS, *ROLLS, PaperName.PROJECTOR))
"""Papers that are cut into pages as small as a home printer takes."""


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
            f" at least {LEAST_WINDOW:g} mm is needed each way. Write narrower ones under [print],"
            " or take a larger paper."
        )
    return found


def paper_words(paper: Paper) -> str:
    """Return what a paper is called in the language spoken."""
    return say(paper.title)


def paper_metres(lengths: Iterable[Mm]) -> float:
    """Return how many metres of a roll pages of these lengths take, rounded up to a decimetre."""
    return math.ceil(math.fsum(lengths) / 100 - 1e-6) / 10
