"""Two sections of the booklet: the working of every figure; what a half-scale draft scales.

Words are in the language of the sheet. Imports drafting's values and the booklet's model.
"""

import math
from collections.abc import Iterator

from drafting.circle import Flare
from drafting.cloth.shopping import Shopping
from drafting.language import decimal, in_its_language, say
from drafting.layer import Layer
from drafting.pattern import Pattern
from drafting.plan import Plan, layers, plan
from drafting.units import MM_PER_INCH, Mm, Units, length_text
from drafting.working import Working, letters_used, working
from drafting.working.chapters import chapters
from drafting.working.letters import Kind
from drafting.working.model import Slate
from render.booklet.model import Block, Bullets, Paragraph, Section, Table

STIFFER = (0.85, 1.0)
"""On a half-scale form net is stiffer for its size: this share of the usual gather ratio does."""


# --- the working ---------------------------------------------------------------------------


@in_its_language
def working_section(pattern: Pattern, shopping: Shopping | None = None) -> Section:
    """Return every figure with its formula and this wearer's numbers.

    Args:
        shopping: what to buy, where lays were made.
    """
    found = working(pattern, shopping)
    blocks: list[Block] = [
        Paragraph(
            words=say(
                "Each figure of this draft is worked out here: in words, in letters, and with"
                " this wearer's numbers. Lengths are in the unit behind the result; angles are in"
                " degrees. A number is written with as many decimals as the result needs."
            )
        ),
        Paragraph(
            words=say(
                "Geometry is exact. A habit of the trade differs from teacher to teacher. An"
                " estimate is a model of ours: try it on the cloth."
            )
        ),
    ]
    blocks += [_chapter(heading, held) for _, heading, held in chapters(found)]
    letters = letters_used(found)
    blocks.append(
        Table(
            caption=say("Letters used"),
            heads=(say("letter"), say("what it stands for")),
            rows=tuple(letters),
        )
    )
    return Section(name="working", title=say("The working"), blocks=tuple(blocks))


def _chapter(heading: str, held: tuple[Working, ...]) -> Table:
    return Table(
        caption=heading[:1].upper() + heading[1:],
        heads=(say("figure"), say("how it is found"), say("with your numbers"), say("by")),
        rows=tuple((one.title, _found(one), one.numbers, one.source) for one in held),
    )


def _found(one: Working) -> str:
    """Return how a figure is found, in words and in letters."""
    if len(one.letters) < 3:
        return one.formula
    return say("{words}: {letters}", words=one.formula, letters=one.letters)


# --- half scale ----------------------------------------------------------------------------


@in_its_language
def half_scale_section(pattern: Pattern) -> Section | None:
    """Return what of a half-scale draft is to scale and what is not; None at full size."""
    if pattern.spec.scale == 1:
        return None
    planned = plan(pattern.spec)
    return Section(
        name="half-scale",
        title=say("What is to scale, and what is not"),
        blocks=(
            Paragraph(
                words=say(
                    "This draft is 1:2. Lengths of the body and of the design are half of those"
                    " at full size, and areas a quarter. Measure the form itself if you can: its"
                    " waist times two is what the sheet asks for. To sew at full size, draft again"
                    " with the scale set to full; do not enlarge these pages."
                )
            ),
            Table(
                caption=say("To scale, 1:2"),
                heads=(say("measure"), say("full size"), say("this draft")),
                rows=tuple(_to_scale(pattern, planned)),
                figures=(1, 2),
            ),
            Table(
                caption=say("Not to scale"),
                heads=(say("measure"), say("this draft"), say("why")),
                rows=tuple(_not_to_scale(pattern, planned)),
                figures=(1,),
            ),
            Table(
                caption=say("The same at any scale"),
                heads=(say("ratio"), say("this draft")),
                rows=tuple(_ratios(pattern, planned)),
                figures=(1,),
            ),
            Bullets(items=tuple(_behaves(pattern, planned))),
        ),
    )


Row3 = tuple[str, str, str]


def _to_scale(pattern: Pattern, planned: Plan) -> Iterator[Row3]:
    """Yield lengths of body and design, at full size and in this draft; areas last."""
    units, scale = pattern.spec.units, pattern.spec.scale
    for name, length in _lengths(pattern, planned):
        yield name, length_text(length / scale, units), length_text(length, units)
    for layer in _flared(planned):
        cut = layer.cut
        assert isinstance(cut, Flare)
        area = math.pi * cut.fullness * (cut.hem_radius**2 - cut.waist_radius**2)
        name = (
            say("area of the lining's panels, without allowances")
            if layer.part == "lining"
            else say("area of the skirt's panels, without allowances")
        )
        yield name, _area(area / scale**2, units), _area(area, units)


def _flared(planned: Plan) -> list[Layer]:
    return [layer for _, layer in layers(planned) if isinstance(layer.cut, Flare)]


def _lengths(pattern: Pattern, planned: Plan) -> Iterator[tuple[str, Mm]]:
    wearer, wish = pattern.spec.wearer, pattern.spec.skirt
    yield say("waist of the body"), wearer.waist
    yield say("hip of the body"), wearer.hip
    yield say("hip depth"), wearer.hip_depth
    yield say("finished waist seam"), planned.waist.finished
    yield say("length of the skirt"), planned.skirt.length
    if planned.lining is not None:
        yield say("length of the lining"), planned.lining.length
    if pattern.figures.band is not None:
        yield say("finished height of the band"), wish.band
    if wish.flounce is not None:
        yield say("depth of the flounce"), wish.flounce.depth
    if planned.ruffle is not None:
        yield say("depth of the ruffle"), planned.ruffle.depth
        yield say("line of the ruffle, all round"), planned.ruffle.line_length
    for layer in _flared(planned):
        lined = layer.part == "lining"
        assert layer.cut.waist_radius is not None and layer.cut.hem_radius is not None
        yield (
            say("radius of the lining's waist seam") if lined else say("radius of the waist seam"),
            layer.cut.waist_radius,
        )
        yield (
            say("radius of the lining's hem") if lined else say("radius of the hem"),
            layer.cut.hem_radius,
        )
        if layer.below is None:
            yield say("sweep of the lining") if lined else say("sweep of the skirt"), layer.sweep


def _area(area: float, units: Units) -> str:
    if units is Units.CM:
        return decimal(f"{area / 1e6:.3f}\u00a0m²")
    return decimal(f"{area / (36 * MM_PER_INCH) ** 2:.3f}\u00a0yd²")


def _not_to_scale(pattern: Pattern, planned: Plan) -> Iterator[Row3]:
    """Yield what keeps its size, and why."""
    spec, figures = pattern.spec, pattern.figures
    by_hand = say("sewn by the same hands with the same machine")
    bought = say("bought as it is")

    def told(length: Mm) -> str:
        return length_text(length, spec.units)

    skirt, lining = planned.skirt.allowances, planned.lining
    if not planned.owned:
        yield say("waist seam allowance"), told(skirt.waist), by_hand
        yield say("side seam allowance"), told(skirt.side), by_hand
        yield say("hem allowance of the skirt"), told(skirt.hem), by_hand
    if lining is not None:
        yield say("hem allowance of the lining"), told(lining.allowances.hem), by_hand
    if figures.opening is not None and figures.opening.zip is not None:
        yield say("zip to buy"), told(figures.opening.zip), say("zips are sold in these lengths")
    if figures.casing is not None:
        yield say("width of the elastic"), told(spec.skirt.elastic), bought
    if planned.ruffle is not None:
        row = planned.ruffle.rows[0]
        yield say("first gathering row, from the raw edge"), told(row), by_hand
    if figures.ruffle is not None and figures.ruffle.cord_metres is not None:
        yield say("thickness of the cord"), say("1 mm"), bought
    yield say("length of a stitch"), say("2.5 mm"), by_hand
    yield say("test square"), "100\u00a0mm", say("it measures the printer, not the garment")
    yield say("overlap of the pages"), told(spec.print.overlap), say("taped by the same hands")
    yield (
        say("words, lines, notches and margins"), say("as at full size"),
        say("they are for reading and for the printer"),
    )  # fmt: skip
    yield say("width of the cloth"), told(spec.cloths.skirt.width), bought


def _ratios(pattern: Pattern, planned: Plan) -> Iterator[tuple[str, str]]:
    slate = Slate(units=pattern.spec.units)

    def told(ratio: float) -> str:
        return slate.shown(ratio, Kind.NUMBER).rstrip("0").rstrip(".,")

    for layer in _flared(planned):
        cut = layer.cut
        assert isinstance(cut, Flare)
        name = (
            say("fullness of the lining, in circles")
            if layer.part == "lining"
            else say("fullness of the skirt, in circles")
        )
        yield name, told(cut.fullness)
    yield say("gather ratio at the waist"), told(planned.waist.gather_ratio)
    if planned.ruffle is not None:
        yield say("gather ratio of the ruffle"), told(planned.ruffle.gather_ratio)


def _behaves(pattern: Pattern, planned: Plan) -> Iterator[str]:
    """Yield how cloth behaves otherwise on a form half as large."""
    figures = pattern.figures
    yield say(
        "Cloth is about twice as stiff for its size: take a lighter one than the skirt will be"
        " sewn in."
    )
    if planned.ruffle is not None:
        low, high = (decimal(f"{planned.ruffle.gather_ratio * by:.2f}") for by in STIFFER)
        yield say(
            "So is net: a ruffle gathered {low} to {high} to 1 stands out as it will at full size.",
            low=low,
            high=high,
        )
    drop, limit = figures.skirt.bias_drop, figures.skirt.hem_allowance_limit
    if drop is not None:
        yield say(
            "At full bias the hem drops about {here} here and about {full} at full size: four times"
            " as far, and twice as far for its length.",
            here=length_text(drop, pattern.spec.units),
            full=length_text(drop / pattern.spec.scale**2, pattern.spec.units),
        )
    if limit is not None:
        yield say(
            "The curve of the hem takes a turn-up of {here} at most, half of the {full} that it"
            " takes at full size.",
            here=length_text(limit, pattern.spec.units),
            full=length_text(limit / pattern.spec.scale, pattern.spec.units),
        )
    yield say(
        "Full size is this draft times two for lengths and times four for areas and for the cloth"
        " of the panels; strips still go across the whole cloth. Never mix pages of two scales."
    )
