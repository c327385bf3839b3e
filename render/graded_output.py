"""Writing a garment in several sizes: nested pages for all of them, and for each size its own lay
plans, booklet and figures.

Imports the renderers; ``render.output`` comes here for a graded pattern.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from os import cpu_count
from pathlib import Path
from typing import Any

from drafting.cloth.in_json import cloth_json, shopping_json
from drafting.figures import as_json
from drafting.findings import Finding, by_weight
from drafting.grading import of_every_size
from drafting.language import in_its_language
from drafting.pattern import Pattern
from drafting.spec import PaperName
from render.booklet.written import Books
from render.files import safe_name
from render.lay_pages import lay_document
from render.laying import Cloth, Laying
from render.pages import Printed, printings
from render.pdf import pdf_bytes
from render.placement import Effort, Progress


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeFiles:
    """What one size has of its own, by the ends of its files' names."""

    size: str
    cloth: Cloth | None
    files: dict[str, bytes]


def size_name(size: str) -> str:
    """Return a size's name as it stands in names of files: "p05"."""
    return safe_name(size)


def sized_names(
    pattern: Pattern,
    papers: Iterable[PaperName],
    *,
    lay: bool,
    booklet: bool,
    planes: Sequence[str] = (),
) -> list[str]:
    """Return the ends of the names of all files that are written of a graded pattern."""
    names = [size_name(size) for size in pattern.spec.publish.sizes]
    kinds = [("lay", "pdf")] * lay + [("booklet", "pdf"), ("booklet", "html")] * booklet
    return [
        *(
            f"{of}-{paper.value}.pdf"
            for paper in papers
            for of in ([f"-{n}" for n in names] if paper is PaperName.PROJECTOR else [""])
        ),
        *(f"-{name}-{kind}.{ending}" for name in names for kind, ending in kinds),
        *(f"-{name}.{ending}" for name in names for ending in planes),
        "-figures.json",
    ]


def paper_files(
    pattern: Pattern,
    papers: Iterable[PaperName],
    *,
    only: Sequence[str] = (),
    effort: Effort = Effort.USUAL,
    progress: Progress,
) -> dict[str, Printed]:
    """Return a graded pattern on its papers, by the ends of the files' names: "-a4.pdf"."""
    found = {}
    for paper in papers:
        progress(f"laying out {paper.value}")
        for size, one in printings(pattern, paper, only=only, effort=effort).items():
            of = f"-{size_name(size)}" if size else ""
            found[f"{of}-{paper.value}.pdf"] = one
    return found


def of_sizes(
    pattern: Pattern,
    *,
    wants_lay: bool,
    wants_booklet: bool,
    effort: Effort,
    progress: Progress,
) -> list[SizeFiles]:
    """Return the lay plans and booklets of every size, the smallest first.

    Cloths are laid side by side, as many as the machine has cores: each plan comes out of its
    pattern alone, so the files are the same however many there are.
    """
    with _laid(pattern, effort, wanted=wants_lay) as laid:
        return [
            _of_size(one, laid(one, progress), wants_booklet=wants_booklet, progress=progress)
            for one in pattern.sizes
        ]


_Laid = Callable[[Pattern, Progress], Cloth | None]


@contextmanager
def _laid(pattern: Pattern, effort: Effort, *, wanted: bool) -> Iterator[_Laid]:
    if not wanted:
        yield lambda one, progress: None
        return
    with ThreadPoolExecutor(max_workers=cpu_count() or 1) as pool:
        begun = {one.spec.wearer.size: Laying(one, effort, pool=pool) for one in pattern.sizes}
        yield lambda one, progress: begun[one.spec.wearer.size].made(progress)


@in_its_language
def _of_size(
    pattern: Pattern, cloth: Cloth | None, *, wants_booklet: bool, progress: Progress
) -> SizeFiles:
    size = pattern.spec.wearer.size
    files = {}
    if cloth is not None:
        document = lay_document(pattern, cloth.lays, cloth.shopping)
        files[f"-{size_name(size)}-lay.pdf"] = pdf_bytes(document)
    if wants_booklet:
        progress(f"writing the booklet of size {size}")
        books = Books(Path(), "x", wanted=True).written(pattern, cloth)
        files |= {f"-{size_name(size)}-booklet{path.suffix}": data for path, data in books.items()}
    return SizeFiles(size=size, cloth=cloth, files=files)


def sized_figures(
    pattern: Pattern, cloths: Mapping[str, Cloth], papers: Mapping[str, Any]
) -> dict[str, Any]:
    """Return the figures of every size as the contract has them: ``{"sizes": {…}, …}``.

    Args:
        cloths: lays and what to buy, by the names of the sizes that have them.
        papers: what lies where on each paper, beside the sizes.
    """
    sizes = {}
    for one in pattern.sizes:
        name = one.spec.wearer.size
        told = as_json(one.figures, one.findings)
        if name in cloths:
            shopping = cloths[name].shopping
            for cloth, of in cloth_json(shopping).items():
                told["cloth"][cloth] |= of
            findings = told.pop("findings")
            told |= shopping_json(shopping)
            told["findings"] = [
                *findings,
                *as_json(one.figures, by_weight(shopping.findings))["findings"],
            ]
        sizes[name] = told
    return {"sizes": sizes, **({"paper": papers} if papers else {})}


def figures_text(figures: Mapping[str, Any]) -> bytes:
    """Return figures as the bytes of their file."""
    return (json.dumps(figures, indent=2, ensure_ascii=False) + "\n").encode()


def laying_findings(made: Sequence[SizeFiles]) -> tuple[Finding, ...]:
    """Return what was found while the cloths were laid, each told once with its sizes."""
    found = tuple((one.size, one.cloth.shopping.findings) for one in made if one.cloth is not None)
    return of_every_size(found, ())
