"""What a cutter would say of the cloth: panels that must be split, halves, folds.

Millimetres; shown in the sheet's units. Imports the plan and cloth.
"""

import math
from collections.abc import Iterator, Sequence

from drafting import cloth
from drafting.findings import Finding, caution, note, stop
from drafting.language import said_later, say, say_counted
from drafting.layer import Layer
from drafting.part_words import say_by_part
from drafting.piece import FoldWay, Piece
from drafting.piece_names import piece_words
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
        called = piece_words(piece.name)
        if wide > usable + 1:
            yield stop(
                "piece-too-wide",
                say(
                    # TRANSLATORS: {piece} has no article; word it so that it stands by itself.
                    "The {piece} needs cloth {width} wide, and there are {usable} between the"
                    " selvages.",
                    piece=called,
                    width=length_text(wide, units),
                    usable=length_text(usable, units),
                ),
                # TRANSLATORS: {piece} has no article; word it so that it stands by itself.
                say("Buy wider cloth, or make the {piece} smaller.", piece=called),
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
                say_by_part(
                    part,
                    skirt=said_later(
                        "No panel of this skirt fits cloth with {usable} between its selvages,"
                        " even cut in {panels}."
                    ),
                    lining=said_later(
                        "No panel of this lining fits cloth with {usable} between its"
                        " selvages, even cut in {panels}."
                    ),
                    usable=length_text(usable, units),
                    panels=cloth.MOST_PANELS,
                ),
                say_by_part(
                    part,
                    skirt=said_later("Buy wider cloth, or shorten the skirt."),
                    lining=said_later("Buy wider cloth, or shorten the lining."),
                ),
            )
        if layer.cut.panels > layer.asked_panels:
            yield _split(part, layer, usable, units)
        wide = (layer.cut.panel_angle or 0.0) > _WIDE_PANEL
        # Where only its waist is printed, or nothing of it, a half saves hardly a page.
        all_printed = plan.spec.print.scope is Scope.WHOLE
        if all_printed and not layer.half and layer.cut.alike and wide:
            yield note(
                "half-saves-paper",
                say("The skirt panel is printed whole.")
                if part == "skirt"
                else say("The lining panel is printed whole."),
                say(
                    "Write fold = true under [cloth.{cloth}] to print half of it and save nearly"
                    " half of its pages.",
                    cloth=part,
                ),
            )
        if layer.half and layer.fold_way is FoldWay.NONE:
            yield note(
                "half-drawn",
                say(
                    "The skirt panel is drawn as a half, and the cloth cannot be folded to take it."
                )
                if part == "skirt"
                else say(
                    "The lining panel is drawn as a half, and the cloth cannot be folded to take"
                    " it."
                ),
                say(
                    "Chalk round the half, turn the paper over along its middle, chalk the other"
                    " half, and cut in a single layer."
                ),
            )


def _split(part: str, layer: Layer, usable: Mm, units: Units) -> Finding:
    """Return why a layer is cut in more panels than were asked for."""
    asked = layer.asked_panels
    whole = layer.cut.divided(asked)
    wide = cloth.panel_width(whole, layer.allowances, layer.grain)
    narrow = not math.isinf(wide)
    saves = bool(layer.instead) and not layer.pieced
    told = (_SPLIT_NARROW if narrow else _SPLIT_NO_ROOM)[part][saves]
    if asked == 1:
        cut_in = say("Cut in one")
    else:
        cut_in = say_counted("Cut in {count} panel", "Cut in {count} panels", asked)
    return caution(
        "panel-split",
        say(
            told,
            cut_in=cut_in,
            width=length_text(wide, units) if narrow else "",
            usable=length_text(usable, units),
            panels=layer.cut.panels,
            saved=length_text(layer.saved, units) if saves else "",
            instead=layer.instead,
        ),
        say("Sew the seams that this adds, or buy wider cloth.")
        if narrow
        else say("Sew the seams that this adds."),
    )


_SPLIT_NARROW = {
    "skirt": {
        False: said_later(
            "{cut_in}, the skirt needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so it is cut in {panels}."
        ),
        True: said_later(
            "{cut_in}, the skirt needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so it is cut in {panels}, which takes about {saved} less cloth than"
            " {instead}."
        ),
    },
    "lining": {
        False: said_later(
            "{cut_in}, the lining needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so it is cut in {panels}."
        ),
        True: said_later(
            "{cut_in}, the lining needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so it is cut in {panels}, which takes about {saved} less cloth than"
            " {instead}."
        ),
    },
}
_SPLIT_NO_ROOM = {
    "skirt": {
        False: said_later(
            "{cut_in}, the skirt leaves no room for its seam allowances, so it is cut in {panels}."
        ),
        True: said_later(
            "{cut_in}, the skirt leaves no room for its seam allowances, so it is cut in {panels},"
            " which takes about {saved} less cloth than {instead}."
        ),
    },
    "lining": {
        False: said_later(
            "{cut_in}, the lining leaves no room for its seam allowances, so it is cut in {panels}."
        ),
        True: said_later(
            "{cut_in}, the lining leaves no room for its seam allowances, so it is cut in {panels},"
            " which takes about {saved} less cloth than {instead}."
        ),
    },
}
"""By part, and by whether another number of panels would have taken more cloth."""


def _corner_pieced(part: str, layer: Layer, width: Mm, units: Units) -> Finding:
    """Return what is said of corners pieced on at the hem."""
    one_side, saves = layer.grain is Grain.EDGE, bool(layer.instead)
    told = (_ONE_CORNER if one_side else _CORNERS)[part][saves]
    return caution(
        "corner-pieced",
        say(
            told,
            width=length_text(width, units),
            usable=length_text(layer.usable, units),
            corner=length_text(layer.pieced, units),
            saved=length_text(layer.saved, units) if saves else "",
            instead=layer.instead,
        ),
        say(
            "Sew the corner on before any other seam. If you do not want it, write piecing ="
            " false under [cloth.{cloth}], or buy wider cloth.",
            cloth=part,
        )
        if one_side
        else say(
            "Sew the corners on before any other seam. If you do not want them, write piecing ="
            " false under [cloth.{cloth}], or buy wider cloth.",
            cloth=part,
        ),
    )


_ONE_CORNER = {
    "skirt": {
        False: said_later(
            "The skirt panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so a corner {corner} wide is pieced on at its hem."
        ),
        True: said_later(
            "The skirt panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so a corner {corner} wide is pieced on at its hem; that takes about"
            " {saved} less cloth than {instead} panels."
        ),
    },
    "lining": {
        False: said_later(
            "The lining panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so a corner {corner} wide is pieced on at its hem."
        ),
        True: said_later(
            "The lining panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so a corner {corner} wide is pieced on at its hem; that takes about"
            " {saved} less cloth than {instead} panels."
        ),
    },
}
_CORNERS = {
    "skirt": {
        False: said_later(
            "The skirt panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so corners {corner} wide are pieced on at its hem."
        ),
        True: said_later(
            "The skirt panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so corners {corner} wide are pieced on at its hem; that takes about"
            " {saved} less cloth than {instead} panels."
        ),
    },
    "lining": {
        False: said_later(
            "The lining panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so corners {corner} wide are pieced on at its hem."
        ),
        True: said_later(
            "The lining panel needs cloth {width} wide, and yours has {usable} between its"
            " selvages, so corners {corner} wide are pieced on at its hem; that takes about"
            " {saved} less cloth than {instead} panels."
        ),
    },
}
"""By part, and by whether more panels would have taken more cloth."""
