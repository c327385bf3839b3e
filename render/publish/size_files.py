"""What each size of a pack has for itself: its lay plans, its booklet, what to buy for it.

Figures stand in a booklet's sentences, so every size has its own. Several sizes are made at once,
in processes of their own. Imports the lay, the booklet and, where it is used, joblib.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drafting.effort import Effort
from drafting.language import in_its_language
from drafting.pattern import Pattern
from render.booklet import model
from render.lay_pages import lay_document
from render.laying import Cloth, Laying
from render.pdf import pdf_bytes
from render.placement import Progress

AT_ONCE_FROM = 3
"""Fewer sizes are done sooner than other processes have started."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeFiles:
    """The files of one size as bytes, and what the post tells of it.

    Attributes:
        cloth: lay plans and what to buy.
        lay: pages of the plans; ``lay_pages`` is their number.
        booklet, page: the sewing booklet as PDF and as a page for a browser.
        times: the booklet's section on how long the work takes and how hard it is.
    """

    cloth: Cloth
    lay: bytes
    lay_pages: int
    booklet: bytes
    page: bytes
    times: model.Section | None


def files_of_sizes(
    sizes: Sequence[Pattern], effort: Effort, progress: Progress
) -> tuple[SizeFiles, ...]:
    """Return the files of every size, in the order of the sizes.

    Args:
        effort: how long to search for less cloth.
        progress: is told how many are done.
    """
    made: list[SizeFiles] = []
    for one in _made(sizes, effort):
        made.append(one)
        progress(f"lay plans and booklets, {len(made)} of {len(sizes)}")
    return tuple(made)


def _made(sizes: Sequence[Pattern], effort: Effort) -> Iterator[SizeFiles]:
    if len(sizes) < AT_ONCE_FROM:
        yield from (files_of(size, effort) for size in sizes)
        return
    from joblib import Parallel, delayed

    yield from Parallel(n_jobs=-1, return_as="generator")(
        delayed(files_of)(size, effort) for size in sizes
    )


@in_its_language
def files_of(size: Pattern, effort: Effort) -> SizeFiles:
    """Return the files of one size."""
    from render.booklet.compose import booklet
    from render.booklet.html import booklet_html
    from render.booklet.pdf import booklet_pdf

    cloth = Laying(size, effort).made(lambda _: None)
    plans = lay_document(size, cloth.lays, cloth.shopping)
    composed = booklet(size, cloth, working=size.spec.publish.working)
    return SizeFiles(
        cloth=cloth,
        lay=pdf_bytes(plans),
        lay_pages=len(plans.pages),
        booklet=booklet_pdf(composed),
        page=booklet_html(composed),
        times=next((part for part in composed.sections if part.name == "times"), None),
    )
