"""Lay plans as pages: for each cloth its picture and where each piece lies, then what to buy.

Millimetres in the page's frame. Drawn small, so nothing here is cut from: every page says so.
Imports the picture, setting and the words of lay plans.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from drafting.cautions import tools_caution
from drafting.cloth.buying import sold_text
from drafting.cloth.lays import Laid, Lay, Lies
from drafting.cloth.shopping import AtWidth, Measured, Notion, Purchase, Shopping
from drafting.findings import Finding, Level, by_weight
from drafting.geometry import Box, Point, straight
from drafting.language import clauses, in_its_language, listed, said_later, say
from drafting.pattern import Pattern
from drafting.piece_names import cloth_words, kind_words, piece_words
from drafting.spec import PaperName
from drafting.units import Mm, Units, length_text, metres_text
from render import fonts, style
from render.drawing import About, Anchor, Document, Drawing, Kind, Layer, Page, Text, together
from render.imprint import LINE, code_in_room, foot_line, imprint_of, room_of
from render.lay_labels import grain_ends
from render.lay_picture import LayPicture, PictureError, lay_picture
from render.lay_words import (
    ACROSS,
    ALONG,
    CHALK,
    CUT_DOUBLE,
    END_FOR_END,
    FACE_DOWN,
    ON_BIAS,
    ON_FOLD,
    QUARTER,
    UPPER_ONLY,
    along_text,
    grams_text,
    how_words,
    layers_words,
    money,
    terms_of,
)
from render.measures import layer_words
from render.paper import PAPERS
from render.setting import Setting, height_of
from render.words import edition_words, made_for

FOOT: Mm = 6.0
"""Room under a page's window for its foot."""

SMALLER = 1.5
"""A picture so much smaller goes before one whose list would stand overleaf."""

REGULAR = 6
"""So many strips in even steps are listed as one row between the first and the last."""

LARGE = 8
"""A picture at 1:8 is large enough to give way to the list under it."""

ROUND: Mm = 0.5
"""Steps that differ by less are even."""


@in_its_language
def lay_document(
    pattern: Pattern, lays: Sequence[Lay], shopping: Shopping | None = None
) -> Document:
    """Return the lay plans of a garment as a document, and what to buy if that is known.

    Pages are A4, or Letter for a sheet in inches or for Letter, each cloth's the way round in
    which its plan is larger.
    """
    sheets: list[_Sheet] = []
    for lay in lays:
        sheets += _lay_sheets(pattern, lay)
    if shopping is not None:
        sheets += _shopping_sheets(pattern, lays, shopping)
    else:
        sheets += _care_sheets(pattern, lays)
    pages = tuple(
        _with_code(_page(pattern, sheet, number, len(sheets)), pattern)
        for number, sheet in enumerate(sheets, start=1)
    )
    publish = pattern.spec.publish
    subject = say("Lay plans and cloth to buy, drawn small")
    if publish.licence:
        subject = clauses((subject, say("licence: {licence}", licence=publish.licence)))
    return Document(
        title=fonts.printable(say("{title}: lay plans", title=pattern.spec.title)),
        author=fonts.printable(publish.maker),
        subject=fonts.printable(subject),
        keywords=say("sewing pattern, skirt, lay plan, cloth"),
        language=publish.language,
        about=About(kind=Kind.LAY),
        pages=pages,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """One page before it has a foot."""

    window: Box
    drawing: Drawing
    label: str
    bookmark: str
    scale: int | None = None


def _paper(pattern: Pattern) -> tuple[Mm, Mm, Mm]:
    """Return width, height and margin of the pages, upright."""
    letter = (PaperName.LETTER, PaperName.LEGAL, PaperName.TABLOID)
    first = next(iter(pattern.spec.print.papers), PaperName.A4)
    home = {PaperName.A4: PaperName.A4, PaperName.A3: PaperName.A4}
    for name in letter:
        home[name] = PaperName.LETTER
    inches = pattern.spec.units is Units.INCH
    name = home.get(first, PaperName.LETTER if inches else PaperName.A4)
    paper = PAPERS[name]
    return paper.width, paper.height, paper.margin


def _window(pattern: Pattern, *, upright: bool) -> Box:
    """Return what of a page is set, above its foot."""
    width, height, margin = _paper(pattern)
    wide, high = (width, height) if upright else (height, width)
    foot = FOOT if imprint_of(pattern.spec) is None else FOOT + LINE
    return Box(left=margin, bottom=margin + foot, right=wide - margin, top=high - margin)


def _page(pattern: Pattern, sheet: _Sheet, number: int, of: int) -> Page:
    _, _, margin = _paper(pattern)
    window = sheet.window
    words = (
        say("Lay plans, page {number} of {of}: not to be cut from", number=number, of=of)
        if sheet.scale is None
        else say(
            "Lay plans, page {number} of {of}: drawn at 1:{scale}, not to be cut from",
            number=number,
            of=of,
            scale=sheet.scale,
        )
    )
    size = style.NOTE
    room = window.width - fonts.width(words, size, bold=True) - 6
    texts = [
        Text(
            text=words,
            at=Point(window.left, margin + 1.0),
            size=size,
            bold=True,
            layer=Layer.PAGE,
        ),
        Text(
            text=fonts.shortened(
                "  ·  ".join(
                    part
                    for part in (
                        pattern.spec.title,
                        made_for(pattern.spec),
                        edition_words(pattern.spec),
                    )
                    if part
                ),
                size,
                room,
            ),
            at=Point(window.right, margin + 1.0),
            size=size,
            anchor=Anchor.END,
            layer=Layer.PAGE,
        ),
    ]
    imprint = imprint_of(pattern.spec)
    if imprint is not None:
        texts.append(foot_line(imprint, window, window.left, margin + 1.0 + LINE))
    return Page(
        width=window.right + margin,
        height=window.top + margin,
        window=replace(window, bottom=margin),
        drawing=together(sheet.drawing, Drawing(texts=tuple(texts))),
        label=sheet.label,
        bookmark=sheet.bookmark,
    )


def _with_code(page: Page, pattern: Pattern) -> Page:
    """Return a page with the code of the maker's page in its free room, if there is any."""
    imprint = imprint_of(pattern.spec)
    if imprint is None:
        return page
    found = code_in_room(imprint, page.window, room_of(page.drawing, page.window))
    return replace(page, drawing=together(page.drawing, found))


def _sheets(page: Setting, label: str, bookmark: str, scale: int | None = None) -> Iterator[_Sheet]:
    for number, drawing in enumerate(page.pages(), start=1):
        yield _Sheet(
            window=page.window,
            drawing=drawing,
            label=label if number == 1 else f"{label} {number}",
            bookmark=bookmark if number == 1 else "",
            scale=scale if number == 1 else None,
        )


# --- one cloth -----------------------------------------------------------------------------


def _lay_sheets(pattern: Pattern, lay: Lay) -> Iterator[_Sheet]:
    page, picture = _with_picture(pattern, lay)
    units = pattern.spec.units
    if lay.laid:
        _where(page, lay, units)
    if lay.counted:
        page.heading(say("How many, in rows"), with_next=14)
        rows = [
            (
                str(shape.number),
                piece_words(shape.name),
                str(shape.count),
                length_text(shape.box().width, units),
            )
            for shape in lay.counted
        ]
        heads = (say("no."), say("piece"), say("to cut"), say("along the cloth"))
        table(page, heads, rows, right=(2, 3), flex=1)
    _findings(page, lay.findings)
    label = say("{layer} lay", layer=layer_words(lay.name))
    bookmark = say("Lay plan: {cloth}", cloth=cloth_words(lay.name))
    yield from _sheets(page, label, bookmark, picture.scale if picture else None)


def _with_picture(pattern: Pattern, lay: Lay) -> tuple[Setting, LayPicture | None]:
    """Return a page with a cloth's heading and picture, the way round that shows it larger.

    A picture a little smaller that has its list under it goes before one that has it overleaf.
    """
    page, picture = _largest(pattern, lay, 0.0)
    if picture is None:
        return page, None
    deep = _list_height(pattern, lay)
    if page.y - page.bottom >= deep:
        return page, picture
    near = max(picture.scale * SMALLER, LARGE)
    smaller, other = _largest(pattern, lay, deep, coarsest=near)
    if other is not None and other.runs <= picture.runs:
        return smaller, other
    return page, picture


def _list_height(pattern: Pattern, lay: Lay) -> Mm:
    """Return how high the list of a cloth's pieces is set on an upright page."""
    window = _window(pattern, upright=True)
    trial = Setting(window=replace(window, bottom=window.top - 10_000), inset=0.0)
    trial.y -= 1
    _where(trial, lay, pattern.spec.units)
    return window.top - trial.y


def _largest(
    pattern: Pattern, lay: Lay, under: Mm, *, coarsest: float = math.inf
) -> tuple[Setting, LayPicture | None]:
    """Return the larger picture of both ways round.

    Args:
        under: height left free under it.
        coarsest: greatest scale that is looked at.
    """
    found: list[tuple[tuple[int, int, int], Setting, LayPicture | None]] = []
    for order, upright in enumerate((True, False)):
        page = Setting(window=_window(pattern, upright=upright), inset=0.0)
        _heading(page, pattern, lay)
        high = page.y - page.bottom - 2 - under
        try:
            drawn = lay_picture(lay, pattern.spec, width=page.width, height=high, coarsest=coarsest)
        except PictureError:
            found.append(((10**6, 0, order), page, None))
            continue
        page.put(drawn.drawing, page.left, page.y - drawn.height)
        page.y -= drawn.height + 2
        found.append(((drawn.scale, drawn.runs, order), page, drawn))
    _, page, picture = min(found, key=lambda way: way[0])
    return page, picture


def _heading(page: Setting, pattern: Pattern, lay: Lay) -> None:
    spec, units, cloth = pattern.spec, pattern.spec.units, lay.cloth
    title = say("Lay plan: {cloth}", cloth=cloth_words(lay.name))
    page.paragraph(title, size=style.HEADING, bold=True, after=0.4)
    parts = (spec.title, made_for(spec), edition_words(spec), spec.publish.maker)
    page.paragraph("  ·  ".join(part for part in parts if part), size=style.SMALL, after=0.2)
    usable = length_text(lay.usable, units)
    loose = lay.name == "interfacing" and not cloth.kind
    facts = [
        kind_words(cloth.kind) or (say("not woven, without a grain") if loose else ""),
        say("{width} wide", width=length_text(cloth.width, units)),
        say("{width} usable between the selvages once washed", width=usable)
        if cloth.shrink_width or cloth.shrink_length
        else say("{width} usable between the selvages", width=usable),
        say("{length} to lay", length=along_text(lay.length, units)),
        layers_words(lay, units),
        say("one way") if cloth.one_way else "",
    ]
    page.paragraph(
        "  ·  ".join(fact for fact in facts if fact), size=style.SMALL, bold=True, after=2.0
    )


def _where(page: Setting, lay: Lay, units: Units) -> None:
    """Set the list of where each piece lies, in the order of the cut list."""
    page.heading(say("Where each lies"), with_next=31)
    folded = any(stretch.folded for stretch in lay.stretches)
    grain = any(grain_ends(one) is not None for one in lay.laid)
    page.paragraph(_how_measured(lay, units, folded=folded, grain=grain), size=style.SMALL)
    heads = (
        say("no."), say("piece"), say("copy"), say("along"), say("across"), say("arrow"),
        say("how it lies"),
    )  # fmt: skip
    rows = list(where_rows(lay, units))
    # A column that says nothing of any piece is left out.
    kept = [k for k in range(len(heads)) if k < 5 or any(row[k] for row in rows)]
    table(
        page,
        [heads[k] for k in kept],
        [[row[k] for k in kept] for row in rows],
        right=[n for n, k in enumerate(kept) if k in (3, 4, 5)],
        flex=len(kept) - 1 if 6 in kept else 1,
    )


def _how_measured(lay: Lay, units: Units, *, folded: bool, grain: bool) -> str:
    """Return how the list's measures are taken on the cloth."""
    told = [say("Along: from the cut end to where the piece begins.")]
    if folded and grain:
        told.append(
            say(
                "Across: from the fold or lower selvage to the piece’s lowest point, and to its"
                " grain arrow."
            )
        )
    elif folded:
        told.append(say("Across: from the fold or lower selvage to the piece’s lowest point."))
    elif grain:
        told.append(
            say(
                "Across: from the lower selvage to the piece’s lowest point, and to its grain"
                " arrow."
            )
        )
    else:
        told.append(say("Across: from the lower selvage to the piece’s lowest point."))
    if lay.cloth.selvage:
        told.append(
            say(
                "Measure from the inner edge of the selvage, which is {width} wide.",
                width=length_text(lay.cloth.selvage, units),
            )
        )
    if grain and folded:
        told.append(
            say("Lay the arrow first: both its ends equally far from the selvage or the fold.")
        )
    elif grain:
        told.append(say("Lay the arrow first: both its ends equally far from the selvage."))
    return " ".join(told)


def where_rows(lay: Lay, units: Units) -> Iterator[tuple[str, ...]]:
    """Yield a row for each piece: number, name, copy, along, across, its arrow, how it lies.

    What is cut double has one row for both its copies; strips in even steps have one for all
    between the first and the last.
    """
    drawn = [one for one in lay.laid if one.lies is not Lies.UNDER]
    k = 0
    while k < len(drawn):
        one = drawn[k]
        last = _even_until(drawn, k)
        if last - k + 1 < REGULAR:
            yield _row(lay, one, units)
            k += 1
            continue
        yield _row(lay, one, units)
        step = drawn[k + 1].box.left - one.box.left
        second, before = drawn[k + 1].copy, drawn[last - 1].copy
        apart = along_text(abs(step), units)
        further = (
            say("each {length} further on than the one before", length=apart)
            if step > 0
            else say("each {length} further back than the one before", length=apart)
        )
        same = _row(lay, drawn[k + 1], units)
        yield (
            same[0],
            same[1],
            say("{first} to {last}", first=second, last=before),
            say("each {length}", length=apart),
            same[4],
            same[5],
            f"{further}; {same[6]}" if same[6] else further,
        )
        yield _row(lay, drawn[last], units)
        k = last + 1


def _even_until(drawn: Sequence[Laid], k: int) -> int:
    """Return the last of the pieces from ``k`` on that lie alike in even steps along the cloth."""
    first = drawn[k]
    last = k
    step: Mm | None = None
    for j in range(k + 1, len(drawn)):
        one, before = drawn[j], drawn[j - 1]
        alike = (
            one.shape.number == first.shape.number
            and one.flipped == first.flipped
            and one.lies is first.lies
            and abs(math.remainder(one.turn - first.turn, math.tau)) < 1e-6
            and abs(one.y - first.y) < ROUND
        )
        apart = one.x - before.x
        if not alike or (step is not None and abs(apart - step) > ROUND):
            break
        step = apart
        last = j
    return last


def _row(lay: Lay, one: Laid, units: Units) -> tuple[str, ...]:
    box, shape = one.box, one.shape
    floor = lay.usable / 2 if _folded_at(lay, box.centre.x) else 0.0
    copy = f"{one.copy}" if one.lies is not Lies.UPPER else f"{one.copy}, {one.copy + 1}"
    ends = grain_ends(one)
    arrow = "" if ends is None else length_text((ends[0].y + ends[1].y) / 2 - floor, units)
    across = say("on the fold") if one.lies is Lies.ON_FOLD else _from(box.bottom - floor, units)
    return (
        str(shape.number),
        piece_words(shape.name),
        say("{copy} of {count}", copy=copy, count=shape.count),
        _from(box.left, units),
        across,
        say("fold") if one.lies is Lies.ON_FOLD and ends and abs(ends[0].y - floor) < 1 else arrow,
        how_words(one, units),
    )


def _from(length: Mm, units: Units) -> str:
    """Return a distance; a hair under or over nothing is nothing."""
    return length_text(length if abs(length) > 0.4 else 0.0, units)


def _folded_at(lay: Lay, x: Mm) -> bool:
    return any(
        stretch.folded and stretch.start <= x < stretch.start + stretch.length
        for stretch in lay.stretches
    )


def _findings(page: Setting, findings: Sequence[Finding]) -> None:
    if not findings:
        return
    page.heading(say("Worth knowing"), with_next=12)
    for finding in by_weight(tuple(findings)):
        bold = finding.level is not Level.NOTE
        page.paragraph(f"{finding.what} {finding.do}", size=style.SMALL, bold=bold)


# --- what to buy ---------------------------------------------------------------------------


def _shopping_sheets(pattern: Pattern, lays: Sequence[Lay], shopping: Shopping) -> Iterator[_Sheet]:
    units = pattern.spec.units
    page = Setting(window=_window(pattern, upright=True), inset=0.0)
    page.paragraph(say("What to buy"), size=style.HEADING, bold=True, after=0.4)
    page.paragraph(f"{pattern.spec.title}  ·  {made_for(pattern.spec)}", size=style.SMALL)
    page.heading(say("Cloth"), with_next=20)
    rows = [_purchase_row(purchase, units) for purchase in shopping.purchases]
    heads = (
        say("cloth"), say("kind"), say("width"), say("to lay"), say("+ shrinking"),
        say("+ repeats"), say("+ squaring"), say("buy"), say("cost"),
    )  # fmt: skip
    count = len(heads) if any(row[-1] for row in rows) else len(heads) - 1
    table(
        page,
        heads[:count],
        [row[:count] for row in rows],
        right=range(2, count),
        flex=1,
        bold=(7,),
    )
    _totals(page, shopping, units)
    _widths(page, shopping, units)
    if shopping.notions:
        page.heading(say("Notions"), with_next=16)
        notions = [
            (notion.name, notion_text(notion, units), notion.why) for notion in shopping.notions
        ]
        table(page, (say("notion"), say("amount"), say("what for")), notions, right=(1,), flex=2)
    told = {finding for lay in lays for finding in lay.findings}  # under each cloth's own plan
    _findings(page, [finding for finding in shopping.findings if finding not in told])
    _care(page, pattern, lays)
    yield from _sheets(page, say("what to buy"), say("What to buy; before you cut"))


def _purchase_row(purchase: Purchase, units: Units) -> tuple[str, ...]:
    def added(length: Mm) -> str:
        return along_text(length, units) if length > 0.05 else "0"

    cloth = purchase.lay.cloth
    return (
        layer_words(purchase.name),
        kind_words(cloth.kind),
        length_text(cloth.width, units),
        along_text(purchase.washed, units),
        added(purchase.shrinking),
        added(purchase.repeats),
        added(purchase.squaring),
        sold_text(purchase.buy, units),
        "" if purchase.cost is None else money(purchase.cost),
    )


def notion_text(notion: Notion, units: Units) -> str:
    """Return how much of a notion to buy, "about" where it is an estimate."""
    amount = {
        Measured.LENGTH: lambda: length_text(notion.amount, units),
        Measured.METRES: lambda: metres_text(notion.amount, units),
        Measured.COUNT: lambda: f"{notion.amount:.0f}",
    }[notion.measured]()
    return say("about {amount}", amount=amount) if notion.about else amount


def weight_words(shopping: Shopping, units: Units) -> str:
    """Return what the garment weighs, "about" where a cloth's weight is an estimate."""
    amount = grams_text(shopping.grams, units)
    if any(one.estimated for one in shopping.purchases):
        return say("about {amount}", amount=amount)
    return amount


def _totals(page: Setting, shopping: Shopping, units: Units) -> None:
    if shopping.cost is not None:
        cost = money(shopping.cost)
        words = say("All cloth together costs {cost}.", cost=cost)
        if shopping.unpriced:
            words = say(
                "All cloth together costs {cost}; {layers} left out, without a price.",
                cost=cost,
                layers=", ".join(layer_words(name) for name in shopping.unpriced),
            )
        page.paragraph(words)
    weight = weight_words(shopping, units)
    page.paragraph(say("The cloth in the garment weighs {weight}.", weight=weight))


def _widths(page: Setting, shopping: Shopping, units: Units) -> None:
    compared = {name: held for name, held in shopping.widths.items() if held}
    if not compared:
        return
    page.heading(say("About how much at usual widths"), with_next=24)
    page.paragraph(
        say("Estimates, in plain rows: lay the cloth anew before you buy another width."),
        size=style.SMALL,
    )
    rows = [
        (
            layer_words(name) if k == 0 else "",
            length_text(one.width, units),
            "" if one.panels is None else str(one.panels),
            width_buy(one, units),
            width_words(one),
        )
        for name, held in compared.items()
        for k, one in enumerate(held)
    ]
    heads = (say("cloth"), say("width"), say("panels"), say("buy about"), "")
    table(page, heads, rows, right=(1, 2, 3), flex=4)


def width_buy(one: AtWidth, units: Units) -> str:
    """Return how much to buy at a width, or nothing where it cannot be cut from it."""
    return "–" if one.buy is None else sold_text(one.buy, units)


def width_words(one: AtWidth) -> str:
    """Return what is worth saying of a width."""
    if one.buy is None:
        return say("too narrow to cut from")
    told = []
    if one.cheapest:
        told.append(say("least cloth by area"))
    if one.more_seams:
        told.append(say("more seams"))
    return ", ".join(told)


# --- care ----------------------------------------------------------------------------------

CARE = (
    said_later(
        "Cut one end square to the selvage: that is the cut end, and all lengths are counted from"
        " it."
    ),
    said_later(
        "Lay every piece before you cut one, or chalk round it where it lies. Count them on the"
        " cloth against the cut list, and count what is cut once more before the cloth leaves the"
        " table."
    ),
)
"""What to do before and while cutting, whatever is cut."""

TERMS = (
    (FACE_DOWN, said_later("Face down: turn the paper over, its printed side to the cloth.")),
    (
        END_FOR_END,
        said_later(
            "Turned end for end: a piece lies with its waist, or for a strip the beginning of its"
            " words, towards the cut end; turned end for end it lies the other way round."
        ),
    ),
    (QUARTER, said_later("Turned a quarter: across the cloth, which has no grain to go by.")),
    (
        ON_FOLD,
        said_later(
            "On the fold: fold the cloth along its middle, right sides together, selvage on"
            " selvage, and lay the half’s own fold on that of the cloth; unfolded, it is a whole."
        ),
    ),
    (
        CUT_DOUBLE,
        said_later("Cut double: from both layers at once; of a pair one comes out mirrored."),
    ),
    (
        UPPER_ONLY,
        said_later(
            "Upper layer only: cut it from the upper layer alone; the cloth under it stays whole."
        ),
    ),
    (
        ACROSS[1],
        said_later(
            "Fold here, across: chalk round the half, turn the paper over on that line and chalk"
            " the other half. Or, once what lies beyond it is cut out, fold the cloth back on the"
            " line, right sides together and selvage on selvage, and cut both halves at once."
        ),
    ),
    (
        ALONG[1],
        said_later(
            "Fold here, along: chalk round the half, turn the paper over on that line and chalk the"
            " other half; or fold the cloth along it, right sides together, and cut both at once."
        ),
    ),
    (
        CHALK[1],
        said_later(
            "Chalk, turn over, chalk: chalk round the half, turn the paper over on its middle line,"
            " and chalk the other half."
        ),
    ),
    (
        ON_BIAS,
        said_later(
            "On the bias: slanting lengths, cut and joined to one strip, their ends along the"
            " grain."
        ),
    ),
)
"""What the list says of a piece, and what that means; told only where the list says it."""


def washing(pattern: Pattern) -> str:
    """Return which cloths to wash before they are laid, and which to leave as they are."""
    cloths = pattern.spec.cloths
    names = list(pattern.figures.cloth)
    washed = [
        name
        for name in names
        if getattr(cloths, name).shrink_length or getattr(cloths, name).shrink_width
    ]
    left = [name for name in names if name not in washed]
    told = []
    if washed:
        told.append(
            say(
                "Wash, dry and press first what will be washed later: the {layers}. The plans are"
                " of washed cloth; measure its width again before you lay it. A cloth that must not"
                " be washed is pressed alone, as its label says.",
                layers=listed([layer_words(name) for name in washed]),
            )
        )
    if left:
        told.append(
            say(
                "Leave unwashed: the {layers}, planned without shrinking.",
                layers=listed([layer_words(name) for name in left]),
            )
        )
    return " ".join(told)


def _care_sheets(pattern: Pattern, lays: Sequence[Lay]) -> Iterator[_Sheet]:
    page = Setting(window=_window(pattern, upright=True), inset=0.0)
    _care(page, pattern, lays)
    yield from _sheets(page, say("before you cut"), say("Before you cut"))


def _care(page: Setting, pattern: Pattern, lays: Sequence[Lay]) -> None:
    tools = tools_caution()
    used = {term for lay in lays for one in lay.laid for term in terms_of(one)}
    terms = [say(words) for term, words in TERMS if term in used]
    care = [say(words) for words in CARE]
    told = [washing(pattern), *care, *terms, tools]
    high = math.fsum(height_of(words, style.BODY, page.width) + 1.2 for words in told)
    page.heading(say("Before you cut"), with_next=high)  # whole, or on a page of its own
    for words in told:
        page.paragraph(words, bold=words == tools)


# --- tables --------------------------------------------------------------------------------

GAP: Mm = 4.0
"""Between two columns of a table."""


def table(
    page: Setting,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Sequence[int] = (),
    flex: int,
    bold: Sequence[int] = (),
) -> None:
    """Set a table in columns as wide as their words, its heads anew on every page.

    Args:
        right: columns set to the right, such as numbers.
        flex: the column that takes the room left over and is broken to it.
        bold: columns set bold.
    """
    size = style.SMALL
    natural = [
        max(
            fonts.width(heads[k], size, bold=True),
            *(fonts.width(row[k], size, bold=k in bold) for row in rows),
        )
        for k in range(len(heads))
    ]
    others = math.fsum(wide for k, wide in enumerate(natural) if k != flex)
    room = page.width - others - GAP * (len(heads) - 1)
    natural[flex] = max(min(natural[flex], room), 14.0)
    lefts = [page.left + math.fsum(natural[:k]) + GAP * k for k in range(len(heads))]
    step = size * style.LEADING

    def cells(row: Sequence[str], *, head: bool) -> None:
        broken = [
            fonts.wrapped(cell, size, natural[k], bold=head or k in bold) if k == flex else (cell,)
            for k, cell in enumerate(row)
        ]
        top = page.y
        for k, lines in enumerate(broken):
            for n, words in enumerate(lines):
                if not words:
                    continue
                at_right = k in right
                page.line(
                    words,
                    lefts[k] + (natural[k] if at_right else 0.0),
                    top - step * (n + 1) + size * 0.3,
                    size=size,
                    bold=head or k in bold,
                    anchor=Anchor.END if at_right else Anchor.START,
                )
        page.y -= step * max(map(len, broken))

    def head() -> None:
        cells(heads, head=True)
        page.draw(straight(Point(page.left, page.y), Point(lefts[-1] + natural[-1], page.y)))
        page.y -= 0.6

    head()
    for row in rows:
        deep = step * len(fonts.wrapped(row[flex], size, natural[flex]))
        if page.y - deep < page.bottom:
            page.turn_page()
            head()
        cells(row, head=False)
    page.y -= 1.2
