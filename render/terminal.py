"""What the terminal shows: a short table aligned on its units, findings, files.

Plain text; nothing depends on colour. Imports drafting's values.
"""

import textwrap
from collections.abc import Iterable

from drafting.figures import Figures, LayerFigures, TierFigures
from drafting.findings import Finding, Level
from drafting.language import headed, in_its_language, say, say_as
from drafting.pattern import Pattern
from drafting.sizes import SizeTable, project_table
from drafting.units import Units, inch, length_text, metre, metres_text, radius_text, yard
from render.measures import (
    LONGEST_RADIUS,
    finish_words,
    fullness_words,
    layer_words,
    lengths,
    ratio_text,
)

WIDTH = 88

Row = tuple[str, str]


@in_its_language
def figures_table(pattern: Pattern) -> str:
    """Return the figures of a garment, part by part, numbers aligned on their units."""
    if pattern.sizes:
        from render.sized_terminal import sized_text

        return sized_text(pattern)
    figures, units = pattern.figures, pattern.spec.units
    parts: list[tuple[str, list[Row]]] = [(_skirt_words(figures), _layer(figures.skirt, units))]
    if figures.lining is not None:
        parts.append((layer_words("lining"), _layer(figures.lining, units)))
    parts += _below(figures, units)
    parts += _ruffle(pattern)
    parts += _waist(pattern)
    cloth = [
        (
            say(
                "{layer}, {width} wide",
                layer=layer_words(name),
                width=length_text(held.width, units),
            ),
            length_text(held.rows_length, units),
        )
        for name, held in figures.cloth.items()
    ]
    parts.append((say("cloth in plain rows, before shrinkage"), cloth))
    rows = [row for _, held in parts for row in held]
    names = max(len(name) for name, _ in rows)
    numbers = max(len(_number(value)) for _, value in rows)
    lines = [pattern.spec.title]
    for title, held in parts:
        lines.append(f"{title}")
        for name, value in held:
            number = _number(value)
            lines.append(f"  {name:<{names}}  {number:>{numbers}}{value[len(number) :]}".rstrip())
    return "\n".join(lines).replace("\u00a0", " ")


def _number(value: str) -> str:
    """Return the figure of a value, without its unit."""
    head, _, unit = value.rpartition("\u00a0")
    return head if head and unit in {"cm", inch(), metre(), yard()} else value


def _layer(layer: LayerFigures, units: Units) -> list[Row]:
    waist, hem = layer.waist_radius, layer.hem_radius
    rows = [] if layer.cut == "owned" else [_cut_row(layer)]
    rows.append((say("waist seam, flat"), length_text(layer.waistline, units)))
    if waist is not None and waist < LONGEST_RADIUS:
        rows.append((say("waist radius, rounded down"), radius_text(waist, units)))
    if hem is not None and hem < LONGEST_RADIUS:
        rows.append((say("hem radius, rounded down"), radius_text(hem, units)))
    rows += [
        (say("length {place}", place=place) if place else say("length"), long)
        for place, long in lengths(layer, units)
    ]
    rows.append((say("sweep"), length_text(layer.sweep, units)))
    if layer.walking_sweep is not None:
        step = length_text(layer.walking_sweep, units)
        rows.append((say("sweep that a step needs, about"), step))
    if layer.hem_spare:
        rows.append((say("spare below the hem"), length_text(layer.hem_spare, units)))
    if layer.vent:
        rows.append((say("vent up from the hem"), length_text(layer.vent, units)))
    if layer.opening:
        rows.append((say("opening below the waist seam"), length_text(layer.opening, units)))
    return rows


def _skirt_words(figures: Figures) -> str:
    return say("skirt, sewn already") if figures.skirt.cut == "owned" else layer_words("skirt")


def _cut_row(layer: LayerFigures) -> Row:
    many = str(layer.panels)
    if layer.cut == "gathered":
        return say("gathered {ratio} to 1, lengths", ratio=ratio_text(layer.gather_ratio)), many
    if layer.cut == "gored":
        return say("gores") if layer.hipline is None else say("gores, shaped"), many
    if layer.cut == "tiered":
        return say("yoke, panels"), many
    return say("{circles}, panels", circles=fullness_words(layer.fullness or 0.0)), many


def _below(figures: Figures, units: Units) -> list[tuple[str, list[Row]]]:
    """Return godets, flounce, tiers, and what the hem takes."""
    parts: list[tuple[str, list[Row]]] = []
    if figures.godets is not None:
        held = figures.godets
        parts.append((
            say("godets"),
            [(say("to cut"), str(held.count)), (say("depth"), length_text(held.depth, units)),
             (say("sweep that they add"), length_text(held.sweep, units))],
        ))  # fmt: skip
    if figures.flounce is not None:
        ring = figures.flounce
        parts.append((
            say("flounce"),
            [(say("rings to cut"), str(ring.rings)), (say("depth"), length_text(ring.depth, units)),
             (say("inner radius, rounded down"), radius_text(ring.inner_radius, units)),
             (say("sewn to"), length_text(ring.sewn_length, units))],
        ))  # fmt: skip
    parts += [
        (
            say(
                "tier {number}, gathered {ratio} to 1",
                number=order,
                ratio=ratio_text(tier.gather_ratio),
            ),
            _tier(tier, units),
        )
        for order, tier in enumerate(figures.tiers, start=1)
    ]
    hem = figures.hem
    if hem is None:
        return parts
    name = say("hem, {finish}", finish=finish_words(hem.finish))
    for words, long in (
        (say("bias strip"), hem.strip_length),
        (say("braid"), hem.braid_length),
        (say("depth"), hem.facing_depth),
    ):
        if long is not None:
            parts.append((name, [(words, length_text(long, units))]))
    return parts


def _tier(tier: TierFigures, units: Units) -> list[Row]:
    return [
        (say("flat length"), length_text(tier.flat_length, units)),
        (say("strips to cut"), str(tier.strips)),
        (say("strip length"), length_text(tier.strip_cut_length, units)),
        (say("strip depth"), length_text(tier.strip_cut_depth, units)),
    ]


def _ruffle(pattern: Pattern) -> list[tuple[str, list[Row]]]:
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    if ruffle is None:
        return []
    rows = [
        (say("its line, below the waist seam"), length_text(ruffle.line_below_waist, units)),
        (say("its line, all round"), length_text(ruffle.line_length, units)),
        (say("flat length, gathered {ratio} to 1", ratio=ratio_text(ruffle.gather_ratio)),
         length_text(ruffle.flat_length, units)),
        (say("strips to cut"), str(ruffle.strips)),
        (say("strip length"), length_text(ruffle.strip_cut_length, units)),
        (say("strip depth"), length_text(ruffle.strip_cut_depth, units)),
        (say("thread, about"), metres_text(ruffle.thread_metres, units)),
    ]  # fmt: skip
    if ruffle.cord_metres is not None:
        rows.append((say("cord, about"), metres_text(ruffle.cord_metres, units)))
    tiers = [
        (
            say(
                "ruffle tier {number}, gathered {ratio} to 1",
                number=order,
                ratio=ratio_text(tier.gather_ratio),
            ),
            _tier(tier, units),
        )
        for order, tier in enumerate(ruffle.tiers, start=1)
        if order > 1
    ]
    return [(layer_words("ruffle"), rows), *tiers]


def _waist(pattern: Pattern) -> list[tuple[str, list[Row]]]:
    figures, units = pattern.figures, pattern.spec.units
    parts: list[tuple[str, list[Row]]] = []
    for name, strip in (
        (say("band"), figures.band),
        (say("casing"), figures.casing),
        (say("binding"), figures.binding),
    ):
        if strip is None:
            continue
        rows = [
            (say("cut length"), length_text(strip.cut_length, units)),
            (say("cut width"), length_text(strip.cut_width, units)),
        ]
        if strip.elastic is not None:
            rows.append((say("elastic, about"), length_text(strip.elastic, units)))
        parts.append((name, rows))
    if figures.contour is not None:
        band = figures.contour
        parts.append((
            say("band, shaped"),
            [(say("upper edge"), length_text(band.top, units)),
             (say("waist seam"), length_text(band.bottom, units)),
             (say("height"), length_text(band.height, units))],
        ))  # fmt: skip
    if figures.facing is not None:
        parts.append((say("facing"), [(say("depth"), length_text(figures.facing.depth, units))]))
    if figures.opening is not None and figures.opening.zip is not None:
        parts.append((say("closure"), [(say("zip"), length_text(figures.opening.zip, units))]))
    return parts


def findings_text(findings: Iterable[Finding]) -> str:
    """Return findings as they are read out: what is so, then what to do, a blank line apart.

    In the language spoken, which is that of their sheet.
    """
    blocks = []
    for finding in findings:
        head = headed(_level_words(finding.level), "")
        block = [
            textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=" " * len(head))
            for text, first in ((finding.what, head), (finding.do, " " * len(head)))
        ]
        blocks.append("\n".join(block))
    return "\n\n".join(blocks).replace("\u00a0", " ")


def _level_words(level: Level) -> str:
    return {
        Level.NOTE: say_as("finding", "note"),
        Level.CAUTION: say_as("finding", "caution"),
        Level.STOP: say_as("finding", "stop"),
    }[level]


def sizes_text(units: Units, table: SizeTable | None = None) -> str:
    """Return a size table, the project's unless another is given, in centimetres or inches."""
    own, table = table is not None, table or project_table()
    heads: tuple[str, ...] = (
        "size",
        "waist",
        "hip",
        "hip depth",
        "to knee",
        "floor front",
        "side",
        "back",
    )
    if own and table.has_heights:
        heads = (*heads, "height")
    rows = [
        (
            size.name,
            *(
                length_text(value, units).rpartition("\u00a0")[0].replace("\u00a0", " ")
                for value in (
                    size.waist, size.hip, size.hip_depth, size.waist_to_knee,
                    size.floor_front, size.floor_side, size.floor_back, size.height or 0.0,
                )[: len(heads) - 1]
            ),
        )
        for size in table.sizes
    ]  # fmt: skip
    widths = [max(len(row[k]) for row in (heads, *rows)) for k in range(len(heads))]
    lines = [
        "  ".join(
            cell.ljust(wide) if k == 0 else cell.rjust(wide)
            for k, (cell, wide) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in (heads, *rows)
    ]
    unit, tall = (
        ("centimetres", "168 cm")
        if units is Units.CM
        else ("inches, to the nearest 1/8", "66 1/8 in")
    )
    first = f"Our own size table, in {unit}: women, {tall} tall, barefoot."
    last = 'Write size = "P05" under [wearer]; any measure beside it wins.'
    if own:
        first = f"{table.file}, in {unit}: {len(table.sizes)} sizes, without a fault."
        last = (
            f'Write size_table = "{table.file}" at the top of a sheet beside it, and size ='
            f' "{table.names[0]}" under [wearer].'
        )
    return "\n".join([first, *lines, "", last])
