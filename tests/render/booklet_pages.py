"""What stands where in a booklet's PDF: its steps, its pictures, what is left free.

Read back with programs that did not write it. Pages are numbered from 1; a spread is an even page
and the odd one after it, as they lie open in the fold.
"""

import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import pikepdf
import pypdf
import pypdfium2

from render.booklet.model import Booklet, Section, Step, Steps
from tests.render.booklet_words import squeezed

MM = 72 / 25.4
TOP, FOOT = 198.0, 18.0
"""Where the text begins and ends, in millimetres from the paper's lower edge."""


def spread(page: int) -> int:
    """Return which spread a page belongs to."""
    return page // 2


def steps_of(booklet: Booklet) -> Iterator[Step]:
    """Yield every step in order."""

    def walked(section: Section) -> Iterator[Step]:
        for block in section.blocks:
            if isinstance(block, Section):
                yield from walked(block)
            elif isinstance(block, Steps):
                yield from block.steps

    for section in booklet.sections:
        yield from walked(section)


@cache
def read_pages(data: bytes) -> tuple[str, ...]:
    """Return the words of every page, white space squeezed."""
    pages = pypdf.PdfReader(io.BytesIO(data)).pages
    return tuple(squeezed(page.extract_text()) for page in pages)


def free(data: bytes) -> list[float]:
    """Return how much of every page is empty below its last line, from 0 to 1."""
    found = []
    for page in pypdfium2.PdfDocument(data):
        feet = [shape.get_bounds()[1] / MM for shape in page.get_objects()]
        lowest = min((y for y in feet if y > FOOT - 2.5), default=TOP)
        found.append(max(0.0, (lowest - FOOT) / (TOP - FOOT)))
    return found


@cache
def picture_pages(data: bytes) -> Mapping[str, int]:
    """Return the page of each picture by what is told of it."""
    found = {}
    with pikepdf.open(io.BytesIO(data)) as file:
        for number, page in enumerate(file.pages, 1):
            for done in pikepdf.parse_content_stream(page):
                if str(done.operator) == "BDC":
                    found[str(done.operands[1]["/Alt"])] = number
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """Where a step came to stand: pages of its title, of its last words before the check, of the
    check's first words."""

    step: Step
    title: int
    last: int
    check: int


def stood(booklet: Booklet, data: bytes) -> list[Stood]:
    """Return where each step stands."""
    read = read_pages(data)
    titles = _titles(data)
    found = []
    for step in steps_of(booklet):
        title = titles[step.title]
        said = (step.do + step.cautions)[-1]
        found.append(
            Stood(
                step=step,
                title=title,
                last=_page(read, squeezed(said).split(" ")[-7:], title),
                check=_page(read, squeezed("Check " + step.check).split(" ")[:5], title),
            )
        )
    return found


@cache
def _titles(data: bytes) -> Mapping[str, int]:
    """Return the page of each step by its title, as the outline leads to it."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    found: dict[str, int] = {}

    def walk(lines: list[object]) -> None:
        for line in lines:
            if isinstance(line, list):
                walk(line)
            elif isinstance(line, pypdf.generic.Destination):
                number, _, words = str(line.title).partition("  ")
                page = reader.get_destination_page_number(line)
                if number.isdigit() and page is not None:
                    found[words] = page + 1

    walk(list(reader.outline))
    return found


def _page(read: Sequence[str], words: list[str], first: int) -> int:
    """Return the first page from ``first`` on that has these words one after the other."""
    told = " ".join(words)
    return next(k for k in range(first, len(read) + 1) if told in read[k - 1])


def far_pictures(booklet: Booklet, data: bytes) -> list[tuple[str, int, int]]:
    """Return pictures that lie on no spread of their step: name, its page, the title's page."""
    lies = picture_pages(data)
    return [
        (picture.name, lies[picture.alt], one.title)
        for one in stood(booklet, data)
        for picture in one.step.pictures
        if not spread(one.title) <= spread(lies[picture.alt]) <= spread(one.check)
    ]
