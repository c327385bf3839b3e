"""Workings of sweeps: the hem all the way round, and other lines parallel to it.

Millimetres and degrees. A curve's length is the mean of a length at even places round it, for
which few places do: the lengths round a body are smooth. Imports the cuts and the model.
"""

import math
from collections.abc import Callable, Iterator, Mapping

from drafting import bias
from drafting.circle import Flare
from drafting.gathered import Gathered
from drafting.gored import ShapedGores
from drafting.language import say
from drafting.levelled import Levelled
from drafting.outline import Cut
from drafting.tilted import Tilted
from drafting.working.draft import Part
from drafting.working.model import How, Working

AGREES = 0.004
"""So many places are enough when twice as many move the length by less, in mm."""

MOST_PLACES = 64

Found = tuple[str, str, dict[str, float], str]
"""How a line round a layer is found: in words, in letters, the numbers, and a note."""


def sweep(part: Part) -> Iterator[Working]:
    """Yield the sweep of a layer, and the hem of one of its panels."""
    layer, figures, slate = part.layer, part.figures, part.draft.slate
    title, key = say("sweep, the finished hem all the way round"), part.key("sweep")
    below, own = layer.below, layer.cut.sweep
    words, formula, numbers, note = line_round(layer.cut, 0.0)
    if below is not None and below.flounce is not None:
        yield slate.worked(
            key,
            title,
            say("the flounce's outer edge: its inner edge × outer / inner radius"),
            "E * ro / ri",
            figures.sweep,
            E=own,
            ro=below.flounce.hem_radius,
            ri=below.flounce.waist_radius,
        )
    elif below is not None:
        yield slate.worked(
            key,
            title,
            say("flat length of the lowest tier"),
            "flat",
            figures.sweep,
            flat=below.tiers[-1].flat,
        )
    elif layer.godets and part.draft.figures.godets is not None:
        godets = part.draft.figures.godets
        yield slate.worked(
            key,
            title,
            say("hem of the gores + what the godets add"),
            "E + Sg",
            figures.sweep,
            E=own,
            Sg=godets.sweep,
        )
        yield slate.worked(
            part.key("gores_sweep"),
            say("hem of the gores, without the godets"),
            words,
            formula,
            own,
            How(step=True, note=note),
            **numbers,
        )
    else:
        yield slate.worked(key, title, words, formula, figures.sweep, How(note=note), **numbers)
    if figures.panel_hem is not None:
        yield slate.worked(
            part.key("panel_hem"),
            say("hem of one panel"),
            say("lower edge of the panels / number of panels"),
            "E / n",
            figures.panel_hem,
            E=own,
            n=figures.panels,
        )


def line_round(cut: Cut, up: float) -> Found:
    """Return how a line round a layer is found that runs ``up`` above its hem."""
    if isinstance(cut, Flare) and cut.drop and not up:
        return _trimmed(cut)
    letter = "Rl" if up else "R"
    if isinstance(cut, Flare | Tilted):
        return (
            say("2 × π × fullness × its radius"),
            f"2 * pi * F * {letter}",
            {"F": cut.fullness, letter: cut.hem_radius - up},
            "",
        )
    if isinstance(cut, Gathered):
        return _straight(cut, up)
    if isinstance(cut, ShapedGores) and cut.around.even:
        return _gores(cut, up)
    assert isinstance(cut, Levelled | ShapedGores)
    first = cut.waist_radius if isinstance(cut, Levelled) else cut.hem_radius - cut.length
    fullness, around = cut.fullness, cut.around
    assert first is not None
    reach = first

    def at(share: float) -> tuple[float, float]:
        return reach + around.at(share) - up, around.slope(share) / fullness

    return _mean_of(at, {"F": fullness})


def _mean_of(at: Callable[[float], tuple[float, float]], same: Mapping[str, float]) -> Found:
    """Return the length of a curve about a centre from its radius and how fast that grows."""
    places = _enough(lambda share: math.hypot(*at(share)))
    numbers, parts = dict(same), []
    for k in range(places):
        radius, grows = f"R{k + 1}", f"g{k + 1}"
        numbers[radius], numbers[grows] = at(k / places)
        parts.append(f"sqrt({radius} ** 2 + {grows} ** 2)")
    return (
        say(
            "2 × π × fullness × mean of √(radius² + growth²) at {count} even places from centre"
            " back",
            count=places,
        ),
        f"2 * pi * F * ({' + '.join(parts)}) / {places}",
        numbers,
        say("the hem's radius grows and shrinks round the body, so a step along it is longer"),
    )


def _enough(value: Callable[[float], float]) -> int:
    def mean(places: int) -> float:
        return math.fsum(value(k / places) for k in range(places)) / places

    places = 8
    while places < MOST_PLACES and math.tau * abs(mean(places) - mean(2 * places)) > AGREES:
        places *= 2
    return places


def _straight(cut: Gathered, up: float) -> Found:
    if cut.around.even:
        return (
            say("as long as the flat waist seam: straight lengths"),
            "c",
            {"c": cut.waistline},
            "",
        )

    def grows(share: float) -> float:
        return math.tau * cut.around.slope(share)

    places = _enough(lambda share: math.hypot(cut.waistline, grows(share)))
    numbers = {"c": cut.waistline}
    parts = []
    for k in range(places):
        numbers[f"g{k + 1}"] = grows(k / places)
        parts.append(f"sqrt(c ** 2 + g{k + 1} ** 2)")
    words = say(
        "mean of √(flat waist seam² + growth²) at {count} even places from centre back, the growth"
        " counted for a whole turn",
        count=places,
    )
    return words, f"({' + '.join(parts)}) / {places}", numbers, ""


def _gores(cut: ShapedGores, up: float) -> Found:
    below = cut.length - up
    flare, letter = math.degrees(cut.flare), "Rl" if up else "R"
    if below >= cut._shaped_depth:
        return (
            say("2 × number of gores × radius × angle of half a gore"),
            f"2 * n * {letter} * pi * A / 180",
            {"n": cut.panels, letter: cut.hem_radius - up, "A": flare},
            "",
        )
    lean, at = cut._side_at(below)
    return (
        say("2 × number of gores × half the width there × arc over chord"),
        "2 * n * x * (pi * B / 180) / sin(B)" if lean > 1e-6 else "2 * n * x",
        {"n": cut.panels, "x": at.x, "B": math.degrees(lean)},
        say("the line meets the gores' sides where they are not straight yet"),
    )


def _trimmed(cut: Flare) -> Found:
    """Return the hem of panels whose estimated drop on the bias is half cut away beforehand."""
    grain = bias.grain_from_edge(cut.panel_angle, cut.grain)
    taken = bias.MOST_TRIMMED * cut.drop

    def at(share: float) -> tuple[float, float]:
        angle = share * cut.panel_angle - grain
        return (
            cut.hem_radius - taken * math.sin(2 * angle) ** 2,
            -2 * taken * math.sin(4 * angle),
        )

    # Between the middles of even steps, which suits a curve that does not close on itself.
    places = 8
    while places < MOST_PLACES and _rough(at, cut, places):
        places *= 2
    numbers: dict[str, float] = {"F": cut.fullness}
    parts = []
    for k in range(places):
        numbers[f"R{k + 1}"], numbers[f"g{k + 1}"] = at((k + 0.5) / places)
        parts.append(f"sqrt(R{k + 1} ** 2 + g{k + 1} ** 2)")
    words = say(
        "2 × π × fullness × mean of √(radius² + growth²) at {count} even places of a panel's hem",
        count=places,
    )
    return (
        words,
        f"2 * pi * F * ({' + '.join(parts)}) / {places}",
        numbers,
        say("half of the drop that is expected on the bias is cut away beforehand"),
    )


def _rough(at: Callable[[float], tuple[float, float]], cut: Flare, places: int) -> bool:
    def mean(count: int) -> float:
        return math.fsum(math.hypot(*at((k + 0.5) / count)) for k in range(count)) / count

    return math.tau * cut.fullness * abs(mean(places) - mean(2 * places)) > AGREES
