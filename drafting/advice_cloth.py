"""What a cutter would say of the cloth: panels that must be split, halves, folds.

Millimetres; shown in the sheet's units. Imports the plan and cloth.
"""

import math
from collections.abc import Iterator, Sequence

from drafting import cloth
from drafting.findings import Finding, caution, note, stop
from drafting.layer import Layer
from drafting.piece import FoldWay, Piece
from drafting.plan import Plan, layers
from drafting.spec import Grain, Scope
from drafting.units import Mm, Units, length_text

_WIDE_PANEL = math.radians(100)


def on_pieces(plan: Plan, pieces: Sequence[Piece]) -> Iterator[Finding]:
    """Yield which pieces beside the panels are wider than their cloth."""
    units, cloths = plan.spec.units, plan.spec.cloths
    told = {part for part, _ in layers(plan)}
    for piece in pieces:
        if piece.rectangle or piece.name.split(" ")[0] in told:
            continue  # strips are joined, and the panels have their own words
        usable = cloth.usable_width(getattr(cloths, piece.cloth))
        wide = cloth.box_on_cloth(piece).height
        if wide > usable + 1:
            yield stop(
                "piece-too-wide",
                f"The {piece.name} needs cloth {length_text(wide, units)} wide, and there are"
                f" {length_text(usable, units)} between the selvages.",
                f"Buy wider cloth, or make the {piece.name} smaller.",
            )


def on_cloth(plan: Plan) -> Iterator[Finding]:
    """Yield whether the panels fit their cloth, and how a half is laid."""
    units = plan.spec.units
    for part, layer in layers(plan):
        usable = cloth.usable_width(layer.cloth)
        width = cloth.panel_width(layer.cut, layer.allowances, layer.grain)
        if layer.cut.hem_radius is None and layer.cut.panels > layer.asked_panels:
            continue  # gathered lengths are always as many as the cloth asks for
        if math.isinf(width):
            continue  # cannot_be_drawn() says so
        if layer.pieced:
            yield _corner_pieced(part, layer, width, units)
        elif width > usable:
            yield stop(
                "cloth-too-narrow",
                f"No panel of this {part} fits cloth with {length_text(usable, units)} between"
                f" its selvages, even cut in {cloth.MOST_PANELS}.",
                f"Buy wider cloth, or shorten the {part}.",
            )
        if layer.cut.panels > layer.asked_panels:
            asked = layer.asked_panels
            whole = layer.cut.divided(asked)
            wide = cloth.panel_width(whole, layer.allowances, layer.grain)
            cut_in = "in one" if asked == 1 else f"in {asked} panels"
            narrow = not math.isinf(wide)
            why = (
                f"Cut {cut_in}, the {part} needs cloth {length_text(wide, units)} wide, and yours"
                f" has {length_text(usable, units)} between its selvages"
                if narrow
                else f"Cut {cut_in}, the {part} leaves no room for its seam allowances"
            )
            least = ""
            if layer.instead and not layer.pieced:
                least = (
                    f", which takes about {length_text(layer.saved, units)} less cloth than"
                    f" {layer.instead}"
                )
            yield caution(
                "panel-split",
                f"{why}, so it is cut in {layer.cut.panels}{least}.",
                "Sew the seams that this adds" + (", or buy wider cloth." if narrow else "."),
            )
        wide = (layer.cut.panel_angle or 0.0) > _WIDE_PANEL
        # Where only its waist is printed, or nothing of it, a half saves hardly a page.
        all_printed = plan.spec.print.scope is Scope.WHOLE
        if all_printed and not layer.half and layer.cut.alike and wide:
            yield note(
                "half-saves-paper",
                f"The {part} panel is printed whole.",
                f"Write fold = true under [cloth.{part}] to print half of it and save nearly half"
                " of its pages.",
            )
        if layer.half and layer.fold_way is FoldWay.NONE:
            yield note(
                "half-drawn",
                f"The {part} panel is drawn as a half, and the cloth cannot be folded to take it.",
                "Chalk round the half, turn the paper over along its middle, chalk the other"
                " half, and cut in a single layer.",
            )


def _corner_pieced(part: str, layer: Layer, width: Mm, units: Units) -> Finding:
    """Return what is said of corners pieced on at the hem."""
    one_side = layer.grain is Grain.EDGE
    corners = "a corner" if one_side else "corners"
    saves = ""
    if layer.instead:
        saves = (
            f"; that takes about {length_text(layer.saved, units)} less cloth than"
            f" {layer.instead} panels"
        )
    return caution(
        "corner-pieced",
        f"The {part} panel needs cloth {length_text(width, units)} wide, and yours has"
        f" {length_text(layer.usable, units)} between its selvages, so {corners}"
        f" {length_text(layer.pieced, units)} wide {'is' if one_side else 'are'} pieced on at"
        f" its hem{saves}.",
        f"Sew {'the corner' if one_side else 'the corners'} on before any other seam. If you do"
        f" not want {'it' if one_side else 'them'}, write piecing = false under [cloth.{part}],"
        " or buy wider cloth.",
    )
