"""The text for a post, as values that its page and its Markdown are both written from.

What it is, sizes, cloth, time, paper, how to print, what is in the pack, terms, cautions. In the
language of the sheet, lengths in both units. Imports the pack's tables and the booklet's values.
"""

from collections.abc import Iterator, Mapping, Sequence

from drafting.cautions import cautions
from drafting.language import in_its_language, say, say_counted
from drafting.pattern import Pattern
from drafting.spec import PaperName, Scope
from render.booklet.model import Block, Booklet, Bullets, Cautions, Paragraph, Section, Table
from render.lay_pages import washing
from render.paper import HOME
from render.publish.described import short, told
from render.publish.licence import licence, terms
from render.publish.papers import Sheets, paper_title, paper_use
from render.publish.pictures import Shot
from render.publish.size_files import SizeFiles
from render.publish.tables import (
    body_columns,
    cloth_table,
    finished_columns,
    notions_table,
    seam_columns,
    size_table,
)
from render.publish.titles import all_sizes, middle, middle_of, size_words, sizes_of
from render.words import edition_words


@in_its_language
def post(
    pattern: Pattern,
    made: Sequence[SizeFiles],
    sheets: Sequence[Sheets],
    shots: Sequence[Shot],
    files: Sequence[tuple[str, str]],
) -> Booklet:
    """Return the text of a post on a pattern.

    Args:
        made: what every size has for itself.
        sheets: the files to print.
        shots: pictures that lie beside the post.
        files: what is in the pack: names of files, and what each is.
    """
    shown = {shot.picture.name: shot for shot in shots}
    publish = pattern.spec.publish
    facts = (
        all_sizes(pattern) if pattern.sizes else "",
        edition_words(pattern.spec),
        say("by {maker}", maker=publish.maker) if publish.maker else "",
        say("licence: {licence}", licence=publish.licence) if publish.licence else "",
    )
    sections = (
        _what(pattern, shown),
        _sizes(pattern),
        _cloth(pattern, made, shown),
        _time(pattern, made),
        _printing(pattern, sheets),
        _inside(files),
        _terms(pattern),
        _care(pattern),
        _answering(pattern),
    )
    return Booklet(
        title=pattern.spec.title,
        subtitle=short(middle_of(pattern)),
        facts=tuple(fact for fact in facts if fact),
        cover=shown["cover"].picture,
        language=publish.language,
        author=publish.maker,
        subject=say("A sewing pattern to print at true size"),
        sections=tuple(section for section in sections if section is not None),
    )


def _what(pattern: Pattern, shown: Mapping[str, Shot]) -> Section:
    sizes = sizes_of(pattern)
    blocks: list[Block] = [
        Paragraph(
            words=say_counted(
                "A sewing pattern to print at true size, in {count} size, with lay plans and a"
                " booklet that takes you through the sewing step by step.",
                "A sewing pattern to print at true size, in {count} sizes, with lay plans and a"
                " booklet for each that takes you through the sewing step by step.",
                len(sizes),
            )
        )
    ]
    words = told(middle_of(pattern))
    if pattern.sizes:
        size = size_words(pattern, middle_of(pattern))
        words = (*words, say("Numbers in this list are those of size {size}.", size=size))
    blocks.append(Bullets(items=words))
    blocks += _pictures(shown, "front-and-back", "pieces")
    return Section(name="what", title=say("What it is"), blocks=tuple(blocks))


def _pictures(shown: Mapping[str, Shot], *names: str) -> Iterator[Block]:
    yield from (shown[name].picture for name in names if name in shown)


def _sizes(pattern: Pattern) -> Section:
    blocks: list[Block] = []
    if pattern.sizes:
        blocks.append(
            Paragraph(
                words=say(
                    "Choose by the waist: measure it where the skirt is to sit, and take the size"
                    " whose body comes nearest. Between two sizes take the larger, and try it on"
                    " before you trim."
                )
            )
        )
    finished = finished_columns(pattern)
    skirt = [column for column in finished if not column.under]
    under = [column for column in finished if column.under]
    blocks += [
        size_table(pattern, body_columns(pattern), say("The body it is made for")),
        size_table(pattern, skirt, say("Measures of the finished garment")),
    ]
    if under:
        blocks.append(size_table(pattern, under, say("What is worn under it")))
    return Section(name="sizes", title=say("Sizes"), blocks=tuple(blocks))


def _cloth(pattern: Pattern, made: Sequence[SizeFiles], shown: Mapping[str, Shot]) -> Section:
    shops = [one.cloth.shopping for one in made]
    notions = notions_table(pattern, shops)
    blocks: list[Block] = [
        cloth_table(pattern, shops),
        Paragraph(words=washing(pattern)),
        *([notions] if notions is not None else []),
        *_pictures(shown, *(name for name in shown if name.startswith("lay-"))),
    ]
    return Section(name="cloth", title=say("Cloth and notions"), blocks=tuple(blocks))


def _time(pattern: Pattern, made: Sequence[SizeFiles]) -> Section | None:
    """Return how long and how hard, as the middle size's booklet tells it; estimates."""
    times = made[middle(len(made))].times
    if times is None:
        return None
    blocks: list[Block] = []
    for block in times.blocks:
        if isinstance(block, Table):
            _, practised, first = block.rows[-1]
            words = say(
                "About {practised} of work for a practised hand, {first} for a first skirt:"
                " estimates, breaks not counted.",
                practised=practised,
                first=first,
            )
            blocks.append(Paragraph(words=words))
        else:
            blocks.append(block)
    return Section(name=times.name, title=times.title, blocks=tuple(blocks))


# --- paper ---------------------------------------------------------------------------------


def _printing(pattern: Pattern, sheets: Sequence[Sheets]) -> Section:
    scope = pattern.spec.print.scope
    rows = tuple((paper_title(one.paper), one.pages, paper_use(one.paper, scope)) for one in sheets)
    papers = {one.paper for one in sheets}
    blocks: list[Block] = [
        Table(
            caption=say("Papers"),
            heads=(say("paper"), say("pages"), say("for")),
            rows=rows,
            figures=(1,),
        ),
        Bullets(items=tuple(_how(pattern, papers))),
    ]
    return Section(name="paper", title=say("Paper, and how to print"), blocks=tuple(blocks))


def _how(pattern: Pattern, papers: set[PaperName]) -> Iterator[str]:
    if pattern.spec.print.scope is Scope.CARD:
        yield say(
            "Nothing is cut from this page: draw the pieces on the cloth with tape and chalk, by"
            " its figures. They count, at whatever size the page comes out of the printer."
        )
        return
    yield say(
        "Open the file in a program for PDF, not in a browser’s preview, and print its first page"
        " alone: single-sided, at 100 %\u00a0or “actual size”, never “fit”."
    )
    yield say(
        "Measure the test square on it: 100 mm each way. Then measure the two long rules. Only"
        " when both are right print the rest."
    )
    if pattern.sizes:
        yield say(
            "Each size is a layer of the file: in the layers panel of the program switch off the"
            " sizes that you do not want, and print what is left. The first pages tell which pages"
            " your size needs."
        )
    if papers & set(HOME):
        yield say(
            "Lay the pages out as the map shows, and tape them where half rings meet: taped true,"
            " each ring is whole."
        )
    if papers - set(HOME) - {PaperName.PROJECTOR}:
        yield say(
            "At a copy shop ask for a print in black at 100 %, and measure the check line at the"
            " foot of the sheet before you pay."
        )
    if PaperName.PROJECTOR in papers:
        yield say(
            "The file for a projector begins with a page to calibrate by; print nothing of it."
        )


def _inside(files: Sequence[tuple[str, str]]) -> Section:
    table = Table(caption="", heads=(say("file"), say("what it is")), rows=tuple(files))
    sums = say(
        "SHA256SUMS holds a sum of each file: whoever has the program sha256sum can make sure that"
        " every file came through whole."
    )
    return Section(
        name="files", title=say("What is in the pack"), blocks=(table, Paragraph(words=sums))
    )


# --- terms, care, the maker ----------------------------------------------------------------


def _terms(pattern: Pattern) -> Section:
    blocks: list[Block] = [Paragraph(words=words) for words in terms(pattern.spec)]
    given = licence(pattern.spec.publish.licence)
    if given.deed:
        blocks.append(Paragraph(words=given.deed, address=given.deed))
    return Section(name="licence", title=say("Licence"), blocks=tuple(blocks))


def _care(pattern: Pattern) -> Section:
    box = Cautions(title=say("Care"), items=cautions(pattern.spec))
    return Section(name="care", title=say("Before you begin"), blocks=(box,))


def _answering(pattern: Pattern) -> Section:
    publish, seams = pattern.spec.publish, seam_columns(pattern)
    blocks: list[Block] = [Paragraph(words=_measured(bool(seams)))]
    if seams:
        blocks.append(size_table(pattern, seams, say("Their true lengths, on paper")))
    if publish.page:
        blocks.append(Paragraph(words=publish.page, address=publish.page))
    return Section(name="feedback", title=say("Tell the maker"), blocks=tuple(blocks))


def _measured(seams: bool) -> str:
    """Return what a reader can measure, so that differences are found.

    Args:
        seams: some are printed that are long enough to tell.
    """
    if seams:
        return say(
            "Once the pattern is put together, and before you cut cloth, measure these stitching"
            " lines on it from corner to corner, a curve with the tape on its edge. Within half a"
            " per cent is right. Tell the maker what you measured, on which paper and in which"
            " size: differences are found that way, and mended in the next edition."
        )
    return say(
        "When the skirt is sewn, measure its waist and its length. Tell the maker what you"
        " measured and in which size: differences are found that way, and mended in the next"
        " edition."
    )
