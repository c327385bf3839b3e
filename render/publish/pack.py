"""A pack for readers: patterns, booklets, lay plans, tables, pictures, the post, all in one zip.

The one function is ``publish``; the command line and Python call it alike. Imports the files
beside it, each of which makes one kind of thing.
"""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from pathlib import Path

from drafting.findings import Finding, by_weight
from drafting.grading import of_every_size
from drafting.language import in_its_language, say
from drafting.pattern import Pattern
from drafting.spec import Cloths, Spec
from render.files import check_free, safe_name, write_all
from render.output import Written, letters_replaced, paper_figures
from render.pages import grid_for
from render.pdf import pdf_bytes
from render.placement import Effort, Progress
from render.proof import page_count, proof
from render.publish.changes import change_note
from render.publish.editions import LastEdition, last_edition
from render.publish.figures_json import as_bytes, pack_figures
from render.publish.licence import licence_page
from render.publish.manifest import LIST, SUMS, sum_of, with_lists, zip_bytes
from render.publish.markdown import markdown
from render.publish.missing import missing, strays, unread
from render.publish.papers import (
    OnPaper,
    first_to_last,
    on_papers,
    pack_papers,
    paper_title,
    paper_use,
    sheets_of,
)
from render.publish.pictures import picture_files, shots, told_of
from render.publish.post import post
from render.publish.size_files import SizeFiles, files_of_sizes
from render.publish.spreadsheet import csv_bytes
from render.publish.tables import cloth_sheet, sizes_sheet
from render.publish.titles import endings, middle, pack_name, sizes_of
from render.publish.web import web_page


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """A pack that was written.

    Attributes:
        folder: where it lies; ``files`` are in it, the zip last.
        sizes: of each file in bytes.
        findings: what was noticed, in the draft and while the pack was made.
        zip_sum: SHA-256 of the zip, which no list in it can hold.
    """

    folder: Path
    files: tuple[Written, ...]
    sizes: dict[Path, int]
    findings: tuple[Finding, ...]
    zip_sum: str


def _silent(_: str) -> None:
    """Say nothing."""


@in_its_language
def publish(
    pattern: Pattern,
    folder: Path | None = None,
    *,
    last: Path | None = None,
    effort: Effort = Effort.USUAL,
    force: bool = False,
    progress: Progress = _silent,
) -> Pack:
    """Write a pack for readers, whole or not at all.

    Args:
        folder: where; None is a folder named for title and edition, in the current one.
        last: folder of the last edition; None looks for it beside this one.
        effort: how long to search for fewer pages and less cloth.
        force: write over files that exist already.
        progress: is told what is being done.

    Raises:
        PaperError: margins and overlap leave too little of a paper.
        ExistsError, OSError: a file exists, or cannot be written; the last edition's folder
            is not there.
    """
    ready = for_readers(pattern)
    into = Path(pack_name(ready.spec)) if folder is None else folder
    name = safe_name(ready.spec.title)
    papers = pack_papers(ready.spec)
    for paper in papers:
        grid_for(ready.spec.print, paper)
    zipped = f"{pack_name(ready.spec)}.zip"
    sure = (zipped, LIST, SUMS, f"{name}-figures.json", "post.md", "post.html", "licence.txt")
    check_free(tuple(into / file for file in sure), force=force)
    before = last_edition(ready.spec, into, last)
    layouts = on_papers(ready, papers, effort, progress)
    made = files_of_sizes(sizes_of(ready), effort, progress)
    progress("drawing pictures, writing the post")
    content = _content(ready, name, layouts, made, before)
    told = with_lists(content, ready.spec.title, ready.spec.publish.edition)
    progress("packing")
    told[zipped] = zip_bytes(told, pack_name(ready.spec))
    files = {into / file: data for file, data in told.items()}
    write_all(files, force=force)
    progress("reading back")
    return Pack(
        folder=into,
        files=tuple(_written(path) for path in files),
        sizes={path: len(data) for path, data in files.items()},
        findings=by_weight((*_findings(ready, layouts, made, before), *strays(into, told))),
        zip_sum=sum_of(told[zipped]),
    )


def for_readers(pattern: Pattern) -> Pattern:
    """Return a pattern without what is the maker's own on its sheet.

    A reader's printer is off by something else, and a reader has neither the maker's shop nor
    the cloth at the maker's hand.
    """
    return replace(
        pattern,
        spec=_for_readers(pattern.spec),
        sizes=tuple(for_readers(size) for size in pattern.sizes),
    )


def _for_readers(spec: Spec) -> Spec:
    cloths = {
        field.name: replace(getattr(spec.cloths, field.name), price=None, have=None)
        for field in fields(Cloths)
    }
    return replace(
        spec,
        cloths=Cloths(**cloths),
        print=replace(spec.print, measured=()),
        graded=tuple(_for_readers(size) for size in spec.graded),
    )


# --- what is in it -------------------------------------------------------------------------


def _content(
    pattern: Pattern,
    name: str,
    layouts: Sequence[OnPaper],
    made: Sequence[SizeFiles],
    before: LastEdition | None,
) -> dict[str, bytes]:
    """Return every file of the pack but its lists, by its name."""
    shops = [one.cloth.shopping for one in made]
    figures = pack_figures(pattern, made, {one.key: paper_figures(one.printed) for one in layouts})
    pictures = shots(pattern, made[middle(len(made))].cloth, name)
    files = {f"{name}-{one.key}.pdf": pdf_bytes(one.printed.document) for one in layouts}
    for ending, one in zip(endings(pattern), made, strict=True):
        files[f"{name}{ending}-booklet.pdf"] = one.booklet
        files[f"{name}{ending}-booklet.html"] = one.page
        files[f"{name}{ending}-lay.pdf"] = one.lay
    files.update(picture_files(pictures, pattern.spec.title))
    files["pictures.json"] = as_bytes({"pictures": told_of(pictures)})
    files[f"{name}-sizes.csv"] = csv_bytes(sizes_sheet(pattern))
    files[f"{name}-cloth.csv"] = csv_bytes(cloth_sheet(pattern, shops))
    files[f"{name}-figures.json"] = as_bytes(figures)
    files["licence.txt"] = licence_page(pattern.spec)
    if before is not None and before.figures is not None:
        note = change_note(pattern, json.loads(as_bytes(figures)), before)
        files["changes.md"] = markdown(note, {})
    sheets = sheets_of(layouts, name)
    scope = pattern.spec.print.scope
    inside = (
        *((one.file, f"{paper_title(one.paper)}: {paper_use(one.paper, scope)}") for one in sheets),
        *_of_sizes(name, endings(pattern)),
        *_of_all(name, pictures[0].png, changed="changes.md" in files),
    )
    text = post(pattern, made, sheets, pictures, inside)
    shown = {shot.picture.name: shot for shot in pictures}
    files["post.html"] = web_page(text, shown)
    files["post.md"] = markdown(text, {key: shot.png for key, shot in shown.items()})
    return files


def _of_sizes(name: str, ends: Sequence[str]) -> Iterator[tuple[str, str]]:
    words = {
        "booklet.pdf": say("the sewing booklet, to print"),
        "booklet.html": say("the sewing booklet, to read on a screen"),
        "lay.pdf": say("lay plans and what to buy"),
    }
    for kind, what in words.items():
        files = [f"{name}{end}-{kind}" for end in ends]
        one_each = say("{what}: one for each size", what=what)
        yield first_to_last(files), what if len(files) == 1 else one_each


def _of_all(name: str, cover: str, *, changed: bool) -> Iterator[tuple[str, str]]:
    yield f"{name}-sizes.csv", say("the size table, for a spreadsheet")
    yield f"{name}-cloth.csv", say("what to buy, for a spreadsheet")
    yield f"{name}-figures.json", say("every number of the draft, in millimetres")
    yield (
        cover,
        say("the cover; the other pictures begin likewise, and pictures.json describes them"),
    )
    yield "post.md, post.html", say("this text")
    yield "licence.txt", say("the terms")
    if changed:
        yield "changes.md", say("what changed since the last edition")
    yield f"{LIST}, {SUMS}", say("every file with its size and its sum")


# --- what is told of it --------------------------------------------------------------------


def _written(path: Path) -> Written:
    """Return a file with its pages, and its proof if it is one that is cut or laid by."""
    if path.suffix != ".pdf":
        return Written(path=path)
    back = path.read_bytes()
    if path.stem.endswith("-booklet"):
        return Written(path=path, pages=page_count(back))
    found = proof(back)
    return Written(path=path, pages=found.pages, proof=found)


def _findings(
    pattern: Pattern,
    layouts: Sequence[OnPaper],
    made: Sequence[SizeFiles],
    before: LastEdition | None,
) -> Iterator[Finding]:
    yield from pattern.findings
    found = [one.cloth.shopping.findings for one in made]
    names = [size.spec.wearer.size for size in pattern.sizes]
    yield from of_every_size(list(zip(names, found, strict=True)), ()) if names else found[0]
    yield from letters_replaced(c for one in layouts for c in one.printed.lacking)
    yield from missing(pattern.spec)
    if before is not None:
        yield from unread(before)
