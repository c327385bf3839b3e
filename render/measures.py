"""The figures of a garment in words, for the ticket and the terminal alike.

Imports drafting's figures and units.
"""

import math

from drafting.figures import Figures, LayerFigures, TierFigures, above_seam
from drafting.pattern import Pattern
from drafting.units import Units, length_text, radius_text

_NAMES = {
    0.25: "a quarter circle",
    0.3333: "a third of a circle",
    0.5: "a half circle",
    0.75: "a three-quarter circle",
    1.0: "one full circle",
    1.5: "one and a half circles",
    2.0: "two full circles",
    3.0: "three full circles",
    4.0: "four full circles",
}


def fullness_words(fullness: float) -> str:
    """Return a fullness in words: circles, never panels, so that the two are not confused."""
    for value, words in _NAMES.items():
        if abs(fullness - value) < 5e-4:
            return words
    return f"{fullness:g} of a circle" if fullness < 1 else f"{fullness:g} circles"


def metres_text(metres: float, units: Units) -> str:
    """Return an estimated amount bought by the metre or the yard."""
    if units is Units.CM:
        return f"{metres:.1f}\u00a0m"
    return f"{metres / 0.9144:.1f}\u00a0yd"


def measures(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Return every part of a garment as a name and a sentence with its figures."""
    figures, units = pattern.figures, pattern.spec.units
    sewn = _sewn_to(pattern)
    rows = [("skirt", _layer(figures.skirt, sewn, units))]
    if figures.lining is not None:
        rows.append(("lining", _layer(figures.lining, sewn, units)))
    rows += _bias(figures, units)
    rows += _below(figures, units)
    rows += _ruffle(figures, units)
    rows += _waist(pattern)
    if figures.opening is not None:
        rows.append(("opening", _opening(pattern)))
    cloths = [
        f"{name} {length_text(cloth.rows_length, units)} of cloth"
        f" {length_text(cloth.width, units)} wide"
        for name, cloth in figures.cloth.items()
    ]
    if cloths:
        words = "in plain rows, before shrinkage, the pieces take: " + ", ".join(cloths)
        rows.append(("cloth", words))
    if washing := _washing(pattern):
        rows.append(("", washing))
    return tuple(rows)


def _washing(pattern: Pattern) -> str:
    """Return what each cloth may lose in its first wash, as the sheet or its kind has it."""
    cloths = pattern.spec.cloths
    lost = [
        f"{name} {getattr(cloths, name).shrink_length:.0%}"
        for name in ("skirt", "lining", "ruffle")
        if name in pattern.figures.cloth and getattr(cloths, name).shrink_length > 0
    ]
    if not lost:
        return ""
    return (
        "wash and press the cloth before you cut; along its length it may lose, an estimate: "
        + ", ".join(lost)
    )


def _sewn_to(pattern: Pattern) -> str:
    """Return what becomes of the flat waist seam: its finished length, or elastic."""
    if pattern.figures.casing is not None:
        return "drawn up by elastic"
    return f"sewn to {length_text(_finished_waist(pattern), pattern.spec.units)}"


def _finished_waist(pattern: Pattern) -> float:
    return pattern.figures.waist.finished


def lengths(layer: LayerFigures, units: Units) -> tuple[tuple[str, str], ...]:
    """Return a layer's length, or its lengths where they differ: a place and how long."""
    if max(layer.length_front, layer.length_back) - layer.length_side == 0 and (
        layer.length_front == layer.length_back and layer.length_left is None
    ):
        return (("", length_text(layer.length_side, units)),)
    left, right = layer.length_left, layer.length_right
    sides = [("at the sides", layer.length_side)]
    if left is not None and right is not None:
        sides = [("on the left", left), ("on the right", right)]
    found = [("at the front", layer.length_front), *sides, ("at the back", layer.length_back)]
    return tuple((name, length_text(long, units)) for name, long in found)


def cut_words(layer: LayerFigures) -> str:
    """Return how a layer is cut, in words: circles, gores or gathered lengths, and how many."""
    many = "s" if layer.panels > 1 else ""
    if layer.cut == "owned":
        return "sewn already; what follows is what goes into it"
    if layer.cut == "gathered":
        return f"{layer.panels} straight length{many}, gathered {layer.gather_ratio or 1:.3g} to 1"
    if layer.cut == "gored":
        shaped = "" if layer.hipline is None else " shaped over the hip"
        flare = "" if layer.fullness is None else f", their flare {layer.fullness:.3g} of a circle"
        return f"{layer.panels} gores{shaped}{flare}"
    if layer.cut == "tiered":
        return f"a yoke in {layer.panels} panel{many}, and tiers"
    of = "" if layer.panel_angle is None else f" of {layer.panel_angle:.4g}°"
    assert layer.fullness is not None
    return f"{fullness_words(layer.fullness)} in {layer.panels} panel{many}{of}"


LONGEST_RADIUS = 3000.0
"""A longer radius is no arc that anyone swings, in mm."""


def _radii(layer: LayerFigures, units: Units) -> str:
    found = [
        f"{name} {radius_text(radius, units)}"
        for name, radius in (("waist radius", layer.waist_radius), ("hem radius", layer.hem_radius))
        if radius is not None and radius < LONGEST_RADIUS
    ]
    if not found:
        return ""
    both = "both rounded down" if len(found) == 2 else "rounded down"
    return f" {' and '.join(found)}, {both};"


def _layer(layer: LayerFigures, sewn: str, units: Units) -> str:
    long = ", ".join(f"{words} {name}".strip() for name, words in lengths(layer, units))
    return (
        f"{cut_words(layer)}; flat waist seam {length_text(layer.waistline, units)}, {sewn};"
        f"{_radii(layer, units)} length from the waist seam {long}, sweep"
        f" {length_text(layer.sweep, units)}"
    )


def _bias(figures: Figures, units: Units) -> list[tuple[str, str]]:
    """Return how far each hem drops at angles to the grain, and how long to hang it."""
    rows: list[tuple[str, str]] = []
    for part, layer in (("skirt", figures.skirt), ("lining", figures.lining)):
        if layer is None or layer.bias_drop is None or layer.bias_drop < 1:
            continue
        full = layer.bias_drop
        drops = ", ".join(
            f"{length_text(full * math.sin(math.radians(2 * angle)) ** 2, units)} at {angle}°"
            for angle in (15, 30, 45)
        )
        rows.append((
            "bias" if not rows else "",
            f"the {part}'s hem drops by its angle to the grain, an estimate: {drops}; hang it"
            f" {layer.hang_hours} hours before the hem",
        ))  # fmt: skip
    return rows


def _below(figures: Figures, units: Units) -> list[tuple[str, str]]:
    """Return what hangs from the skirt's panels or is set into them, and its hem."""
    rows = []
    if figures.godets is not None:
        held = figures.godets
        rows.append((
            "godets",
            f"{held.count}, each {length_text(held.depth, units)} deep with an angle of"
            f" {held.angle:.3g}°, adding {length_text(held.sweep, units)} of sweep",
        ))  # fmt: skip
    if figures.flounce is not None:
        ring = figures.flounce
        rows.append((
            "flounce",
            f"{ring.rings} rings of {ring.ring_angle:.4g}°, inner radius"
            f" {radius_text(ring.inner_radius, units)} and outer radius"
            f" {radius_text(ring.outer_radius, units)}, sewn to"
            f" {length_text(ring.sewn_length, units)}; {length_text(ring.depth, units)} deep",
        ))  # fmt: skip
    rows += _tiers("tier", figures.tiers, units)
    rows += _hem(figures, units)
    return rows


def _tiers(name: str, tiers: tuple[TierFigures, ...], units: Units) -> list[tuple[str, str]]:
    return [
        (
            f"{name} {order}",
            f"{tier.strips} strips {length_text(tier.strip_cut_length, units)} ×"
            f" {length_text(tier.strip_cut_depth, units)}, joined to"
            f" {length_text(tier.flat_length, units)} flat, gathered {tier.gather_ratio:.3g} to 1:"
            f" each quarter of {length_text(tier.flat_length / 4, units)} is drawn up to"
            f" {length_text(tier.flat_length / 4 / tier.gather_ratio, units)};"
            f" finished {length_text(tier.depth, units)} deep",
        )
        for order, tier in enumerate(tiers, start=1)
    ]


def _hem(figures: Figures, units: Units) -> list[tuple[str, str]]:
    hem = figures.hem
    if hem is None:
        return []
    if hem.strip_length is not None and hem.strip_width is not None:
        return [(
            "hem",
            f"{hem.finish}: a bias strip {length_text(hem.strip_width, units)} wide and"
            f" {metres_text(hem.strip_length / 1000, units)} long, its joints included",
        )]  # fmt: skip
    if hem.braid_length is not None and hem.braid_width is not None:
        return [(
            "hem",
            f"horsehair braid {length_text(hem.braid_width, units)} wide,"
            f" {metres_text(hem.braid_length / 1000, units)}; cap its joint, and draw its upper"
            " edge in by its thread",
        )]  # fmt: skip
    if hem.facing_depth is not None:
        return [("hem", f"faced {length_text(hem.facing_depth, units)} deep, cut to the curve")]
    return []


def _ruffle(figures: Figures, units: Units) -> list[tuple[str, str]]:
    ruffle = figures.ruffle
    if ruffle is None:
        return []
    rows = " and ".join(length_text(row, units) for row in ruffle.rows_from_edge)
    lower = _tiers("tier", ruffle.tiers, units)[1:]
    line, hem = (length_text(x, units) for x in (ruffle.line_length, _lining_sweep(figures)))
    amount = f"about {metres_text(ruffle.thread_metres, units)} of thread"
    if ruffle.cord_metres is not None:
        amount += f" and {metres_text(ruffle.cord_metres, units)} of cord"
    return [
        (
            "ruffle",
            f"sewn {_ruffle_place(figures, units)}, on the lining's side that faces the skirt; its"
            f" line measures {line} there, not the hem's {hem}",
        ),
        (
            "",
            f"{ruffle.strips} strips {length_text(ruffle.strip_cut_length, units)} ×"
            f" {length_text(ruffle.strip_cut_depth, units)} across the cloth, joined to"
            f" {length_text(ruffle.flat_length, units)} flat, gathered"
            f" {ruffle.gather_ratio:.3g} to 1; each quarter of"
            f" {length_text(ruffle.flat_quarter, units)} is drawn up to"
            f" {length_text(ruffle.line_quarter, units)}",
        ),
        (
            "",
            f"{ruffle.method}, {rows} from the raw edge, in {ruffle.sections} sections; {amount},"
            " an estimate",
        ),
        *((f"ruffle {name}", words) for name, words in lower),
    ]


def _ruffle_place(figures: Figures, units: Units) -> str:
    """Return where the ruffle's line lies: below the waist, or above an uneven hem."""
    ruffle, lining = figures.ruffle, figures.lining
    assert ruffle is not None and lining is not None
    if len(lengths(lining, units)) == 1:
        return f"{length_text(ruffle.line_below_waist, units)} below the waist"
    least = min(
        lining.length_front, lining.length_side, lining.length_back,
        lining.length_left or lining.length_side, lining.length_right or lining.length_side,
    )  # fmt: skip
    up = length_text(least - ruffle.line_below_waist, units)
    return f"{up} above the lining's hem all round, however long the lining is there"


def _lining_sweep(figures: Figures) -> float:
    return figures.lining.sweep if figures.lining else 0.0


def _waist(pattern: Pattern) -> list[tuple[str, str]]:
    figures, units = pattern.figures, pattern.spec.units
    if figures.band is not None:
        band = figures.band
        return [
            (
                "band",
                f"cut {length_text(band.cut_length, units)} × {length_text(band.cut_width, units)}",
            )
        ]
    if figures.casing is not None:
        casing = figures.casing
        elastic = length_text(casing.elastic or 0.0, units)
        return [
            (
                "casing",
                f"cut {length_text(casing.cut_length, units)} ×"
                f" {length_text(casing.cut_width, units)}; elastic {elastic}, its join included,"
                " an estimate to try on",
            )
        ]
    if figures.contour is not None:
        shaped = figures.contour
        return [
            (
                "band",
                f"shaped: {length_text(shaped.top, units)} at its upper edge,"
                f" {length_text(shaped.bottom, units)} at the waist seam,"
                f" {length_text(shaped.height, units)} high; radii"
                f" {radius_text(shaped.top_radius, units)} and"
                f" {radius_text(shaped.bottom_radius, units)}",
            )
        ]
    if figures.binding is not None:
        strip = figures.binding
        return [
            (
                "binding",
                f"bias strip {length_text(strip.cut_length, units)} ×"
                f" {length_text(strip.cut_width, units)}",
            )
        ]
    if pattern.spec.skirt.bodice_waist is not None and figures.skirt.cut != "owned":
        seam = length_text(_finished_waist(pattern), units)
        return [
            (
                "bodice",
                f"the skirt is sewn to its waist seam, {seam} closed; the zip is that of the skirt"
                " alone, so add what opens in the bodice",
            )
        ]
    if figures.facing is not None:
        facing = figures.facing
        return [
            (
                "facing",
                f"{length_text(facing.depth, units)} deep; tape the waist seam to"
                f" {length_text(_finished_waist(pattern), units)}, which is the finished waist, so"
                " that it cannot stretch",
            )
        ]
    return []


def _opening(pattern: Pattern) -> str:
    figures, units = pattern.figures, pattern.spec.units
    assert figures.opening is not None
    owned = figures.skirt.cut == "owned"
    words = "" if owned else f"skirt {length_text(figures.skirt.opening, units)}"
    if figures.lining is not None:
        words += ("" if owned else ", ") + f"lining {length_text(figures.lining.opening, units)}"
    words += " below the waist seam"
    if figures.lining is not None and figures.lining.vent is not None:
        words += (
            "; the lining's seam there also stays open for"
            f" {length_text(figures.lining.vent, units)} up from its hem, a vent: hem its edges"
            " and bar-tack its top"
        )
    if figures.opening.zip is not None:
        above = above_seam(pattern.spec)
        words += f"; zip {length_text(figures.opening.zip, units)}"
        if above:
            longest = length_text(figures.opening.length, units)
            words += f" ({longest} and {length_text(above, units)} of band, next length sold)"
        else:
            words += " (the next length sold)"
    return words
