"""What the terminal shows: a short table aligned on its units, findings, files.

Plain text; nothing depends on colour. Imports drafting's values.
"""

import textwrap
from collections.abc import Iterable

from drafting.figures import Figures, LayerFigures, TierFigures
from drafting.findings import Finding
from drafting.language import in_its_language
from drafting.pattern import Pattern
from drafting.sizes import size_table
from drafting.units import Units, length_text, radius_text
from render.measures import LONGEST_RADIUS, fullness_words, lengths, metres_text

WIDTH = 88

Row = tuple[str, str]


@in_its_language
def figures_table(pattern: Pattern) -> str:
    """Return the figures of a garment, part by part, numbers aligned on their units."""
    figures, units = pattern.figures, pattern.spec.units
    parts: list[tuple[str, list[Row]]] = [(_skirt_words(figures), _layer(figures.skirt, units))]
    if figures.lining is not None:
        parts.append(("lining", _layer(figures.lining, units)))
    parts += _below(figures, units)
    parts += _ruffle(pattern)
    parts += _waist(pattern)
    cloth = [
        (f"{name}, {length_text(held.width, units)} wide", length_text(held.rows_length, units))
        for name, held in figures.cloth.items()
    ]
    parts.append(("cloth in plain rows, before shrinkage", cloth))
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
    return head if head and unit in {"cm", "in", "m", "yd"} else value


def _layer(layer: LayerFigures, units: Units) -> list[Row]:
    rows = [
        *([] if layer.cut == "owned" else [_cut_row(layer)]),
        ("waist seam, flat", length_text(layer.waistline, units)),
        *(
            (f"{name} radius, rounded down", radius_text(radius, units))
            for name, radius in (("waist", layer.waist_radius), ("hem", layer.hem_radius))
            if radius is not None and radius < LONGEST_RADIUS
        ),
        *((f"length {name}".strip(), words) for name, words in lengths(layer, units)),
        ("sweep", length_text(layer.sweep, units)),
    ]
    if layer.walking_sweep is not None:
        rows.append(("sweep that a step needs, about", length_text(layer.walking_sweep, units)))
    if layer.hem_spare:
        rows.append(("spare below the hem", length_text(layer.hem_spare, units)))
    if layer.vent:
        rows.append(("vent up from the hem", length_text(layer.vent, units)))
    if layer.opening:
        rows.append(("opening below the waist seam", length_text(layer.opening, units)))
    return rows


def _skirt_words(figures: Figures) -> str:
    return "skirt, sewn already" if figures.skirt.cut == "owned" else "skirt"


def _cut_row(layer: LayerFigures) -> Row:
    if layer.cut == "gathered":
        return (f"gathered {layer.gather_ratio or 1:.3g} to 1, lengths", str(layer.panels))
    if layer.cut == "gored":
        return ("gores" + (", shaped" if layer.hipline is not None else ""), str(layer.panels))
    if layer.cut == "tiered":
        return ("yoke, panels", str(layer.panels))
    return (f"{fullness_words(layer.fullness or 0.0)}, panels", str(layer.panels))


def _below(figures: Figures, units: Units) -> list[tuple[str, list[Row]]]:
    """Return godets, flounce, tiers, and what the hem takes."""
    parts: list[tuple[str, list[Row]]] = []
    if figures.godets is not None:
        held = figures.godets
        parts.append((
            "godets",
            [("to cut", str(held.count)), ("depth", length_text(held.depth, units)),
             ("sweep that they add", length_text(held.sweep, units))],
        ))  # fmt: skip
    if figures.flounce is not None:
        ring = figures.flounce
        parts.append((
            "flounce",
            [("rings to cut", str(ring.rings)), ("depth", length_text(ring.depth, units)),
             ("inner radius, rounded down", radius_text(ring.inner_radius, units)),
             ("sewn to", length_text(ring.sewn_length, units))],
        ))  # fmt: skip
    parts += _tiers("tier", figures.tiers, units)
    hem = figures.hem
    if hem is not None and hem.strip_length is not None:
        parts.append((f"hem, {hem.finish}", [("bias strip", length_text(hem.strip_length, units))]))
    if hem is not None and hem.braid_length is not None:
        parts.append((f"hem, {hem.finish}", [("braid", length_text(hem.braid_length, units))]))
    if hem is not None and hem.facing_depth is not None:
        parts.append((f"hem, {hem.finish}", [("depth", length_text(hem.facing_depth, units))]))
    return parts


def _tiers(name: str, tiers: tuple[TierFigures, ...], units: Units) -> list[tuple[str, list[Row]]]:
    return [
        (
            f"{name} {order}, gathered {tier.gather_ratio:.3g} to 1",
            [
                ("flat length", length_text(tier.flat_length, units)),
                ("strips to cut", str(tier.strips)),
                ("strip length", length_text(tier.strip_cut_length, units)),
                ("strip depth", length_text(tier.strip_cut_depth, units)),
            ],
        )
        for order, tier in enumerate(tiers, start=1)
    ]


def _ruffle(pattern: Pattern) -> list[tuple[str, list[Row]]]:
    ruffle, units = pattern.figures.ruffle, pattern.spec.units
    if ruffle is None:
        return []
    rows = [
        ("its line, below the waist seam", length_text(ruffle.line_below_waist, units)),
        ("its line, all round", length_text(ruffle.line_length, units)),
        (f"flat length, gathered {ruffle.gather_ratio:.3g} to 1",
         length_text(ruffle.flat_length, units)),
        ("strips to cut", str(ruffle.strips)),
        ("strip length", length_text(ruffle.strip_cut_length, units)),
        ("strip depth", length_text(ruffle.strip_cut_depth, units)),
        ("thread, about", metres_text(ruffle.thread_metres, units)),
    ]  # fmt: skip
    if ruffle.cord_metres is not None:
        rows.append(("cord, about", metres_text(ruffle.cord_metres, units)))
    return [("ruffle", rows), *_tiers("ruffle tier", ruffle.tiers, units)[1:]]


def _waist(pattern: Pattern) -> list[tuple[str, list[Row]]]:
    figures, units = pattern.figures, pattern.spec.units
    parts: list[tuple[str, list[Row]]] = []
    for name, strip in (
        ("band", figures.band),
        ("casing", figures.casing),
        ("binding", figures.binding),
    ):
        if strip is None:
            continue
        rows = [
            ("cut length", length_text(strip.cut_length, units)),
            ("cut width", length_text(strip.cut_width, units)),
        ]
        if strip.elastic is not None:
            rows.append(("elastic, about", length_text(strip.elastic, units)))
        parts.append((name, rows))
    if figures.contour is not None:
        band = figures.contour
        parts.append((
            "band, shaped",
            [("upper edge", length_text(band.top, units)),
             ("waist seam", length_text(band.bottom, units)),
             ("height", length_text(band.height, units))],
        ))  # fmt: skip
    if figures.facing is not None:
        parts.append(("facing", [("depth", length_text(figures.facing.depth, units))]))
    if figures.opening is not None and figures.opening.zip is not None:
        parts.append(("closure", [("zip", length_text(figures.opening.zip, units))]))
    return parts


def findings_text(findings: Iterable[Finding]) -> str:
    """Return findings as they are read out: what is so, then what to do, a blank line apart."""
    blocks = []
    for finding in findings:
        head = f"{finding.level.value}: "
        block = [
            textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=" " * len(head))
            for text, first in ((finding.what, head), (finding.do, " " * len(head)))
        ]
        blocks.append("\n".join(block))
    return "\n\n".join(blocks).replace("\u00a0", " ")


def sizes_text(units: Units) -> str:
    """Return the size table, in centimetres or inches."""
    heads = ("size", "waist", "hip", "hip depth", "to knee", "floor front", "side", "back")
    rows = [
        (
            size.name,
            *(
                length_text(value, units).rpartition("\u00a0")[0].replace("\u00a0", " ")
                for value in (
                    size.waist, size.hip, size.hip_depth, size.waist_to_knee,
                    size.floor_front, size.floor_side, size.floor_back,
                )
            ),
        )
        for size in size_table()
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
    return "\n".join(
        [
            f"Our own size table, in {unit}: women, {tall} tall, barefoot.",
            *lines,
            "",
            'Write size = "P05" under [wearer]; any measure beside it wins.',
        ]
    )
