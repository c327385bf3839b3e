"""Which papers a pack is printed on, and what a reader is told of each.

Imports the papers and the spec.
"""

from drafting.language import say
from drafting.spec import PaperName, Scope, Spec
from drafting.units import Units
from render.paper import HOME, PAPERS, ROLLS, SHEETS, paper_words


def pack_papers(spec: Spec) -> tuple[PaperName, ...]:
    """Return the papers of a pack: for both halves of the world, a copy shop and a projector.

    The copy shop's is A0 for a sheet in centimetres: shops everywhere know it by its name, price
    it by the sheet, and print it on a roll of any usual width; for a sheet in inches it is the
    roll of 36 in, which is what shops there print large drawings on. What the sheet names
    besides is added.
    """
    if spec.print.scope is Scope.CARD:
        wanted: tuple[PaperName, ...] = (PaperName.A4, PaperName.LETTER)
        return tuple(
            dict.fromkeys((*wanted, *(name for name in spec.print.papers if name in HOME)))
        )
    shop = PaperName.ROLL_36IN if spec.units is Units.INCH else PaperName.A0
    wanted = (PaperName.A4, PaperName.LETTER, shop, PaperName.PROJECTOR)
    return tuple(dict.fromkeys((*wanted, *spec.print.papers)))


def paper_title(paper: PaperName) -> str:
    """Return what a paper is called."""
    return paper_words(PAPERS[paper])


def paper_use(paper: PaperName) -> str:
    """Return what a file for a paper is for."""
    if paper is PaperName.PROJECTOR:
        return say("shown on the cutting table, nothing is printed")
    if paper in SHEETS:
        return say("at a copy shop, by the sheet")
    if paper in ROLLS:
        return say("at a copy shop, from the roll")
    return say("at home, the pages taped together")
