"""Writing what a person needs to sew: a folder of files for one drafted garment.

Imports the renderers; the command line and Python call the same function.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path
from typing import Any

from drafting.findings import Finding, Level, by_weight
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.printer import Correction
from drafting.spec import PaperName, Scope
from render import fonts
from render.booklet.written import Books
from render.chosen import CardError, on_paper
from render.correction import printer_findings
from render.dxf import LOST, dxf_bytes, lost
from render.figures_file import figures_bytes, has_lay, held, tells_of, without_lay
from render.files import check_free, safe_name, write_all
from render.fonts import REPLACEMENT
from render.graded_output import (
    figures_text,
    laying_findings,
    of_sizes,
    paper_files,
    size_name,
    sized_figures,
    sized_names,
)
from render.lay_pages import lay_document
from render.laying import Cloth, Laying, lay_svg
from render.pages import Printed, grid_for, printed
from render.paper import ROLLS, PaperError, grid, paper_metres
from render.parts import Plane, laid_out
from render.pdf import pdf_bytes
from render.placement import Effort, Progress
from render.proof import Proof, page_count, proof
from render.svg import svg_bytes
from render.trial import trial_page
from render.words import made_for


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One file that was written; PDFs come with their pages and their proof."""

    path: Path
    pages: int = 0
    proof: Proof | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """Everything that was written, what was noticed meanwhile, and the lays if they were made.

    Attributes:
        cloths: of a graded pattern, the lays by the names of their sizes.
    """

    files: tuple[Written, ...]
    findings: tuple[Finding, ...]
    cloth: Cloth | None = None
    cloths: Mapping[str, Cloth] = field(default_factory=dict)


class Extra(StrEnum):
    """What a draft writes beside its pages and its figures, unless it is told not to."""

    LAY = "lay"
    BOOKLET = "booklet"


EFFORTS = (Effort.THOROUGH, Effort.USUAL, Effort.QUICK)
"""How a plan in the folder may have been found, the likeliest first: ``lay`` is thorough."""


def _silent(_: str) -> None:
    """Say nothing."""


@in_its_language
def write_draft(
    pattern: Pattern,
    folder: Path | None = None,
    *,
    papers: tuple[PaperName, ...] = (),
    only: tuple[str, ...] = (),
    without: tuple[Extra, ...] = (),
    effort: Effort = Effort.USUAL,
    svg: bool = False,
    dxf: bool = False,
    force: bool = False,
    progress: Progress = _silent,
) -> Output:
    """Write a pattern's pages, lay plans, booklet and figures, whole or not at all.

    Figures of the very same draft on other papers, already in the folder, are added to.

    Args:
        folder: where; None is a folder named for the title, in the current one.
        papers: papers to print on instead of the sheet's.
        only: names or numbers of the pieces to print; the files are then named for them, and
            neither lay nor booklet is made.
        without: what is left out of the folder.
        effort: how long to search for fewer pages.
        svg: write the pieces on one plane as SVG too, for plotters.
        dxf: write them as DXF too, for cutting tables.
        force: write over files that exist already.
        progress: is told what is being done.

    Raises:
        PaperError: margins and overlap leave too little of a paper.
        PieceWishError: a piece asked for cannot be printed.
        ExistsError, OSError: a file exists, or cannot be written.
    """
    if pattern.sizes:
        return _write_sizes(
            pattern,
            folder,
            papers=tuple(dict.fromkeys(papers or pattern.spec.print.papers)),
            only=only,
            without=(*without, *(Extra if only else ())),
            effort=effort,
            planes=tuple(
                (ending, write)
                for ending, write, wanted in (("svg", svg_bytes, svg), ("dxf", dxf_bytes, dxf))
                if wanted
            ),
            force=force,
            progress=progress,
        )
    title = pattern.spec.title
    into = Path(safe_name(title)) if folder is None else folder
    chosen = (piece.name for piece in on_paper(pattern, only)) if only else ()
    name = safe_name(" ".join((title, *chosen)))
    wanted = tuple(dict.fromkeys(papers or pattern.spec.print.papers))
    targets = {paper: into / f"{name}-{paper.value}.pdf" for paper in wanted}
    figures = into / f"{name}-figures.json"
    writers = {
        into / f"{name}.{ending}": write
        for ending, write, is_wanted in (("svg", svg_bytes, svg), ("dxf", dxf_bytes, dxf))
        if is_wanted
    }
    wish = pattern.spec.print
    is_card = wish.scope is Scope.CARD
    if writers and is_card:
        raise CardError
    for paper in wanted:
        grid_for(wish, paper)
    before = held(figures, pattern)
    plan = into / f"{name}-lay.pdf"
    # A lay of the very same draft stays; it may have been searched for longer than this one.
    kept_lay = not force and has_lay(before) and plan.exists()
    grows = () if before is None else (figures,)
    wants_lay = not (only or kept_lay or Extra.LAY in without)
    books = Books(into, name, wanted=not (only or Extra.BOOKLET in without))
    if before is not None and not force:
        books = books.kept(pattern.spec.publish.language)
    taken = (
        *targets.values(), *writers, figures, *((plan,) if wants_lay else ()), *books.files,
    )  # fmt: skip
    check_free(tuple(path for path in taken if path not in grows), force=force)
    looks = wants_lay or (books.wanted and Extra.LAY not in without)
    efforts = EFFORTS if kept_lay else (effort,)
    lays = Laying(pattern, efforts[0]) if looks else None
    files: dict[Path, bytes] = {}
    layouts: dict[PaperName, Printed] = {}
    for paper, path in targets.items():
        doing = f"laying out {paper.value}"
        progress(doing)

        def found(words: str, doing: str = doing) -> None:
            progress(f"{doing}, {words}")

        layouts[paper] = printed(pattern, paper, only=only, effort=effort, progress=found)
        progress(f"drawing {paper.value}")
        files[path] = pdf_bytes(layouts[paper].document)
    found_cloth = lays.made(progress) if lays else None
    if kept_lay and found_cloth is not None:
        found_cloth = _as_kept(pattern, before, found_cloth, progress)
    cloth = found_cloth if wants_lay else None
    if books.wanted:
        progress("writing the booklet")
        files.update(books.written(pattern, found_cloth))
    if cloth is not None:
        progress("drawing the lay plans")
        document = lay_document(pattern, cloth.lays, cloth.shopping)
        files[plan] = pdf_bytes(document)
        # Pictures of the plan that this one takes the place of would tell of another.
        for lay in cloth.lays:
            picture = into / f"{name}-lay-{lay.name}.svg"
            if lay.laid and picture.exists():
                files[picture] = lay_svg(lay, pattern)
    findings = (
        *pattern.findings,
        *(cloth.shopping.findings if cloth else ()),
        *printer_findings(() if is_card else wish.measured, wanted),
        *letters_replaced(c for layout in layouts.values() for c in layout.lacking),
    )
    if writers:
        progress("drawing the pieces on one plane")
        plane = laid_out(pattern, only)
        files.update((path, write(plane)) for path, write in writers.items())
        findings += _lost(plane) if dxf else ()
    files[figures] = figures_bytes(
        pattern,
        by_weight(findings),
        papers={
            **_kept_papers(before, into, name),
            **{paper.value: paper_figures(layout) for paper, layout in layouts.items()},
        },
        shopping=cloth.shopping if cloth else None,
        before=before if kept_lay or cloth is not None else without_lay(before),
        printed=True,
    )
    write_all(files, force=force, growing=grows)
    progress("reading back")
    written = [
        Written(
            path=path,
            pages=len(layouts[paper].document.pages),
            proof=proof(path.read_bytes()),
        )
        for paper, path in targets.items()
    ]
    if cloth is not None:
        written.append(
            Written(path=plan, pages=len(document.pages), proof=proof(plan.read_bytes()))
        )
    written += [Written(path=path, pages=page_count(files[path])) for path in books.files]
    plain = [Written(path=path) for path in (*writers, figures)]
    return Output(files=(*written, *plain), findings=findings, cloth=cloth)


def _write_sizes(
    pattern: Pattern,
    folder: Path | None,
    *,
    papers: tuple[PaperName, ...],
    only: tuple[str, ...] = (),
    without: tuple[Extra, ...],
    effort: Effort,
    planes: tuple[tuple[str, Callable[[Plane], bytes]], ...] = (),
    force: bool,
    progress: Progress,
) -> Output:
    """Write a graded pattern: nested pages, and for each size its lay plans and its booklet."""
    title = pattern.spec.title
    into = Path(safe_name(title)) if folder is None else folder
    chosen = (piece.name for piece in on_paper(pattern, only)) if only else ()
    begin = safe_name(" ".join((title, *chosen)))
    wants_lay, wants_booklet = Extra.LAY not in without, Extra.BOOKLET not in without
    for paper in papers:
        grid_for(pattern.spec.print, paper)
    names = sized_names(
        pattern,
        papers,
        lay=wants_lay,
        booklet=wants_booklet,
        planes=tuple(ending for ending, _ in planes),
    )
    check_free(tuple(into / f"{begin}{name}" for name in names), force=force)
    printed_on = paper_files(pattern, papers, only=only, effort=effort, progress=progress)
    made = of_sizes(
        pattern,
        wants_lay=wants_lay,
        wants_booklet=wants_booklet,
        effort=effort,
        progress=progress,
    )
    files = {end: pdf_bytes(one.document) for end, one in printed_on.items()}
    for one in made:
        files |= one.files
    for each in pattern.sizes if planes else ():
        plane = laid_out(each, only)
        of = size_name(each.spec.wearer.size)
        files |= {f"-{of}.{ending}": write(plane) for ending, write in planes}
    told = {
        end.removeprefix("-").removesuffix(".pdf"): paper_figures(one)
        for end, one in printed_on.items()
    }
    cloths = {one.size: one.cloth for one in made if one.cloth is not None}
    files["-figures.json"] = figures_text(sized_figures(pattern, cloths, told))
    write_all({into / f"{begin}{end}": data for end, data in files.items()}, force=force)
    progress("reading back")
    findings = (
        *pattern.findings,
        *laying_findings(made),
        *printer_findings(pattern.spec.print.measured, papers),
        *letters_replaced(c for one in printed_on.values() for c in one.lacking),
    )
    return Output(
        files=tuple(_read_back(into / f"{begin}{end}", data) for end, data in files.items()),
        findings=by_weight(findings),
        cloths=cloths,
    )


def _read_back(path: Path, data: bytes) -> Written:
    """Return a file that was written, with its pages; those at true size come with a proof."""
    if path.suffix != ".pdf":
        return Written(path=path)
    proven = None if path.stem.endswith("-booklet") else proof(data)
    return Written(path=path, pages=page_count(data), proof=proven)


@in_its_language
def write_lay(
    pattern: Pattern,
    folder: Path | None = None,
    *,
    effort: Effort = Effort.THOROUGH,
    force: bool = False,
    progress: Progress = _silent,
) -> Output:
    """Write lay plans and what to buy: pages, a picture of each cloth, and the figures.

    Args:
        folder: where; None is a folder named for the title, in the current one.
        effort: how long to search for less cloth.
        force: write over files that exist already.
        progress: is told what is being done.

    Raises:
        ExistsError, OSError: a file exists, or cannot be written.
    """
    if pattern.sizes:
        return _write_sizes(
            pattern,
            folder,
            papers=(),
            without=(Extra.BOOKLET,),
            effort=effort,
            force=force,
            progress=progress,
        )
    title = pattern.spec.title
    into = Path(safe_name(title)) if folder is None else folder
    name = safe_name(title)
    figures, plan = into / f"{name}-figures.json", into / f"{name}-lay.pdf"
    pictures = {cloth: into / f"{name}-lay-{cloth}.svg" for cloth in pattern.figures.cloth}
    before = held(figures, pattern)
    grows = () if before is None else (figures,)
    check_free((plan, *pictures.values(), *(() if grows else (figures,))), force=force)
    cloth = Laying(pattern, effort).made(progress)
    progress("drawing the lay plans")
    document = lay_document(pattern, cloth.lays, cloth.shopping)
    letters = fonts.lacking(" ".join((title, made_for(pattern.spec), pattern.spec.publish.maker)))
    findings = by_weight((*pattern.findings, *cloth.shopping.findings, *letters_replaced(letters)))
    files = {plan: pdf_bytes(document)}
    drawn = {pictures[lay.name]: lay_svg(lay, pattern) for lay in cloth.lays if lay.laid}
    files.update(drawn)
    files[figures] = figures_bytes(
        pattern,
        findings,
        papers=_kept_papers(before, into, name),
        shopping=cloth.shopping,
        before=before,
        printed=False,
    )
    write_all(files, force=force, growing=grows)
    progress("reading back")
    written = Written(path=plan, pages=len(document.pages), proof=proof(plan.read_bytes()))
    rest = tuple(Written(path=path) for path in (*drawn, figures))
    return Output(files=(written, *rest), findings=findings, cloth=cloth)


def _as_kept(
    pattern: Pattern, before: dict[str, Any] | None, first: Cloth, progress: Progress
) -> Cloth:
    """Return the plans that are in the folder already, found again, for a booklet to tell of.

    How long they were searched for is not written down, so each effort is tried.

    Args:
        before: what the figures tell of them.
        first: what the first of ``EFFORTS`` came to; returned where none comes to the same.
    """
    cloth = first
    for effort in EFFORTS[1:]:
        if tells_of(before, cloth.shopping):
            return cloth
        cloth = Laying(pattern, effort).made(progress)
    return cloth if tells_of(before, cloth.shopping) else first


def _kept_papers(before: dict[str, Any] | None, into: Path, name: str) -> dict[str, Any]:
    """Return the papers that the figures told of before, and whose files are still there."""
    papers = (before or {}).get("paper")
    if not isinstance(papers, dict):
        return {}
    return {
        paper: told for paper, told in papers.items() if (into / f"{name}-{paper}.pdf").exists()
    }


def write_trial(
    papers: tuple[PaperName, ...], folder: Path, *, force: bool = False
) -> tuple[Written, ...]:
    """Write a page for each paper that tries a printer, with the paper's own margin.

    Raises:
        PaperError: a roll or a projector has no one page to try.
        ExistsError, OSError: a file exists, or cannot be written.
    """
    for paper in papers:
        if paper is PaperName.PROJECTOR:
            raise PaperError(
                "a projector needs no trial page: the first page of every file for it calibrates it"
            )
        if paper in ROLLS:
            raise PaperError(
                f"{paper.value} has no trial page: every roll has its own check lines and test"
                " square, to be measured before you pay"
            )
    found = {
        folder / f"trial-{paper.value}.pdf": trial_page(grid(paper, margin=None, overlap=10.0))
        for paper in dict.fromkeys(papers)
    }
    write_all({path: pdf_bytes(page) for path, page in found.items()}, force=force)
    return tuple(
        Written(path=path, pages=len(page.pages), proof=proof(path.read_bytes()))
        for path, page in found.items()
    )


def letters_replaced(lacking: Iterable[str]) -> tuple[Finding, ...]:
    """Return a caution about letters that the typeface lacks, if there are any."""
    letters = dict.fromkeys(lacking)
    if not letters:
        return ()
    named = _named(letters)
    return (
        Finding(
            level=Level.CAUTION,
            code="letters-replaced",
            what=say(
                "The typeface has no sign for {letters}; each is printed as {sign}.",
                letters=named,
                sign=REPLACEMENT,
            ),
            do=say("Write the title and the labels with other letters if that matters."),
        ),
    )


def _lost(plane: Plane) -> tuple[Finding, ...]:
    """Return a caution about letters that the DXF could not spell, if there are any."""
    letters = lost(plane)
    if not letters:
        return ()
    return (
        Finding(
            level=Level.CAUTION,
            code="letters-lost-in-dxf",
            what=say(
                "A DXF has plain letters only: {letters} became {sign} in it.",
                letters=_named(letters),
                sign=LOST,
            ),
            do=say("Write the title and the labels with Latin letters if that matters."),
        ),
    )


def _named(letters: Iterable[str]) -> str:
    """Return letters one by one, with their numbers."""
    return ", ".join(f"{c if c.isprintable() else ' '} (U+{ord(c):04X})" for c in letters)


def paper_figures(layout: Printed) -> dict[str, Any]:
    """Return where pages and pieces lie on the assembled plane: millimetres and degrees."""
    sheets = layout.sheets
    pages = layout.document.pages
    labels = {page.label: number for number, page in enumerate(pages, start=1)}
    # For a projector the whole plane is one page, the one after the page to calibrate by.
    at = {tile.name: labels.get(tile.name, 2) for tile in sheets.tiles}
    # Large sheets have a foot under their window, and pages for a projector sizes of their own.
    shown = pages[at[sheets.tiles[0].name] - 1] if sheets.tiles else pages[0]
    window = shown.window
    roll = (
        {"metres": paper_metres(page.height for page in pages)}
        if sheets.grid.paper.name in ROLLS
        else {}
    )
    return {
        "pages": len(pages),
        "pieces_pages": len(sheets.tiles),
        "lower_bound": sheets.lower_bound,
        "page": [shown.width, shown.height],
        **roll,
        "window": [window.left, window.bottom, round(window.width, 3), round(window.height, 3)],
        "overlap": sheets.grid.overlap,
        **_enlarged(sheets.grid.correction),
        "tiles": [
            {
                "page": at[tile.name],
                "name": tile.name,
                "row": tile.row,
                "column": tile.column,
                "x": round(tile.window.left, 3),
                "y": round(tile.window.bottom, 3),
            }
            for tile in sheets.tiles
        ],
        "pieces": [
            {
                "piece": placement.piece.name,
                "x": round(placement.x, 3),
                "y": round(placement.y, 3),
                "turn": round(math.degrees(placement.turn), 6),
                "half": placement.piece.half,
            }
            for placement in sheets.placements
        ],
    }


def _enlarged(correction: Correction) -> dict[str, Any]:
    """Return what pages are enlarged by in the file, for one printer; nothing if they are not."""
    if not correction.needed:
        return {}
    return {"correction": [round(correction.across, 6), round(correction.up, 6)]}
