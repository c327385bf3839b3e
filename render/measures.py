"""The figures of a garment in words, for the ticket and the terminal alike.

Imports drafting's figures and units, and the language they are said in.
"""

import math
from dataclasses import dataclass

from drafting.figures import Figures, LayerFigures, TierFigures, above_seam
from drafting.language import clauses, decimal, listed, said_later, say, say_as, say_counted
from drafting.pattern import Pattern
from drafting.units import Units, length_text, metres_text, radius_text

_NAMES = {
    0.25: said_later("a quarter circle"),
    0.3333: said_later("a third of a circle"),
    0.5: said_later("a half circle"),
    0.75: said_later("a three-quarter circle"),
    1.0: said_later("one full circle"),
    1.5: said_later("one and a half circles"),
    2.0: said_later("two full circles"),
    3.0: said_later("three full circles"),
    4.0: said_later("four full circles"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A part of a garment with its figures.

    Attributes:
        part: its name in English whatever is spoken, to tell parts apart by.
        name: its name in the language spoken; empty where it goes on with the part before.
        words: its figures in a sentence.
    """

    part: str
    name: str
    words: str


def fullness_words(fullness: float) -> str:
    """Return a fullness in words: circles, never panels, so that the two are not confused."""
    for value, words in _NAMES.items():
        if abs(fullness - value) < 5e-4:
            return say(words)
    shown = decimal(f"{fullness:g}")
    if fullness < 1:
        return say("{fullness} of a circle", fullness=shown)
    return say("{fullness} circles", fullness=shown)


def share_text(share: float) -> str:
    """Return a share as hundredths: "3%"."""
    return say_as("share", "{number}%", number=f"{share:.0%}".removesuffix("%"))


def ratio_text(ratio: float | None) -> str:
    """Return how many times as long cloth is flat as it is gathered; 1 where it is not."""
    return decimal(f"{ratio or 1:.3g}")


def layer_words(name: str) -> str:
    """Return what a layer or the cloth for a part is called where it stands alone: "skirt"."""
    return {
        "skirt": say_as("layer", "skirt"),
        "lining": say_as("layer", "lining"),
        "ruffle": say_as("layer", "ruffle"),
        "interfacing": say_as("layer", "interfacing"),
        "binding": say_as("layer", "binding"),
    }[name]


def finish_words(finish: str) -> str:
    """Return how a hem is finished."""
    return {
        "narrow": say_as("hem", "narrow"),
        "turned": say_as("hem", "turned"),
        "rolled": say_as("hem", "rolled"),
        "faced": say_as("hem", "faced"),
        "bias-faced": say_as("hem", "bias-faced"),
        "braid": say_as("hem", "braid"),
        "bound": say_as("hem", "bound"),
    }[finish]


def measures(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Return every part of a garment as a name and a sentence with its figures."""
    return tuple((one.name, one.words) for one in measures_by_part(pattern))


def measures_by_part(pattern: Pattern) -> tuple[Measure, ...]:
    """Return every part of a garment with its figures, the parts told apart."""
    figures, units = pattern.figures, pattern.spec.units
    rows = [_measure("skirt", layer_words("skirt"), _layer(pattern, figures.skirt))]
    if figures.lining is not None:
        rows.append(_measure("lining", layer_words("lining"), _layer(pattern, figures.lining)))
    rows += _bias(figures, units)
    rows += _below(figures, units)
    rows += _ruffle(figures, units)
    rows += _waist(pattern)
    if figures.opening is not None:
        rows.append(_measure("opening", say("opening"), _opening(pattern)))
    cloths = [
        say(
            "{layer} {length} of cloth {width} wide",
            layer=layer_words(name),
            length=length_text(cloth.rows_length, units),
            width=length_text(cloth.width, units),
        )
        for name, cloth in figures.cloth.items()
    ]
    if cloths:
        words = say(
            "in plain rows, before shrinkage, the pieces take: {cloths}", cloths=", ".join(cloths)
        )
        rows.append(_measure("cloth", say("cloth"), words))
    if washing := _washing(pattern):
        rows.append(_measure("wash", "", washing))
    return tuple(rows)


def _measure(part: str, name: str, words: str) -> Measure:
    return Measure(part=part, name=name, words=words)


def _washing(pattern: Pattern) -> str:
    """Return what each cloth may lose in its first wash, as the sheet or its kind has it."""
    cloths = pattern.spec.cloths
    lost = [
        f"{layer_words(name)} {share_text(getattr(cloths, name).shrink_length)}"
        for name in ("skirt", "lining", "ruffle")
        if name in pattern.figures.cloth and getattr(cloths, name).shrink_length > 0
    ]
    if not lost:
        return ""
    return say(
        "wash and press the cloth before you cut; along its length it may lose, an estimate:"
        " {cloths}",
        cloths=", ".join(lost),
    )


def _seam(pattern: Pattern, layer: LayerFigures) -> str:
    """Return the flat waist seam and what becomes of it: its finished length, or elastic."""
    units = pattern.spec.units
    flat = length_text(layer.waistline, units)
    if pattern.figures.casing is not None:
        return say("flat waist seam {length}, drawn up by elastic", length=flat)
    finished = length_text(_finished_waist(pattern), units)
    return say("flat waist seam {length}, sewn to {waist}", length=flat, waist=finished)


def _finished_waist(pattern: Pattern) -> float:
    return pattern.figures.waist.finished


def lengths(layer: LayerFigures, units: Units) -> tuple[tuple[str, str], ...]:
    """Return a layer's length, or its lengths where they differ: a place and how long."""
    if max(layer.length_front, layer.length_back) - layer.length_side == 0 and (
        layer.length_front == layer.length_back and layer.length_left is None
    ):
        return (("", length_text(layer.length_side, units)),)
    left, right = layer.length_left, layer.length_right
    sides = [(say("at the sides"), layer.length_side)]
    if left is not None and right is not None:
        sides = [(say("on the left"), left), (say("on the right"), right)]
    front, back = (say("at the front"), layer.length_front), (say("at the back"), layer.length_back)
    found = [front, *sides, back]
    return tuple((name, length_text(long, units)) for name, long in found)


def cut_words(layer: LayerFigures) -> str:
    """Return how a layer is cut, in words: circles, gores or gathered lengths, and how many."""
    if layer.cut == "owned":
        return say("sewn already; what follows is what goes into it")
    if layer.cut == "gathered":
        return say_counted(
            "{count} straight length, gathered {ratio} to 1",
            "{count} straight lengths, gathered {ratio} to 1",
            layer.panels,
            ratio=ratio_text(layer.gather_ratio),
        )
    if layer.cut == "gored":
        return _gores_words(layer)
    if layer.cut == "tiered":
        return say_counted(
            "a yoke in {count} panel, and tiers", "a yoke in {count} panels, and tiers",
            layer.panels,
        )  # fmt: skip
    assert layer.fullness is not None
    circles = fullness_words(layer.fullness)
    if layer.panel_angle is None:
        return say_counted(
            "{circles} in {count} panel", "{circles} in {count} panels",
            layer.panels, circles=circles,
        )  # fmt: skip
    return say_counted(
        "{circles} in {count} panel of {angle}°",
        "{circles} in {count} panels of {angle}°",
        layer.panels,
        circles=circles,
        angle=decimal(f"{layer.panel_angle:.4g}"),
    )


def _gores_words(layer: LayerFigures) -> str:
    if layer.hipline is None:
        words = say_counted("{count} gores", "{count} gores", layer.panels)
    else:
        words = say_counted(
            "{count} gores shaped over the hip", "{count} gores shaped over the hip", layer.panels
        )
    if layer.fullness is None:
        return words
    flare = say("their flare {fullness} of a circle", fullness=decimal(f"{layer.fullness:.3g}"))
    return f"{words}, {flare}"


LONGEST_RADIUS = 3000.0
"""A longer radius is no arc that anyone swings, in mm."""


def _radii(layer: LayerFigures, units: Units) -> str:
    waist, hem = (
        "" if radius is None or radius >= LONGEST_RADIUS else radius_text(radius, units)
        for radius in (layer.waist_radius, layer.hem_radius)
    )
    if waist and hem:
        return say(
            "waist radius {waist} and hem radius {hem}, both rounded down", waist=waist, hem=hem
        )
    if waist:
        return say("waist radius {radius}, rounded down", radius=waist)
    return say("hem radius {radius}, rounded down", radius=hem) if hem else ""


def _layer(pattern: Pattern, layer: LayerFigures) -> str:
    units = pattern.spec.units
    long = ", ".join(
        say("{length} {place}", length=words, place=place) if place else words
        for place, words in lengths(layer, units)
    )
    down = say(
        "length from the waist seam {lengths}, sweep {sweep}",
        lengths=long,
        sweep=length_text(layer.sweep, units),
    )
    radii = _radii(layer, units)
    told = (cut_words(layer), _seam(pattern, layer), clauses((radii, down)) if radii else down)
    return clauses(told)


def _bias(figures: Figures, units: Units) -> list[Measure]:
    """Return how far each hem drops at angles to the grain, and how long to hang it."""
    rows: list[Measure] = []
    for part, layer in (("skirt", figures.skirt), ("lining", figures.lining)):
        if layer is None or layer.bias_drop is None or layer.bias_drop < 1:
            continue
        full = layer.bias_drop
        drops = ", ".join(
            say(
                "{length} at {angle}°",
                length=length_text(full * math.sin(math.radians(2 * angle)) ** 2, units),
                angle=angle,
            )
            for angle in (15, 30, 45)
        )
        if part == "skirt":
            words = say(
                "the skirt's hem drops by its angle to the grain, an estimate: {drops}; hang it"
                " {hours} hours before the hem",
                drops=drops,
                hours=layer.hang_hours,
            )
        else:
            words = say(
                "the lining's hem drops by its angle to the grain, an estimate: {drops}; hang it"
                " {hours} hours before the hem",
                drops=drops,
                hours=layer.hang_hours,
            )
        rows.append(_measure("bias", "" if rows else say("bias"), words))
    return rows


def _below(figures: Figures, units: Units) -> list[Measure]:
    """Return what hangs from the skirt's panels or is set into them, and its hem."""
    rows = []
    if figures.godets is not None:
        held = figures.godets
        words = say(
            "{count}, each {depth} deep with an angle of {angle}°, adding {sweep} of sweep",
            count=held.count,
            depth=length_text(held.depth, units),
            angle=decimal(f"{held.angle:.3g}"),
            sweep=length_text(held.sweep, units),
        )
        rows.append(_measure("godets", say("godets"), words))
    if figures.flounce is not None:
        ring = figures.flounce
        words = say_counted(
            "{count} ring of {angle}°, inner radius {inner} and outer radius {outer}, sewn to"
            " {sewn}; {depth} deep",
            "{count} rings of {angle}°, inner radius {inner} and outer radius {outer}, sewn to"
            " {sewn}; {depth} deep",
            ring.rings,
            angle=decimal(f"{ring.ring_angle:.4g}"),
            inner=radius_text(ring.inner_radius, units),
            outer=radius_text(ring.outer_radius, units),
            sewn=length_text(ring.sewn_length, units),
            depth=length_text(ring.depth, units),
        )
        rows.append(_measure("flounce", say("flounce"), words))
    rows += [
        _measure(f"tier {order}", say("tier {number}", number=order), _tier(tier, units))
        for order, tier in enumerate(figures.tiers, start=1)
    ]
    rows += _hem(figures, units)
    return rows


def _tier(tier: TierFigures, units: Units) -> str:
    return say_counted(
        "{count} strip {long} × {wide}, joined to {flat} flat, gathered {ratio} to 1: each quarter"
        " of {quarter} is drawn up to {drawn}; finished {depth} deep",
        "{count} strips {long} × {wide}, joined to {flat} flat, gathered {ratio} to 1: each quarter"
        " of {quarter} is drawn up to {drawn}; finished {depth} deep",
        tier.strips,
        long=length_text(tier.strip_cut_length, units),
        wide=length_text(tier.strip_cut_depth, units),
        flat=length_text(tier.flat_length, units),
        ratio=ratio_text(tier.gather_ratio),
        quarter=length_text(tier.flat_length / 4, units),
        drawn=length_text(tier.flat_length / 4 / tier.gather_ratio, units),
        depth=length_text(tier.depth, units),
    )


def _hem(figures: Figures, units: Units) -> list[Measure]:
    hem = figures.hem
    if hem is None:
        return []
    if hem.strip_length is not None and hem.strip_width is not None:
        words = say(
            "{finish}: a bias strip {width} wide and {length} long, its joints included",
            finish=finish_words(hem.finish),
            width=length_text(hem.strip_width, units),
            length=metres_text(hem.strip_length / 1000, units),
        )
    elif hem.braid_length is not None and hem.braid_width is not None:
        words = say(
            "horsehair braid {width} wide, {length}; cap its joint, and draw its upper edge in by"
            " its thread",
            width=length_text(hem.braid_width, units),
            length=metres_text(hem.braid_length / 1000, units),
        )
    elif hem.facing_depth is not None:
        words = say(
            "faced {depth} deep, cut to the curve", depth=length_text(hem.facing_depth, units)
        )
    else:
        return []
    return [_measure("hem", say("hem"), words)]


_METHODS = {
    "zigzag over a cord": said_later("zigzag over a cord"),
    "rows of long stitches": said_later("rows of long stitches"),
}
"""How a ruffle is gathered, by its name in the figures."""


def _ruffle(figures: Figures, units: Units) -> list[Measure]:
    ruffle = figures.ruffle
    if ruffle is None:
        return []
    strips = say_counted(
        "{count} strip {long} × {wide} across the cloth, joined to {flat} flat, gathered {ratio} to"
        " 1; each quarter of {quarter} is drawn up to {drawn}",
        "{count} strips {long} × {wide} across the cloth, joined to {flat} flat, gathered {ratio}"
        " to 1; each quarter of {quarter} is drawn up to {drawn}",
        ruffle.strips,
        long=length_text(ruffle.strip_cut_length, units),
        wide=length_text(ruffle.strip_cut_depth, units),
        flat=length_text(ruffle.flat_length, units),
        ratio=ratio_text(ruffle.gather_ratio),
        quarter=length_text(ruffle.flat_quarter, units),
        drawn=length_text(ruffle.line_quarter, units),
    )
    thread = metres_text(ruffle.thread_metres, units)
    amount = say("about {thread} of thread", thread=thread)
    if ruffle.cord_metres is not None:
        cord = metres_text(ruffle.cord_metres, units)
        amount = say("about {thread} of thread and {cord} of cord", thread=thread, cord=cord)
    gathering = say_counted(
        "{method}, {rows} from the raw edge, in {count} section; {amount}, an estimate",
        "{method}, {rows} from the raw edge, in {count} sections; {amount}, an estimate",
        ruffle.sections,
        method=say(_METHODS[ruffle.method]),
        rows=listed([length_text(row, units) for row in ruffle.rows_from_edge]),
        amount=amount,
    )
    return [
        _measure("ruffle", say("ruffle"), _ruffle_line(figures, units)),
        _measure("ruffle", "", strips),
        _measure("ruffle", "", gathering),
        *(
            _measure(
                f"ruffle tier {order}",
                say("ruffle tier {number}", number=order),
                _tier(tier, units),
            )
            for order, tier in enumerate(ruffle.tiers, start=1)
            if order > 1
        ),
    ]


def _ruffle_line(figures: Figures, units: Units) -> str:
    """Return where the ruffle's line lies: below the waist, or above an uneven hem; how long."""
    ruffle, lining = figures.ruffle, figures.lining
    assert ruffle is not None and lining is not None
    line, hem = (length_text(x, units) for x in (ruffle.line_length, lining.sweep))
    if len(lengths(lining, units)) == 1:
        return say(
            "sewn {down} below the waist, on the lining's side that faces the skirt; its line"
            " measures {line} there, not the hem's {hem}",
            down=length_text(ruffle.line_below_waist, units),
            line=line,
            hem=hem,
        )
    least = min(
        lining.length_front, lining.length_side, lining.length_back,
        lining.length_left or lining.length_side, lining.length_right or lining.length_side,
    )  # fmt: skip
    return say(
        "sewn {up} above the lining's hem all round, however long the lining is there, on the"
        " lining's side that faces the skirt; its line measures {line} there, not the hem's {hem}",
        up=length_text(least - ruffle.line_below_waist, units),
        line=line,
        hem=hem,
    )


def _waist(pattern: Pattern) -> list[Measure]:
    figures, units = pattern.figures, pattern.spec.units
    if figures.band is not None:
        band = figures.band
        words = say(
            "cut {long} × {wide}",
            long=length_text(band.cut_length, units),
            wide=length_text(band.cut_width, units),
        )
        return [_measure("band", say("band"), words)]
    if figures.casing is not None:
        casing = figures.casing
        words = say(
            "cut {long} × {wide}; elastic {elastic}, its join included, an estimate to try on",
            long=length_text(casing.cut_length, units),
            wide=length_text(casing.cut_width, units),
            elastic=length_text(casing.elastic or 0.0, units),
        )
        return [_measure("casing", say("casing"), words)]
    if figures.contour is not None:
        shaped = figures.contour
        words = say(
            "shaped: {top} at its upper edge, {bottom} at the waist seam, {height} high; radii"
            " {upper} and {lower}",
            top=length_text(shaped.top, units),
            bottom=length_text(shaped.bottom, units),
            height=length_text(shaped.height, units),
            upper=radius_text(shaped.top_radius, units),
            lower=radius_text(shaped.bottom_radius, units),
        )
        return [_measure("band", say("band"), words)]
    if figures.binding is not None:
        strip = figures.binding
        words = say(
            "bias strip {long} × {wide}",
            long=length_text(strip.cut_length, units),
            wide=length_text(strip.cut_width, units),
        )
        return [_measure("binding", say("binding"), words)]
    if pattern.spec.skirt.bodice_waist is not None and figures.skirt.cut != "owned":
        words = say(
            "the skirt is sewn to its waist seam, {seam} closed; the zip is that of the skirt"
            " alone, so add what opens in the bodice",
            seam=length_text(_finished_waist(pattern), units),
        )
        return [_measure("bodice", say("bodice"), words)]
    if figures.facing is not None:
        words = say(
            "{depth} deep; tape the waist seam to {waist}, which is the finished waist, so that it"
            " cannot stretch",
            depth=length_text(figures.facing.depth, units),
            waist=length_text(_finished_waist(pattern), units),
        )
        return [_measure("facing", say("facing"), words)]
    return []


def _opening(pattern: Pattern) -> str:
    figures, units = pattern.figures, pattern.spec.units
    assert figures.opening is not None
    layers = []
    if figures.skirt.cut != "owned":
        layers.append(say("skirt {length}", length=length_text(figures.skirt.opening, units)))
    if figures.lining is not None:
        layers.append(say("lining {length}", length=length_text(figures.lining.opening, units)))
    told = [say("{layers} below the waist seam", layers=", ".join(layers))]
    if figures.lining is not None and figures.lining.vent is not None:
        told.append(
            say(
                "the lining's seam there also stays open for {length} up from its hem, a vent: hem"
                " its edges and bar-tack its top",
                length=length_text(figures.lining.vent, units),
            )
        )
    if figures.opening.zip is not None:
        sold = length_text(figures.opening.zip, units)
        if above := above_seam(pattern.spec):
            told.append(
                say(
                    "zip {sold} ({opening} and {band} of band, next length sold)",
                    sold=sold,
                    opening=length_text(figures.opening.length, units),
                    band=length_text(above, units),
                )
            )
        else:
            told.append(say("zip {sold} (the next length sold)", sold=sold))
    return clauses(told)
