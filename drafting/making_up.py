"""Drawing a planned garment: its pieces, and which of their edges are sewn together.

Millimetres and radians. Imports the plan and the parts' pieces. Seams are numbered: 1 the
skirt's panels, 2 everything at the waist, 3 the lining's panels, 4 the ruffle, 5 what is sewn
to the skirt's lower edge, 6 godets, 7 pockets.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from drafting import hem_pieces, pockets, ruffle, tiers
from drafting.cloth import fold_way
from drafting.flounce import flounce_piece
from drafting.godet import godet_piece
from drafting.language import said_later, say
from drafting.layer import Layer
from drafting.panel_marks import GODET_SEAM
from drafting.panel_wishes import PanelWishes
from drafting.panels import layer_pieces
from drafting.piece import EdgeKind, Mark, Notch, NotchKind, Piece
from drafting.pieced import apart
from drafting.plan import Plan, layers
from drafting.spec import CutKind, Grain, SeamFinish, WaistFinish
from drafting.strips import END_HEM
from drafting.truing import Seam, Side, Walked, walk
from drafting.units import length_text
from drafting.waist_pieces import waist_pieces

Parts = tuple[tuple[Piece, ...], tuple[Seam, ...]]


def pieces_and_seams(plan: Plan) -> Parts:
    """Return every piece of the garment and every seam between them.

    Raises:
        MeasurementError, GeometryError: a piece cannot be drawn at these measures.
    """
    of_skirt = _skirt_wishes(plan)
    panels: tuple[Piece, ...] = ()
    found: list[Parts] = []
    if not plan.owned:
        panels = layer_pieces(plan.skirt.cut, of_skirt)
        found.append((panels, tuple(_panel_seams(panels, "1"))))
        godets = _godets(plan, panels)
        found += [
            godets,
            _hanging(plan, panels, godets[0], of_skirt),
            pockets.pocket_parts(plan, panels),
        ]
    lined: tuple[Piece, ...] = ()
    if plan.lining is not None:
        lined = _lining(plan, plan.lining)
        found.append((lined, tuple(_panel_seams(lined, "3"))))
        if panels:
            found.append(((), (_waist_to_lining(plan, panels, lined),)))
        found.append(_ruffle(plan, lined))
    if panels:
        found.append(waist_pieces(plan, panels, of_skirt))
    pieces = tuple(piece for part, _ in found for piece in part)
    seams = (seam for _, part in found for seam in part)
    return pieces, tuple(sorted(seams, key=lambda one: one.number))


def corners_apart(
    plan: Plan, pieces: tuple[Piece, ...], seams: tuple[Seam, ...]
) -> tuple[tuple[Piece, ...], tuple[Seam, ...], tuple[Walked, ...]]:
    """Return pieces and seams with the corners of panels that are pieced apart, and their walks.

    Walked are the seams that sew the corners on, main and corner together against the whole
    they make up, and, once more on the pieces that are cut, every other seam.

    Raises:
        GeometryError: a panel cannot be pieced.
        TruingError: edges of a panel and its corner do not agree.
    """
    numbers = {"skirt": "1", "lining": "3"}
    found: tuple[Walked, ...] = ()
    for part, layer in layers(plan):
        if not layer.pieced:
            continue
        panels = [p for p in pieces if p.cloth == part and _is_panel(p, part)]
        made = apart(
            pieces, seams, panels, number=numbers[part], usable=layer.usable, grain=layer.grain
        )
        walk(made.seams, made.pieces)
        new = tuple(one for one in made.seams if one.number not in {s.number for s in seams})
        found += walk((*new, *made.checks), (*made.pieces, *made.wholes))
        pieces, seams = made.pieces, made.seams
    return pieces, seams, found


def _is_panel(piece: Piece, part: str) -> bool:
    """Tell whether a piece is one of a layer's own panels, and nothing that is cut to them."""
    names = [edge.name for edge in piece.edges]
    return piece.name.startswith(f"{part} ") and "waist" in names and "hem" in names


def all_round(pieces: Iterable[Piece], edge: str) -> tuple[Side, ...]:
    """Return an edge of every piece, as often as it is cut: one side of a seam all round."""
    return tuple(
        Side(piece=piece.name, edge=edge, times=piece.count * (2 if piece.half else 1))
        for piece in pieces
    )


# --- layers --------------------------------------------------------------------------------


def _skirt_wishes(plan: Plan) -> PanelWishes:
    layer, wish = plan.skirt, plan.spec.skirt
    sewn_below = layer.below is not None or hem_pieces.needs_seam(layer.finish)
    words = {CutKind.GORED: "gore", CutKind.TIERED: "yoke"}
    level = not layer.cut.alike and layer.below is None and wish.hem_above_floor is not None
    # Elastic draws a casing up; every other finish takes a waist that is gathered first.
    gathered = plan.waist.gather_ratio > 1 and wish.waist_finish is not WaistFinish.CASING
    return replace(
        _wishes(plan, layer, seam="1"),
        hem_seam="5" if sewn_below else "",
        hem_quarters=layer.below is not None,
        hem_goes_on=layer.below is not None,
        hem_words=_hem_words(layer, sewn=sewn_below, level=level),
        waist_words=say("seam 2: waist, gather this edge") if gathered else say("seam 2: waist"),
        shape=words.get(wish.cut, "panel"),
        pocket=pockets.pocket_place(plan),
        godet=wish.godets.depth if wish.godets else 0.0,
        gathered=gathered,
    )


def _hem_words(layer: Layer, *, sewn: bool, level: bool) -> str:
    """Return what is written along the skirt's hem."""
    if layer.below is not None:
        return say("seam 5: lower edge")
    if level:
        return (
            say("seam 5: hem, level with the floor") if sewn else say("hem, level with the floor")
        )
    return say("seam 5: hem") if sewn else say("hem")


def _wishes(plan: Plan, layer: Layer, *, seam: str) -> PanelWishes:
    return PanelWishes(
        part=layer.part,
        allowances=layer.allowances,
        grain=layer.grain,
        closure=plan.closure,
        # An opening longer than a yoke goes on in the tier below it, which says so.
        opening=layer.opening if layer.opening < layer.cut.length else 0.0,
        vent=layer.vent,
        seam=seam,
        waist_seam="2",
        half=layer.half,
        fold_way=layer.fold_way,
        notes=_panel_notes(plan, layer),
    )


_SEAMS = {
    SeamFinish.FRENCH: said_later(
        "French seams: first wrong sides together, then right sides together"
    ),
    SeamFinish.BOUND: said_later("seams pressed open, their raw edges bound"),
    SeamFinish.OVERLOCKED: said_later("seams overlocked together and pressed to one side"),
}


def _panel_notes(plan: Plan, layer: Layer) -> tuple[str, ...]:
    """Return what a panel's label says of its seams, and of the cloth below its hem."""
    widths, units = layer.allowances, plan.spec.units
    seams = _SEAMS.get(plan.spec.skirt.seams)
    told = () if seams is None else (say(seams),)
    if layer.opening >= layer.cut.length:
        told = (*told, say("the closure seam stays open from end to end"))
    if layer.below is not None or not widths.spare:
        return told
    sewn = layer.part == "skirt" and hem_pieces.needs_seam(layer.finish)
    hem, spare = length_text(widths.hem, units), length_text(widths.spare, units)
    if not widths.hem:
        below = say("below the finished edge: {spare} to spare for levelling", spare=spare)
    elif sewn:
        below = say(
            "below the hem: {hem} to sew, {spare} to spare for levelling", hem=hem, spare=spare
        )
    else:
        below = say(
            "below the hem: {hem} to turn, {spare} to spare for levelling", hem=hem, spare=spare
        )
    return (*told, below)


def _lining(plan: Plan, layer: Layer) -> tuple[Piece, ...]:
    wishes = replace(
        _wishes(plan, layer, seam="3"),
        shape="gore" if plan.spec.lining and plan.spec.lining.cut is CutKind.GORED else "panel",
        hem_words=say("hem") if layer.cut.alike else say("hem, level with the floor"),
        waist_words=say("waist") if plan.owned else say("seam 2: waist"),
        waist_seam="" if plan.owned else "2",
    )
    placed = _placed_ruffle(plan)
    if placed is not None:
        wishes = replace(
            wishes,
            ruffle_line=placed.line_below_waist,
            ruffle_words=say(
                "seam 4: ruffle's line, {length} all round",
                length=length_text(placed.line_length, plan.spec.units),
            ),
            ruffle_name=(say("seam 4: ruffle's line"),),
        )
    return layer_pieces(layer.cut, wishes)


def _panel_seams(pieces: Sequence[Piece], number: str) -> list[Seam]:
    """Return the seams between the panels of a layer, told by the numbers of their notches.

    An edge whose number stands nowhere else is sewn to its own mirror image.
    """
    edges: dict[str, dict[tuple[str, int], None]] = {}
    for piece in pieces:
        for notch in piece.notches:
            if notch.edge in (0, 2) and notch.seam.startswith(number):
                edges.setdefault(notch.seam, {})[piece.name, notch.edge] = None
    seams = []
    for lettered, found in edges.items():
        sides = [Side(piece=name, edge=edge) for name, edge in found]
        for one, other in pairwise(sides if len(sides) > 1 else sides * 2):
            seams.append(
                Seam(
                    number=lettered,
                    name=f"{one.piece} to {other.piece}",
                    first=(one,),
                    second=(other,),
                )
            )
    return seams


def _waist_to_lining(plan: Plan, skirt: Sequence[Piece], lined: Sequence[Piece]) -> Seam:
    return Seam(
        number="2",
        name="skirt waist to lining waist",
        first=all_round(skirt, "waist"),
        second=all_round(lined, "waist"),
        gather=plan.waist.line / plan.waist.lining_line,
    )


# --- what is sewn to the layers ------------------------------------------------------------


def _hanging(
    plan: Plan, panels: tuple[Piece, ...], godets: tuple[Piece, ...], of_skirt: PanelWishes
) -> Parts:
    """Return the flounce, the tiers or the hem's own pieces."""
    layer, wish = plan.skirt, plan.spec.skirt
    below = layer.below
    usable = plan.binding_width
    if below is None:
        edged = (*panels, *godets)
        own = layer.allowances.hem
        return hem_pieces.hem_pieces(
            layer, edged, depth=wish.hem_facing, usable=usable, allowance=own
        )
    if below.flounce is not None:
        sewn_on = hem_pieces.needs_seam(layer.finish)
        ring = flounce_piece(
            below.flounce,
            replace(
                of_skirt,
                allowances=plan.flounce_widths,
                grain=Grain.CENTRE,
                opening=0.0,
                vent=0.0,
                pocket=None,
                godet=0.0,
                gathered=False,
                seam="5a",
                waist_seam="5",
                hem_seam="5b" if sewn_on else "",
                hem_words=say("hem"),
                hem_goes_on=False,
                half=True,
                fold_way=fold_way(below.flounce, plan.flounce_widths, Grain.CENTRE, layer.usable),
                notes=(),
            ),
        )
        seam = Seam(
            number="5",
            name="flounce to the skirt's lower edge",
            first=all_round([ring], "inner"),
            second=all_round(panels, "hem"),
        )
        rings = Seam(
            number="5a",
            name="flounce ring to flounce ring",
            first=(Side(piece=ring.name, edge="join"),),
            second=(Side(piece=ring.name, edge="join"),),
        )
        finish = hem_pieces.hem_pieces(
            layer,
            [ring],
            depth=min(wish.hem_facing, below.depth / 3),
            usable=usable,
            allowance=plan.flounce_widths.hem,
        )
        return (ring, *finish[0]), (seam, rings, *finish[1])
    return _tiers(plan, panels)


def _tiers(plan: Plan, panels: Sequence[Piece]) -> Parts:
    below = plan.skirt.below
    assert below is not None and below.ways is not None
    if any(tier.strips == 0 for tier in below.tiers):
        return (), ()  # the advice stops a cloth too narrow for its joins
    pieces: list[Piece] = []
    seams: list[Seam] = []
    above = all_round(panels, "hem")
    for order, tier in enumerate(below.tiers, start=1):
        last = order == len(below.tiers)
        number, following = _tier_seam(order), "" if last else _tier_seam(order + 1)
        drawn = tiers.tier_piece(
            tier,
            below.ways,
            name=f"skirt tier {order}",
            cloth="skirt",
            seam=number,
            next_seam=following,
            rows=ruffle.INSIDE,
            notes=_tier_notes(plan, order),
        )
        seams.append(
            Seam(
                number=number,
                name=f"{drawn.name} to the edge above it",
                first=all_round([drawn], "gathered"),
                second=above,
                gather=tier.ratio,
            )
        )
        above = all_round([drawn], "lower")
        if last and hem_pieces.needs_seam(plan.skirt.finish):
            drawn = _hem_as_seam(drawn, "lower")
        pieces.append(drawn)
    layer, wish = plan.skirt, plan.spec.skirt
    depth = min(wish.hem_facing, below.tiers[-1].depth / 2)
    finish = hem_pieces.hem_pieces(
        layer, pieces[-1:], depth=depth, usable=plan.binding_width, allowance=below.ways.hem,
        at="lower",
    )  # fmt: skip
    return (*pieces, *finish[0]), (*seams, *finish[1])


def _tier_notes(plan: Plan, order: int) -> tuple[str, ...]:
    """Return how a tier is joined, quartered and, where the opening reaches it, left open."""
    units, below = plan.spec.units, plan.skirt.below
    assert below is not None
    tier = below.tiers[order - 1]
    quarter = length_text(tier.flat / 4, units)
    notes = [
        say("join to a ring, then mark both edges in quarters, {quarter} apart", quarter=quarter)
    ]
    past = plan.skirt.opening - plan.skirt.cut.length
    if order == 1 and past > 0:
        notes.append(
            say(
                "leave one join open for {length} from the gathered edge: the opening reaches into"
                " it",
                length=length_text(past, units),
            )
        )
    return tuple(notes)


def _tier_seam(order: int) -> str:
    return "5" if order == 1 else f"5{chr(ord('a') + order - 2)}"


def _godets(plan: Plan, panels: Sequence[Piece]) -> Parts:
    godets = plan.spec.skirt.godets
    layer = plan.skirt
    if godets is None or godets.depth >= layer.cut.length:
        return (), ()  # the advice stops godets that reach the waist
    hem = layer.allowances.hem + layer.allowances.spare
    drawn = godet_piece(
        godets.depth,
        godets.angle,
        count=layer.cut.panels,
        seam_allowance=layer.allowances.side,
        hem_allowance=hem,
        seam=GODET_SEAM,
    )
    if hem_pieces.needs_seam(layer.finish):
        drawn = _hem_as_seam(drawn)
    seams = tuple(
        Seam(
            number=GODET_SEAM,
            name=f"godet to {panel.name}",
            first=(Side(piece=drawn.name, edge="side"),),
            second=(Side(piece=panel.name, edge=edge, between=(Mark.GODET_BEGINS, None)),),
        )
        for panel in panels
        for edge in ((0,) if panel.half else (0, 2))
    )
    return (drawn,), seams


def _hem_as_seam(piece: Piece, at: str = "hem") -> Piece:
    """Return a piece whose hem is sewn to a facing and not turned up."""
    edges = tuple(
        replace(edge, kind=EdgeKind.SEAM) if edge.name == at else edge for edge in piece.edges
    )
    index = next(k for k, edge in enumerate(edges) if edge.name == at)
    middle = Notch(edge=index, at=edges[index].length / 2, kind=NotchKind.BALANCE, seam="5")
    return replace(piece, edges=edges, notches=(*piece.notches, middle))


def _placed_ruffle(plan: Plan) -> ruffle.RuffleDraft | None:
    """Return the ruffle, unless it has no place or no strip; the advice stops it then."""
    drafted = plan.ruffle
    if drafted is None or not drafted.strips:
        return None
    return drafted if drafted.line_below_waist >= ruffle.HIGHEST_LINE else None


def _ruffle(plan: Plan, lined: Sequence[Piece]) -> Parts:
    drafted = _placed_ruffle(plan)
    if drafted is None:
        return (), ()
    strips = ruffle.ruffle_pieces(drafted, seam="4")
    # A hemmed end takes END_HEM of a strip, where a join would take its allowance.
    ends = 0.0 if drafted.ring else 2 * (END_HEM - drafted.habit.join_allowance)
    seams = [
        Seam(
            number="4",
            name="ruffle to its line on the lining",
            first=all_round(strips[:1], "gathered"),
            second=all_round(lined, "ruffle line"),
            gather=drafted.gather_ratio,
            ease=ends,
        )
    ]
    for order, (upper, lower) in enumerate(pairwise(strips)):
        seams.append(
            Seam(
                number=f"4{chr(ord('a') + order)}",
                name=f"{lower.name} to {upper.name}",
                first=all_round([lower], "gathered"),
                second=all_round([upper], "lower"),
                gather=drafted.tiers[order + 1].ratio,
                ease=ends * (1 - drafted.tiers[order + 1].ratio),
            )
        )
    return strips, tuple(seams)
