"""The booklet's first sections: finished measurements, what is needed, how long it takes.

Imports the making, the shopping list's words and the booklet's values.
"""

import math
from collections.abc import Sequence

from drafting.cloth.buying import sold_text
from drafting.figures import LayerFigures
from drafting.language import say, say_counted
from drafting.piece_names import cloth_words, kind_words
from drafting.spec import HemFinish, RuffleCloth, SeamFinish
from render.booklet import habits
from render.booklet.making import Making
from render.booklet.model import Block, Bullets, Paragraph, Section, Step, Table
from render.booklet.words import minutes_words
from render.lay_pages import notion_text, washing
from render.measures import cut_words, fullness_words
from render.pictures.picture import Picture


def measurements(making: Making, sketch: Picture | None) -> Section:
    """Return what the finished garment measures, with its sketch."""
    rows = [(say("waist, closed"), making.long(making.finished_waist))]
    if making.casing:
        rows = [
            (say("waist of the body"), making.long(making.spec.wearer.waist)),
            (say("waist, opened out"), making.long(making.skirt.waistline)),
        ]
    if making.sews_skirt:
        rows += _layer(making, making.skirt, say("skirt, {place}"))
        rows.append((say("skirt, hem all round"), making.long(making.skirt.sweep)))
    lining, ruffle = making.lining, making.ruffle
    if lining is not None:
        rows += _layer(making, lining, say("lining, {place}"))
        rows.append((say("lining, hem all round"), making.long(lining.sweep)))
    if ruffle is not None:
        rows.append((say("ruffle, depth"), making.long(ruffle.depth)))
        rows.append((say("ruffle, flat length"), making.long(ruffle.flat_length)))
        rows.append((say("ruffle's line on the lining"), making.long(ruffle.line_length)))
    blocks: list[Block] = []
    if sketch is not None:
        blocks.append(sketch)
    blocks.append(
        Table(
            caption=say("Measures of the finished garment"),
            heads=(say("where"), say("finished")),
            rows=tuple(rows),
            figures=(1,),
        )
    )
    if making.sews_skirt and making.skirt.fullness is not None and making.skirt.cut == "circle":
        blocks.append(
            Paragraph(
                words=say(
                    "The skirt is cut from {fullness} in {panels}. Fullness is counted in circles,"
                    " never in panels.",
                    fullness=fullness_words(making.skirt.fullness),
                    panels=say_counted("{count} panel", "{count} panels", making.skirt.panels),
                )
            )
        )
    elif making.sews_skirt:
        blocks.append(
            Paragraph(words=say("The skirt is cut as {cut}.", cut=cut_words(making.skirt)))
        )
    blocks.append(
        Paragraph(
            words=say(
                "Lengths are measured from the waist seam. Measure the finished skirt against this"
                " table before you cut away anything that you might want back."
            )
        )
    )
    return Section(name="measures", title=say("What it will measure"), blocks=tuple(blocks))


def _layer(making: Making, layer: LayerFigures, name: str) -> list[tuple[str, str]]:
    """Return a layer's length, or its lengths where they differ."""
    front, side, back = layer.length_front, layer.length_side, layer.length_back
    if front == side == back and layer.length_left is None:
        return [(name.format(place=say("length")), making.long(side))]
    places = [(say("length at the front"), front)]
    if layer.length_left is not None and layer.length_right is not None:
        places.append((say("length on the left"), layer.length_left))
        places.append((say("length on the right"), layer.length_right))
    else:
        places.append((say("length at the sides"), side))
    places.append((say("length at the back"), back))
    return [(name.format(place=place), making.long(long)) for place, long in places]


def needs(making: Making) -> Section:
    """Return what to buy and what to have at hand."""
    blocks: list[Block] = []
    shopping = making.shopping
    if shopping is not None:
        blocks.append(
            Table(
                caption=say("Cloth to buy, shrinking and squaring included"),
                heads=(say("cloth"), say("kind"), say("width"), say("buy")),
                rows=tuple(
                    (
                        cloth_words(one.name),
                        kind_words(one.lay.cloth.kind) or "–",
                        making.long(one.lay.cloth.width),
                        say("there is enough") if one.at_hand else sold_text(one.buy, making.units),
                    )
                    for one in shopping.purchases
                ),
                figures=(2, 3),
            )
        )
        blocks.append(Paragraph(words=washing(making.pattern)))
        if shopping.notions:
            blocks.append(
                Table(
                    caption=say("Notions"),
                    heads=(say("notion"), say("amount"), say("what for")),
                    rows=tuple(
                        (one.name, notion_text(one, making.units), one.why)
                        for one in shopping.notions
                    ),
                    figures=(1,),
                )
            )
    else:
        blocks.append(
            Table(
                caption=say("Cloth that the pieces take in plain rows, before shrinking"),
                heads=(say("cloth"), say("width"), say("length")),
                rows=tuple(
                    (cloth_words(name), making.long(one.width), making.long(one.rows_length))
                    for name, one in making.pattern.figures.cloth.items()
                ),
                figures=(1, 2),
            )
        )
    blocks.append(Section(name="tools", title=say("Tools"), blocks=(Bullets(items=tools(making)),)))
    return Section(name="needs", title=say("What you need"), blocks=tuple(blocks))


def tools(making: Making) -> tuple[str, ...]:
    """Return what to have at hand."""
    found = [
        say("tape measure, a long rule, chalk that brushes out, pins and a dish to count them in"),
        say("shears for cloth, scissors for paper, a seam ripper"),
        say("iron, pressing cloth, a surface as large as a panel"),
        say("sewing machine with a zigzag; needles {needle}", needle=_needle(making)),
    ]
    if making.opens and making.sews_skirt:
        found.append(say("zip foot"))
    if making.ruffle is not None:
        found.append(say("strong thread or smooth cord for gathering, and a clip for each quarter"))
    if making.spec.skirt.seams is SeamFinish.OVERLOCKED:
        found.append(say("overlocker"))
    elif making.sews_skirt and making.spec.skirt.hem is HemFinish.ROLLED:
        found.append(say("rolling foot, or an overlocker"))
    if making.sews_skirt:
        found.append(
            say("the half-scale form, and a ruler that stands on the table")
            if making.half_scale
            else say("a ruler that stands on the floor, and somebody to level the hem")
        )
        if making.grows:
            found.append(say("a form, or a wide hanger, to hang the skirt from"))
    if making.casing:
        found.append(say("bodkin or safety pin to thread the elastic"))
    return tuple(found)


def _needle(making: Making) -> str:
    wish = making.spec.ruffle
    if wish is None:
        return habits.NEEDLE_COTTON
    return {
        RuffleCloth.SILK_ORGANZA: habits.NEEDLE_FINE,
        RuffleCloth.POLYESTER_ORGANZA: habits.NEEDLE_FINE,
        RuffleCloth.CRINOLINE_CANVAS: habits.NEEDLE_HEAVY,
    }.get(wish.cloth, habits.NEEDLE_NET)


ROUND = 5
"""Minutes are shown to the nearest five; nobody estimates closer."""


def minutes(exactly: float) -> int:
    """Return minutes rounded up to five."""
    return ROUND * math.ceil(exactly / ROUND - 1e-9)


def times(making: Making, steps: Sequence[Step]) -> Section:
    """Return how long each step takes and how hard the garment is, as estimates."""
    rows = [
        (step.title, minutes_words(minutes(step.hands)), minutes_words(minutes(step.first)))
        for step in steps
    ]
    total = (
        say("all steps"),
        minutes_words(sum(minutes(step.hands) for step in steps)),
        minutes_words(sum(minutes(step.first) for step in steps)),
    )
    waiting = max(_hangs(making))
    blocks: list[Block] = [
        Paragraph(words=difficulty(making)),
        Table(
            caption=say("About how long it takes: estimates, breaks not counted"),
            heads=(say("step"), say("practised"), say("first skirt")),
            rows=(*rows, total),
            figures=(1, 2),
        ),
    ]
    if waiting:
        blocks.append(
            Paragraph(
                words=say(
                    "To that come {hours} hours in which skirt and lining hang; hang both at the"
                    " same"
                    " time.",
                    hours=waiting,
                )
                if making.lining is not None
                else say(
                    "To that come {hours} hours in which the skirt hangs by itself.", hours=waiting
                )
            )
        )
    return Section(name="times", title=say("How long, how hard"), blocks=tuple(blocks))


def _hangs(making: Making) -> tuple[int, int]:
    """Return how many hours the skirt and the lining hang, 0 for those that hardly grow."""
    lining = making.lining
    skirt = (making.skirt.hang_hours or 0) if making.grows else 0
    grown = lining.bias_drop_most or 0.0 if lining is not None else 0.0
    hung = lining is not None and grown >= habits.LEAST_GROWTH
    return skirt, (lining.hang_hours or 0) if lining is not None and hung else 0


LONG_HEM = 4000.0
"""From here on a hem is an evening's work by itself."""


EASY = 3
"""So many things that take care make a skirt for some practice; more take several evenings."""


def difficulty(making: Making) -> str:
    """Return how hard a garment is to sew, with what makes it so; an opinion."""
    figures, wish = making.pattern.figures, making.spec.skirt
    reasons = []
    if making.opens and making.sews_skirt:
        reasons.append(say("an opening to set in"))
    if making.ruffle is not None:
        reasons.append(
            say("{long} of ruffle to gather", long=making.metres(_gathered(making) / 1000))
        )
    if making.sews_skirt and making.skirt.sweep > LONG_HEM:
        reasons.append(say("a hem of {sweep}", sweep=making.long(making.skirt.sweep)))
    if making.lining is not None and making.sews_skirt:
        reasons.append(say("a lining"))
    if making.skirt.hipline is not None:
        reasons.append(say("gores shaped over the hip"))
    if making.half_scale:
        reasons.append(say("small curves and narrow hems"))
    if figures.godets is not None:
        reasons.append(say("godets"))
    if figures.flounce is not None:
        reasons.append(say("a flounce on a curve"))
    if figures.tiers:
        reasons.append(say("tiers"))
    if wish.seams is SeamFinish.FRENCH:
        reasons.append(say("French seams"))
    if wish.pockets and making.piece("pocket"):
        reasons.append(say("pockets"))
    told = ", ".join(reasons)
    if not reasons:
        return say("Difficulty: a good first skirt.")
    if len(reasons) <= EASY:
        return say("Difficulty: some practice. What takes care: {reasons}.", reasons=told)
    return say(
        "Difficulty: for a steady hand and several evenings. What takes care: {reasons}.",
        reasons=told,
    )


def _gathered(making: Making) -> float:
    ruffle = making.ruffle
    assert ruffle is not None
    return ruffle.gathered_length or ruffle.flat_length
