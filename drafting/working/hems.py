"""Workings of a hem: what may be turned up, what is spare, how far it drops on the bias.

Millimetres and degrees. Imports the hem's and the bias's constants and the model.
"""

import math
from collections.abc import Iterator

from drafting import bias
from drafting.gored import ShapedGores
from drafting.half_scale import HEM_ALLOWANCE
from drafting.hem import LEAST_HEM, STRAIGHT_HEM, USUAL, deepest_hem
from drafting.hem_pieces import BRAID_SPARE, STRIP_SPARE
from drafting.language import say
from drafting.layer import LEAST_SHARE
from drafting.lining import leg_girth
from drafting.spec import HemFinish
from drafting.strips import JOINT
from drafting.working.draft import Draft, Part
from drafting.working.model import How, Law, Working

REFERENCE_PULL = 411_909.0
"""Of the reference skirt: waist 720, one circle, length 650, in mm²."""

TO: float = 0.5
"""A hem allowance is rounded down to this, in mm."""

_TURNED_ONCE = (HemFinish.TURNED, HemFinish.BRAID)


def hem(part: Part) -> Iterator[Working]:
    """Yield the workings of a layer's hem allowance, its spare and its drop."""
    yield from _limit(part)
    yield from _allowance(part)
    yield from _drop(part)
    yield from _spare(part)


def _limit(part: Part) -> Iterator[Working]:
    figures, layer = part.figures, part.layer
    if figures.hem_allowance_limit is None or layer.hem_radius is None:
        return
    ease = layer.behaviour.hem_ease
    flounced = layer.below is not None and layer.below.flounce is not None
    edge = "ro" if flounced else "R"
    key, title = part.key("hem_allowance_limit"), say("deepest hem allowance that lies flat")
    if layer.finish in _TURNED_ONCE:
        yield part.draft.slate.worked(
            key,
            title,
            say("share eased away × radius of the hem / (2 + share eased away)"),
            f"q * {edge} / (2 + q)",
            figures.hem_allowance_limit,
            How(
                law=Law.HABIT,
                note=say(
                    "a hem turned once lies on a radius less by its depth, and must lose that"
                ),
            ),
            q=ease,
            **{edge: layer.hem_radius},
        )
        return
    yield part.draft.slate.worked(
        key,
        title,
        say("share eased away × radius of the hem / (1 + half the share eased away)"),
        f"q * {edge} / (1 + q / 2)",
        figures.hem_allowance_limit,
        How(
            law=Law.HABIT,
            note=say("a narrow hem turned twice is stitched half its depth inside the hem line"),
        ),
        q=ease,
        **{edge: layer.hem_radius},
    )


def _allowance(part: Part) -> Iterator[Working]:
    figures, layer, draft = part.figures, part.layer, part.draft
    spec = draft.plan.spec
    given = None if part.of_lining else spec.skirt.allowances.hem
    if figures.hem_allowance is None or given is not None:
        return
    formula, words = "usual", say("usual allowance of this hem")
    radius = layer.cut.hem_radius
    usual = USUAL[layer.finish]
    if radius is None and layer.finish is HemFinish.TURNED:
        usual = STRAIGHT_HEM
    limit = deepest_hem(radius, ease=layer.behaviour.hem_ease, finish=layer.finish)
    if not math.isinf(limit):
        formula = "min(usual, max(rounddown(limit / to) * to, least))"
        words = say("usual allowance of this hem, or what the curve takes if that is less")
    if spec.scale < 1:
        formula = f"min({formula}, half)"
    yield draft.slate.worked(
        part.key("hem_allowance"),
        say("hem allowance"),
        words,
        formula,
        figures.hem_allowance,
        How(law=Law.HABIT),
        usual=usual,
        limit=limit,
        to=TO,
        least=LEAST_HEM,
        half=HEM_ALLOWANCE,
    )


def _drop(part: Part) -> Iterator[Working]:
    figures, layer, slate = part.figures, part.layer, part.draft.slate
    cut = layer.cut
    if figures.bias_drop is None or cut.hem_radius is None or cut.waist_radius is None:
        return
    inner = cut.waist_radius
    if isinstance(cut, ShapedGores):
        inner = max(cut.hem_radius - cut.length, LEAST_SHARE * cut.hem_radius)
    yield slate.worked(
        part.key("bias_drop"),
        say("drop of the hem at full bias, about"),
        say(
            "drop of a reference skirt in this cloth × (R² / 2 × ln(R / r) − (R² − r²) / 4) over"
            " the same of the reference skirt"
        ),
        "b0 * (R ** 2 / 2 * ln(R / r) - (R ** 2 - r ** 2) / 4) / Q0",
        figures.bias_drop,
        How(
            law=Law.MODEL,
            note=say("cloth hanging from its waist stretches by its own weight; hang it and see"),
        ),
        b0=layer.behaviour.bias_drop,
        R=cut.hem_radius,
        r=inner,
        Q0=REFERENCE_PULL,
    )
    for k, one in enumerate(figures.bias_drops):
        if one.drop < 1e-6 or one.drop > 0.95 * figures.bias_drop:
            continue
        panel = math.radians(figures.panel_angle or 0.0)
        along = math.degrees(bias.grain_from_edge(panel, layer.grain))
        yield slate.worked(
            part.key(f"bias_drops.{k}.drop"),
            say("drop at one place of a panel's hem, about"),
            say("drop at full bias × sin² of twice the angle from the grain"),
            "b * sin(2 * a) ** 2",
            one.drop,
            How(law=Law.MODEL, note=say("the other places go by the same law")),
            b=figures.bias_drop,
            a=abs(one.angle - along),
        )
        return


def _spare(part: Part) -> Iterator[Working]:
    figures, layer, spec = part.figures, part.layer, part.draft.plan.spec
    asked = None if part.of_lining else spec.skirt.allowances.spare
    if not figures.hem_spare or asked is not None:
        return
    cut = layer.cut
    angle = 2 * cut.flare if isinstance(cut, ShapedGores) else cut.panel_angle
    share = 1.0 if angle is None else bias.steepest_drop(angle, layer.grain, 1.0)
    yield part.draft.slate.worked(
        part.key("hem_spare"),
        say("spare below the hem, to level it once it has hung"),
        say("drop at full bias × what a panel's hem reaches of it, to the next millimetre"),
        "roundup(b * m / mm) * mm",
        figures.hem_spare,
        How(law=Law.MODEL),
        b=layer.full_drop,
        m=share,
        mm=1.0,
    )


def finish(draft: Draft) -> Iterator[Working]:
    """Yield how much binding, facing strip or braid goes round the skirt's hem."""
    held, slate, plan = draft.figures.hem, draft.slate, draft.plan
    if held is None:
        return
    sweep = draft.figures.skirt.sweep
    if held.strip_length is not None:
        yield slate.worked(
            "hem.strip_length",
            say("bias strip for the hem"),
            say("sweep + spare + what each further joint takes; strips run across at 45 degrees"),
            "S + spare + joint * max(roundup((S + spare) / (U * sqrt(2))) - 1, 0)",
            held.strip_length,
            How(law=Law.HABIT),
            S=sweep,
            spare=STRIP_SPARE,
            joint=JOINT,
            U=max(plan.binding_width, 1.0),
        )
    if held.braid_length is not None:
        yield slate.worked(
            "hem.braid_length",
            say("braid for the hem"),
            say("sweep + what its ends lap"),
            "S + spare",
            held.braid_length,
            How(law=Law.HABIT),
            S=sweep,
            spare=BRAID_SPARE,
        )


def walking(part: Part) -> Iterator[Working]:
    """Yield the least sweep for one step at this layer's hem."""
    figures, draft = part.figures, part.draft
    if figures.walking_sweep is None:
        return
    spec, waist, floor = draft.plan.spec, draft.plan.waist, draft.plan.floor
    wearer = spec.wearer
    below = part.layer.length + waist.drop
    yield draft.slate.worked(
        part.key("walking_sweep"),
        say("sweep that one step needs, about"),
        say("2 × step × (hem below the hip / floor below the hip) + girth of one leg at the hem"),
        "2 * p * max(L + D - d0, 0) / (Ks - d0) + leg",
        figures.walking_sweep,
        How(
            law=Law.MODEL,
            note=say("the hip joint lies at hip depth; sitting and stairs are tried on"),
        ),
        p=wearer.step,
        L=part.layer.length,
        D=waist.drop,
        d0=wearer.hip_depth,
        Ks=(floor.left + floor.right) / 2,
        leg=leg_girth(below / spec.scale, hip=wearer.hip),
    )
