"""The figures of a garment in words, for the ticket and the terminal alike.

Imports drafting's figures and units.
"""

from drafting.figures import Figures, LayerFigures
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
    return tuple(rows)


def _sewn_to(pattern: Pattern) -> str:
    """Return what becomes of the flat waist seam: its finished length, or elastic."""
    if pattern.figures.casing is not None:
        return "drawn up by elastic"
    return f"sewn to {length_text(_finished_waist(pattern), pattern.spec.units)}"


def _finished_waist(pattern: Pattern) -> float:
    return pattern.spec.wearer.waist + pattern.spec.skirt.waist_ease


def lengths(layer: LayerFigures, units: Units) -> tuple[tuple[str, str], ...]:
    """Return a layer's length, or its lengths where they differ: a place and how long."""
    if layer.hem_radius_max is None:
        return (("", length_text(layer.length_side, units)),)
    left, right = layer.length_left, layer.length_right
    sides = [("at the sides", layer.length_side)]
    if left is not None and right is not None:
        sides = [("on the left", left), ("on the right", right)]
    found = [("at the front", layer.length_front), *sides, ("at the back", layer.length_back)]
    return tuple((name, length_text(long, units)) for name, long in found)


def _layer(layer: LayerFigures, sewn: str, units: Units) -> str:
    panels = f"{layer.panels} panel{'s' if layer.panels > 1 else ''} of {layer.panel_angle:.4g}°"
    return (
        f"{fullness_words(layer.fullness)} in {panels}; flat waist seam"
        f" {length_text(layer.waistline, units)}, {sewn};"
        f" waist radius {radius_text(layer.waist_radius, units)} and hem radius"
        f" {radius_text(layer.hem_radius, units)}, both rounded down; length"
        f" {', '.join(f'{words} {name}'.strip() for name, words in lengths(layer, units))}, sweep"
        f" {length_text(layer.sweep, units)}"
    )


def _ruffle(figures: Figures, units: Units) -> list[tuple[str, str]]:
    ruffle = figures.ruffle
    if ruffle is None:
        return []
    rows = " and ".join(length_text(row, units) for row in ruffle.rows_from_edge)
    line, hem = (length_text(x, units) for x in (ruffle.line_length, _lining_sweep(figures)))
    amount = f"about {metres_text(ruffle.thread_metres, units)} of thread"
    if ruffle.cord_metres is not None:
        amount += f" and {metres_text(ruffle.cord_metres, units)} of cord"
    return [
        (
            "ruffle",
            f"sewn {length_text(ruffle.line_below_waist, units)} below the waist, on the lining's"
            f" side that faces the skirt; its line measures {line} there, not the hem's {hem}",
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
    ]


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
    words = f"skirt {length_text(figures.skirt.opening, units)}"
    if figures.lining is not None:
        words += f", lining {length_text(figures.lining.opening, units)}"
    words += " below the waist seam"
    if figures.opening.zip is not None:
        above = pattern.spec.skirt.band if figures.band is not None else 0.0
        words += f"; zip {length_text(figures.opening.zip, units)}"
        if above:
            longest = length_text(figures.opening.length, units)
            words += f" ({longest} and {length_text(above, units)} of band, next length sold)"
        else:
            words += " (the next length sold)"
    return words
