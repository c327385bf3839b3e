"""Which papers a pack is printed on, its pages on them, and what a reader is told of each.

Imports the pages, the papers and the spec.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.language import say
from drafting.pattern import Pattern
from drafting.spec import PaperName, Scope, Spec
from drafting.units import Units
from render.pages import Printed, printings
from render.paper import HOME, PAPERS, ROLLS, SHEETS, paper_words
from render.placement import Effort, Progress
from render.publish.titles import endings, sizes_of


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPaper:
    """A pattern on one paper; under a projector every size has pages of its own.

    Attributes:
        key: how its file's name ends, and what its figures go by: "a4", "p05-projector".
    """

    paper: PaperName
    key: str
    printed: Printed


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """What is told of a paper.

    Attributes:
        file: its file, or the first and the last where each size has its own.
        pages: how many pages it has; the fewest and the most where sizes differ.
    """

    paper: PaperName
    file: str
    pages: str


def on_papers(
    pattern: Pattern, papers: Sequence[PaperName], effort: Effort, progress: Progress
) -> tuple[OnPaper, ...]:
    """Return a pattern on each of some papers."""
    ends = dict(
        zip((one.spec.wearer.size for one in sizes_of(pattern)), endings(pattern), strict=True)
    )
    made = []
    for paper in papers:
        doing = f"laying out {paper.value}"
        progress(doing)

        def found(words: str, doing: str = doing) -> None:
            progress(f"{doing}, {words}")

        for size, printed in printings(pattern, paper, effort=effort, progress=found).items():
            key = f"{ends[size] if size else ''}-{paper.value}".removeprefix("-")
            made.append(OnPaper(paper=paper, key=key, printed=printed))
    return tuple(made)


def sheets_of(made: Sequence[OnPaper], name: str) -> tuple[Sheets, ...]:
    """Return what is told of each paper.

    Args:
        name: what the names of the files begin with.
    """
    told = []
    for paper in dict.fromkeys(one.paper for one in made):
        mine = [one for one in made if one.paper is paper]
        counts = [len(one.printed.document.pages) for one in mine]
        few, many = min(counts), max(counts)
        told.append(
            Sheets(
                paper=paper,
                file=first_to_last([f"{name}-{one.key}.pdf" for one in mine]),
                pages=f"{few}" if few == many else f"{few}–{many}",
            )
        )
    return tuple(told)


def first_to_last(files: Sequence[str]) -> str:
    """Return the name of a file, or of the first and the last of several that are named alike."""
    return files[0] if len(files) == 1 else f"{files[0]} … {files[-1]}"


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


def paper_use(paper: PaperName, scope: Scope = Scope.WHOLE) -> str:
    """Return what a file for a paper is for."""
    if scope is Scope.CARD:
        return say("one page of figures, for tape and chalk")
    if paper is PaperName.PROJECTOR:
        return say("shown on the cutting table, nothing is printed")
    if paper in SHEETS:
        return say("at a copy shop, by the sheet")
    if paper in ROLLS:
        return say("at a copy shop, from the roll")
    return say("at home, the pages taped together")
