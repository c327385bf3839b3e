"""The booklet's words: every number is a figure of the draft, every mark is on the pattern.

The figures are walked as they stand in the JSON that people read. A number of the text that is
none of them, no wish of the sheet and no habit of the hand is a slip of whoever wrote the text.
"""

import dataclasses
import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from drafting.cloth.buying import sold_text
from drafting.cloth.in_json import cloth_json, shopping_json
from drafting.effort import Effort
from drafting.figures import as_json
from drafting.geometry import bounds, point_along
from drafting.pattern import Pattern, draft
from drafting.piece import InnerKind, Piece, cutting_line
from drafting.sheet import load
from drafting.units import length_text, metres_text, radius_text
from render.booklet import habits
from render.booklet.compose import booklet
from render.booklet.making import Making
from render.booklet.model import (
    Block,
    Booklet,
    Bullets,
    Cautions,
    Paragraph,
    Section,
    Step,
    Steps,
    Table,
)
from render.drawing import Drawing
from render.lay_picture import LayPicture
from render.lay_words import along_text
from render.laying import Cloth, Laying

EXAMPLES = Path(__file__).parents[3] / "measurements_examples"
SHEETS = (
    "bandstand-skirt", "box-office-skirt", "character-skirt", "chorus-skirt",
    "classroom-half-scale", "deckchair-skirt", "leading-lady-skirt", "signal-skirt",
    "tea-dance-skirt", "twirl-skirt", "usher-skirt", "wardrobe-find", "wave-petticoat",
    "young-chorus-skirt",
)  # fmt: skip
"""Every cut, finish and closure among the examples, once or more."""

LENGTH = re.compile(r"(?:\d[\d.,]*|\d*[⅛¼⅜½⅝¾⅞]|(?:\d+\u00a0)?\d+/\d+)\u00a0(?:mm|cm|m|in|yd)\b")
BARE = re.compile(
    r"(?<![\w.,/⅛¼⅜½⅝¾⅞-])\d+(?:\.\d+)?(?![\w.,/⅛¼⅜½⅝¾⅞]*\d)(?!\u00a0(?:mm|cm|m|in|yd|g|oz|min|h)\b)"
)


@cache
def drafted(sheet: str) -> tuple[Pattern, Cloth]:
    pattern = draft(load(EXAMPLES / f"{sheet}.toml"))
    return pattern, Laying(pattern, Effort.QUICK).made(lambda _: None)


def undrawn(*_: object, width: float, height: float, **__: object) -> LayPicture:
    """Return an empty picture in place of a lay plan, which takes as long as all the words."""
    return LayPicture(drawing=Drawing(), scale=10, width=width, height=height, runs=1)


@cache
def composed(sheet: str) -> Booklet:
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr("render.booklet.cutting.lay_picture", undrawn)
        return booklet(*drafted(sheet))


def said(blocks: tuple[Block, ...]) -> Iterator[str]:
    """Yield every sentence and every cell; pictures have tests of their own."""
    for block in blocks:
        if isinstance(block, Section):
            yield block.title
            yield from said(block.blocks)
        elif isinstance(block, Paragraph):
            yield block.words
        elif isinstance(block, Bullets | Cautions):
            yield from block.items
        elif isinstance(block, Table):
            yield from (cell for row in block.rows for cell in row)
        elif isinstance(block, Steps):
            for step in block.steps:
                yield from (step.title, *step.do, step.check, *step.cautions)


def section(found: Booklet, name: str) -> Section:
    def within(blocks: tuple[Block, ...]) -> Iterator[Section]:
        for block in blocks:
            if isinstance(block, Section):
                yield block
                yield from within(block.blocks)

    return next(one for one in within(found.sections) if one.name == name)


def steps(found: Booklet) -> dict[str, Step]:
    order = section(found, "order")
    return {
        step.name: step
        for chapter in order.blocks
        if isinstance(chapter, Section)
        for block in chapter.blocks
        if isinstance(block, Steps)
        for step in block.steps
    }


def numbers(found: Any) -> Iterator[float]:
    """Yield every number of a value, however deep."""
    if isinstance(found, dict):
        found = tuple(found.values())
    elif dataclasses.is_dataclass(found):
        found = tuple(getattr(found, field.name) for field in dataclasses.fields(found))
    if isinstance(found, list | tuple):
        for value in found:
            yield from numbers(value)
    elif isinstance(found, int | float) and not isinstance(found, bool):
        yield float(found)


def known(pattern: Pattern, cloth: Cloth) -> tuple[set[str], set[str]]:
    """Return how every figure, wish and habit may be written: as lengths, and bare."""
    units = pattern.spec.units
    json = as_json(pattern.figures, ())
    json.pop("title")
    bought = (cloth_json(cloth.shopping), shopping_json(cloth.shopping))
    figures = {*numbers(json), *numbers(bought), *numbers(pattern.spec)}
    hands = {x for name, value in vars(habits).items() if name.isupper() for x in numbers(value)}
    allowances = {edge.allowance for piece in pattern.pieces for edge in piece.edges}
    turned = {
        layer.hem_allowance or 0.0
        for layer in (pattern.figures.skirt, pattern.figures.lining)
        if layer
    }
    hems = {allowance / 2 for allowance in allowances | turned}  # a narrow hem is turned twice
    boxes = [bounds(cutting_line(piece)) for piece in pattern.pieces if piece.rectangle]
    sizes = {x for box in boxes for x in (box.width, box.height)}
    making = Making(pattern, cloth)
    lengths = figures | allowances | hems | sizes
    written = {length_text(x, units) for x in lengths}
    written |= {radius_text(x, units) for x in lengths}
    written |= {along_text(x, units) for x in figures} | {sold_text(x, units) for x in figures}
    written |= {metres_text(x, units) for x in figures}
    written |= {metres_text(x / 1000, units) for x in figures}
    written |= {text(x) for x in hands for text in (making.little, making.hand, making.stitch)}
    return written, {f"{x:.3g}" for x in figures | hands} | {f"{x:.0f}" for x in figures | hands}


def derived(pattern: Pattern, cloth: Cloth) -> set[str]:
    """Return the lengths of the text that are one step from a figure, each by its own rule."""
    making, figures = Making(pattern, cloth), pattern.figures
    found = []
    if figures.skirt.fullness:
        # The waist is an arc of that many circles: so much more for each radius cut too deep.
        found.append(math.tau * figures.skirt.fullness * habits.CUT_TOO_DEEP)
    lining, ruffle = figures.lining, figures.ruffle
    if lining is not None and ruffle is not None:
        sides = (
            lining.length_left or lining.length_side,
            lining.length_right or lining.length_side,
        )
        least = min(lining.length_front, lining.length_back, *sides)
        found.append(least - ruffle.line_below_waist)
        found.append(making.handy(habits.SAMPLE) * ruffle.gather_ratio)
        found.append(ruffle.seam_from_edge + ruffle.depth)
        found.append(2 * ruffle.join_allowance)
    for tier in (*figures.tiers, *(ruffle.tiers if ruffle else ())):
        found.append(tier.flat_length / tier.gather_ratio)
    found += [abs(seam.ease) for seam in figures.truing]
    found += [abs(seam.ease) / seam.gather for seam in figures.truing]
    found += [seam.first / seam.gather for seam in figures.truing]
    told = {making.long(x) for x in found}
    # How much longer the tape is than the flat edge that stretches to it.
    edges = [layer.waistline for layer in (figures.skirt, lining) if layer is not None]
    told |= {making.little(round(figures.waist.finished - edge)) for edge in edges}
    told |= {making.little(making.shortest_snip)}
    told |= {making.long(x) for x in (10.0, 25.0 * pattern.spec.scale)}  # end hem; ruffle covered
    return told


WORDED = {"lays", "gathering-sample", "working", "half-scale", "worth-knowing"}
"""Sections whose numbers are those of a plan or of a table with tests of its own."""


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_length_in_the_text_is_a_figure_a_wish_or_a_habit(sheet: str) -> None:
    pattern, cloth = drafted(sheet)
    lengths, _ = known(pattern, cloth)
    lengths |= derived(pattern, cloth)
    from_pattern = {
        length
        for piece in pattern.pieces
        for words in texts_of(piece)
        for length in LENGTH.findall(words)
    }
    notions = {x for n in cloth.shopping.notions for x in LENGTH.findall(f"{n.why} {n.name}")}
    told = [
        words
        for one in composed(sheet).sections
        if one.name not in WORDED
        for words in said(one.blocks)
    ]
    assert sum(len(LENGTH.findall(words)) for words in told) > 40
    strange = {
        (length, words)
        for words in told
        for length in LENGTH.findall(words)
        if length not in lengths | from_pattern | notions | set(rows_of_marks(pattern))
    }
    assert not strange


def texts_of(piece: Piece) -> Iterator[str]:
    yield from piece.notes
    yield from (dot.words for dot in piece.dots)
    yield from (line.words for line in piece.inner_lines)


def rows_of_marks(pattern: Pattern) -> Iterator[str]:
    """Yield how far along a strip each mark lies, from the left end of its stitching line."""
    for piece in pattern.pieces:
        if piece.rectangle:
            xs = [p.x for edge in piece.edges for line in edge.path for p in (line.start, line.end)]
            ys = [p.y for edge in piece.edges for line in edge.path for p in (line.start, line.end)]
            units = pattern.spec.units
            for notch in piece.notches:
                at = point_along(piece.edges[notch.edge].path, notch.at)
                yield length_text(at.x - min(xs), units)
                yield length_text(max(ys) - at.y, units)
            yield from (length_text(max(ys) - dot.at.y, units) for dot in piece.dots)
            top = bounds(cutting_line(piece)).top
            for line in piece.inner_lines:
                yield length_text(top - line.path[0].start.y, units)


def only(pattern_: str, words: str) -> tuple[str, ...]:
    found = re.search(pattern_.replace("LENGTH", r"[\d.]+\u00a0\w+"), words)
    assert found, (pattern_, words)
    return found.groups()


def test_the_chorus_skirts_ruffle_is_told_by_its_own_figures() -> None:
    """The sentences that cost most net if they are wrong, against the JSON, key by key."""
    pattern, _ = drafted("chorus-skirt")
    found = steps(composed("chorus-skirt"))
    ruffle = as_json(pattern.figures, ())["ruffle"]

    def cm(length: float) -> str:
        return f"{length / 10:.1f}\u00a0cm"

    drawn = only(r"Draw the (LENGTH) between two marks up to (LENGTH),", " ".join(found["pin"].do))
    assert drawn == (cm(ruffle["flat_length"] / 4), cm(ruffle["line_length"] / 4))
    line = " ".join(found["line"].do)
    assert only(r"all round (LENGTH) below the waist seam", line) == (
        cm(ruffle["line_below_waist"]),
    )
    assert only(r"measures (LENGTH) all round", found["line"].check) == (cm(ruffle["line_length"]),)
    joined = only(r"^(\d+) strips, (LENGTH) flat", found["join-strips"].check)
    assert joined == (str(ruffle["strips"]), cm(ruffle["flat_length"]))
    rows = " ".join(found["gather"].do)
    assert only(r"in (\d+) sections", rows) == (str(ruffle["sections"]),)
    assert only(r"The seam line lies (LENGTH) from the raw edge", rows) == ("1.5\u00a0cm",)
    assert only(r"cord (LENGTH) from the raw edge, which is (LENGTH) above", rows) == (
        "1.2\u00a0cm",
        "3\u00a0mm",
    )
    assert only(r"about (LENGTH) of cord and (LENGTH) of thread", rows) == (
        f"{ruffle['cord_metres']:.1f}\u00a0m", f"{ruffle['thread_metres']:.1f}\u00a0m",
    )  # fmt: skip
    assert ruffle["ways"][1]["rows_from_edge"] == [13.0, 8.0]
    assert "1.3\u00a0cm and 0.8\u00a0cm from the raw edge" in rows
    ten = only(r"any place (LENGTH) of the line holds about (LENGTH) of flat", found["pin"].check)
    assert ten == ("10.0\u00a0cm", cm(100 * ruffle["gather_ratio"]))
    hung = only(r"hangs (LENGTH) above the lining's hem", found["turn-down"].check)
    assert hung == ("1.0\u00a0cm",)


def test_the_chorus_skirt_itself_is_told_by_its_own_figures() -> None:
    pattern, _ = drafted("chorus-skirt")
    found = steps(composed("chorus-skirt"))
    json = as_json(pattern.figures, ())

    def cm(length: float) -> str:
        return f"{length / 10:.1f}\u00a0cm"

    assert only(r"together measure (LENGTH) along", found["staystitch"].check) == (
        cm(json["skirt"]["waistline"]),
    )
    seams = " ".join(found["skirt-seams"].do)
    assert only(r"opening ends, (LENGTH) below the waist seam", seams) == (
        cm(json["skirt"]["opening"]),
    )
    lining = " ".join(found["lining-seams"].do)
    assert only(r"opening ends, (LENGTH) below", lining) == (cm(json["lining"]["opening"]),)
    zip_ = " ".join(found["opening"].do)
    assert only(r"The zip you bought is (LENGTH):", zip_) == (cm(json["opening"]["zip"]),)
    assert only(r"for (\d+) hours", " ".join(found["hang"].do)) == (
        str(json["skirt"]["hang_hours"]),
    )
    assert only(r"up to about (LENGTH), an estimate", " ".join(found["hang"].do)) == (
        cm(json["skirt"]["bias_drop_most"]),
    )
    assert only(r"hem measures (LENGTH) all round", found["hem"].check) == (
        cm(json["skirt"]["sweep"]),
    )
    # Mistake 3 of the trade: the tape is cut to the finished waist, the cloth to less.
    assert only(r"stay tape to (LENGTH),", " ".join(found["waist"].do)) == (cm(740 + 15),)
    assert json["skirt"]["waistline"] == pytest.approx(755 / 1.01, abs=0.01)
    # Cutting 3 mm too deep at F = 1 adds 18.8 mm to the waist.
    assert only(r"Every 3\u00a0mm too deep adds (LENGTH) to", " ".join(found["cut"].do)) == (
        "1.9\u00a0cm",
    )


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_piece_seam_and_mark_of_the_pattern_is_in_the_booklet(sheet: str) -> None:
    pattern, _ = drafted(sheet)
    found = composed(sheet)
    cut = next(b for b in section(found, "cutting").blocks if isinstance(b, Table))
    assert [row[1] for row in cut.rows] == [piece.name for piece in pattern.pieces]
    seams, marks = (b for b in section(found, "seams").blocks if isinstance(b, Table))
    assert [row[0] for row in seams.rows] == [s.number for s in pattern.figures.truing]
    for piece, row in zip(pattern.pieces, marks.rows, strict=True):
        assert row[1] == piece.name
        numbered = {notch.seam for notch in piece.notches if notch.seam}
        told = " ".join(re.findall(r"(?:notches of |\()?seam ([^;)]*)", row[2]))
        assert numbered <= set(re.findall(r"\d+[a-j]?", told)), row
        for words in (*(n.words for n in piece.notches), *(d.words for d in piece.dots)):
            assert words in row[2]
        kinds = {line.kind for line in piece.inner_lines}
        if not piece.rectangle:
            assert ("fold line" in row[2]) == (InnerKind.FOLD_LINE in kinds)
        assert ("ruffle's line" in row[2]) == (InnerKind.RUFFLE_LINE in kinds)
        assert bool(re.search("gathering row|cord", row[2])) == (InnerKind.GATHERING in kinds)


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_seam_and_every_part_that_a_step_names_is_on_the_pattern(sheet: str) -> None:
    pattern, _ = drafted(sheet)
    on_pieces = {notch.seam for piece in pattern.pieces for notch in piece.notches}
    walked = {seam.number for seam in pattern.figures.truing}
    names = " ".join(piece.name for piece in pattern.pieces)
    parts = {
        "facing": "facing", "casing": "casing", "godet": "godet", "pocket": "pocket bag",
        "flounce": "flounce", "Tier": "tier", "lining": "lining", "strips": "ruffle",
        "interfacing": "opening stay",
    }  # fmt: skip
    for name, step in steps(composed(sheet)).items():
        words = " ".join((*step.do, step.check))
        for told in re.findall(r"\(seams? ([^)]*)\)", words):
            numbered = set(re.findall(r"\d+[a-j]?", told))
            assert numbered and numbered <= on_pieces | walked, (name, told)
        if name in ("wash", "paper", "cut", "mark", "level", "join", "compare", "sample", "end"):
            continue
        for word, part in parts.items():
            if re.search(rf"\b{word}", words) and not (word == "facing" and "bias" in words):
                assert part in names or (word == "strips" and "tier" in names), (name, word)


@pytest.mark.parametrize("sheet", SHEETS)
def test_what_a_cutter_would_say_is_in_the_booklet_word_for_word(sheet: str) -> None:
    pattern, _ = drafted(sheet)
    known = [one for one in composed(sheet).sections if one.name == "worth-knowing"]
    told = {words for one in known for words in said(one.blocks)}
    assert told == {f"{finding.what} {finding.do}" for finding in pattern.findings}


def test_a_step_is_there_only_where_the_sheet_asks_for_it() -> None:
    order = {sheet: list(steps(composed(sheet))) for sheet in SHEETS}
    assert "pockets" in order["deckchair-skirt"] and "pockets" not in order["chorus-skirt"]
    assert "godets" in order["twirl-skirt"] and "godets" not in order["chorus-skirt"]
    assert "flounce" in order["bandstand-skirt"] and "tiers" in order["wave-petticoat"]
    assert not {"line", "gather", "sew-on", "lining-hem"} & set(order["usher-skirt"])
    assert not {"skirt-seams", "hem", "level", "waist"} & set(order["wardrobe-find"])
    assert "opening" not in order["young-chorus-skirt"]
    chorus = order["chorus-skirt"]
    # The trade's order: hung before it is hemmed, the lining hemmed before its ruffle is on,
    # the hem levelled over the finished ruffle, the lower edge done before gathering.
    for before, after in (
        ("sample", "cut"), ("hang", "hem"), ("lining-hem", "sew-on"), ("lower-edge", "gather"),
        ("gather", "pin"), ("sew-on", "level"), ("join", "waist"), ("level", "compare"),
        ("compare", "hem"), ("quarters", "gather"),
    ):  # fmt: skip
        assert chorus.index(before) < chorus.index(after), (before, after)


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_step_has_its_check_and_its_time(sheet: str) -> None:
    found = steps(composed(sheet))
    assert len(found) >= 10
    for name, step in found.items():
        assert len(step.check) > 20 and step.do, name
        assert step.hands % 5 == 0 and step.first % 5 == 0
        assert 0 < step.hands <= step.first, name
    table = next(b for b in section(composed(sheet), "times").blocks if isinstance(b, Table))
    assert len(table.rows) == len(found) + 1

    def in_minutes(text: str) -> int:
        hours, rest = re.search(r"(\d+)\u00a0h", text), re.search(r"(\d+)\u00a0min", text)
        return 60 * int(hours[1] if hours else 0) + int(rest[1] if rest else 0)

    for column in (1, 2):
        times = [in_minutes(row[column]) for row in table.rows]
        assert sum(times[:-1]) == times[-1] > 60


def test_cautions_stand_in_a_box_and_where_the_harm_is() -> None:
    found = composed("chorus-skirt")
    (box,) = (b for b in section(found, "cautions").blocks if isinstance(b, Cautions))
    told = " ".join(box.items)
    for word in ("candles", "melt", "Local safety law", "iron"):
        assert word in told
    by_step = steps(found)
    assert "melt" in " ".join(by_step["turn-down"].cautions)
    assert "slider" in " ".join(by_step["opening"].cautions)
    assert "blade" in " ".join(by_step["paper"].cautions)
    assert "pins" in " ".join(by_step["pin"].cautions).lower()
    child = " ".join(
        next(b for b in section(composed("young-chorus-skirt"), "cautions").blocks
             if isinstance(b, Cautions)).items
    )  # fmt: skip
    assert "cords" in child and "rules" in child
