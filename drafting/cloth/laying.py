"""The lay plan of a cloth: several ways of laying it are tried, the shortest sound one is kept.

Millimetres. Full-width strips are taken out first, for each adds its own depth and nothing
lies beside it. Imports the ways of laying, checking and the words of findings.
"""

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from typing import TYPE_CHECKING

from drafting.cloth.boxes import usable_width
from drafting.cloth.checking import faults
from drafting.cloth.folded import alone, folded_jobs, on_fold, wants_fold
from drafting.cloth.in_rows import at, copies, in_rows, rows_length
from drafting.cloth.kinds import may_shade
from drafting.cloth.lays import Laid, Lay, Lies, Method, Stretch
from drafting.cloth.shapes import HAIR, Shape, shapes
from drafting.cloth.sliding import Job, jobs, slid
from drafting.cloth.solver import CANNOT_BE_RUN, TOOK_TOO_LONG, SolverError, solved, suits
from drafting.effort import Effort
from drafting.findings import Finding, caution, note
from drafting.language import in_its_language, said_later, say
from drafting.piece_names import cloth_in_full, kind_words, piece_words
from drafting.spec import Cloth
from drafting.units import Mm, Units, length_text

if TYPE_CHECKING:
    from drafting.pattern import Pattern

MOST_LAID = 600
"""More shapes than this are counted in rows and not laid one by one."""

STALL = {Effort.USUAL: (3, 4), Effort.THOROUGH: (4, 10)}
"""How often in a row the solver may fail before it is stopped, at least and at most; in between
as often as there are shapes, for few of them soon lie as well as they can. The usual takes a
second or so while pages are laid out too, the thorough up to three where the lay is all that
is asked. For a quick plan it is not asked."""

LEFT_BESIDE = 0.15
"""A strip that leaves no more of the width than this has its length of cloth to itself."""

NO_MATTER: Mm = 10.0
"""Where no plan could be shorter by more than this, the solver is not asked."""

WORTH_SAYING: Mm = 100.0
"""A shop sells no less than this."""

TRIALS = {Effort.QUICK: 400, Effort.USUAL: 1200, Effort.THOROUGH: 2500}

Plan = tuple[tuple[Laid, ...], Mm]


@in_its_language
def laid_plan(pattern: "Pattern", cloth: str, effort: Effort | None = None) -> Lay:
    """Return how the pieces of one cloth are laid; see ``drafting.cloth.lay``.

    Raises:
        KeyError: nothing of the pattern is cut from that cloth.
    """
    cut = shapes(pattern, cloth)
    if not cut:
        raise KeyError(cloth)
    of: Cloth = getattr(pattern.spec.cloths, cloth)
    return lay_of(cut, cloth, of, effort or Effort.THOROUGH, units=pattern.spec.units)


def lay_plans(pattern: "Pattern", effort: Effort = Effort.USUAL) -> tuple[Lay, ...]:
    """Return the lay of every cloth that the pattern is cut from, in the order they are bought."""
    names = tuple(pattern.figures.cloth)
    # While the solver packs one cloth in a process of its own, another is slid together here.
    with ThreadPoolExecutor(max_workers=2) as pool:
        return tuple(pool.map(lambda name: laid_plan(pattern, name, effort), names))


def lay_of(cut: Sequence[Shape], name: str, of: Cloth, effort: Effort, *, units: Units) -> Lay:
    """Return the lay of some shapes on a cloth.

    Args:
        name: of the cloth on the sheet.
    """
    width = usable_width(of)
    missing = tuple(shape for shape in cut if shape.narrowest > width + HAIR)
    told: list[Finding] = [_too_wide(shape, name, width, units) for shape in missing]
    fit = [shape for shape in cut if shape not in missing]
    if sum(shape.count for shape in fit) > MOST_LAID:
        told.append(_too_many(fit, name))
        return counted(fit, name, of, missing=missing, told=told)
    found = _folded(fit, name, of, effort, units) if of.fold and wants_fold(fit) else None
    if found is not None and faults(found, fit):
        found = None
        told.append(_not_folded(name))
    if found is None:
        found = _open(fit, name, of, effort)
    if _both_ways(found) and may_shade(of.kind):
        told.append(_may_shade(name, of))
    return replace(found, missing=missing, findings=(*told, *found.findings))


def _both_ways(lay: Lay) -> bool:
    """Tell whether a plan lays pieces end for end."""
    return len({abs(one.extra) > 1 for one in lay.laid}) > 1


def counted(
    fit: Sequence[Shape],
    name: str,
    of: Cloth,
    *,
    missing: tuple[Shape, ...] = (),
    told: Sequence[Finding] = (),
) -> Lay:
    """Return a plan that only counts rows of boxes and lays no shape."""
    width = usable_width(of)
    length = rows_length(fit, width)
    return Lay(
        name=name,
        cloth=of,
        usable=width,
        stretches=(Stretch(start=0.0, length=length, folded=False),),
        laid=(),
        missing=missing,
        counted=tuple(fit),
        method=Method.ROWS,
        rows_length=length,
        findings=tuple(told),
    )


# --- an open cloth -------------------------------------------------------------------------


def _open(fit: Sequence[Shape], name: str, of: Cloth, effort: Effort) -> Lay:
    width = usable_width(of)
    plan, method, told = open_plan(fit, width, effort, name=name)
    laid, length = plan
    return Lay(
        name=name,
        cloth=of,
        usable=width,
        stretches=(Stretch(start=0.0, length=length, folded=False),),
        laid=_in_order(laid),
        method=method,
        rows_length=rows_length(fit, width),
        findings=told,
    )


def open_plan(
    fit: Sequence[Shape], width: Mm, effort: Effort, *, name: str = "cloth"
) -> tuple[Plan, Method, tuple[Finding, ...]]:
    """Return the shortest plan of a single layer, what found it, and what is to be said of it."""
    strips, rest = _strips_apart(fit, width)
    told: tuple[Finding, ...] = ()
    ways: list[tuple[Plan, Method]] = [(in_rows(rest, width), Method.ROWS)]
    if rest:
        ways.append((slid(jobs(rest), width, trials=TRIALS[effort]), Method.SLID))
    least, most = STALL.get(effort, (0, 0))
    stall = min(max(sum(shape.count for shape in rest), least), most)
    best = min(length for (_, length), _ in ways)
    if stall and rest and best > _least(rest, width) + NO_MATTER and suits(rest, width):
        try:
            ways.append((solved(rest, width, stall=stall), Method.SOLVER))
        except SolverError as error:
            told = (_no_solver(name, error),)
    ways.sort(key=lambda way: way[0][1])
    plan, method = next(
        (plan, method)
        for plan, method in ways
        if method is Method.ROWS or _sound(plan, rest, width)
    )
    return _with_strips(plan, strips), method, told


def _sound(plan: Plan, wanted: Sequence[Shape], width: Mm) -> bool:
    """Tell whether a plan lays all that is wanted, none on another or beyond the cloth."""
    laid, length = plan
    trial = Lay(
        name="",
        cloth=Cloth(),
        usable=width,
        stretches=(Stretch(start=0.0, length=length, folded=False),),
        laid=laid,
        method=Method.SOLVER,
        rows_length=0.0,
    )
    return not faults(trial, wanted)


def _least(fit: Sequence[Shape], width: Mm) -> Mm:
    """Return a length that no plan can be shorter than: its area's, or its longest shape's."""
    longest = max(min(shape.box(extra).width for extra in shape.turns) for shape in fit)
    return max(sum(shape.area * shape.count for shape in fit) / width, longest)


def _strips_apart(fit: Sequence[Shape], width: Mm) -> tuple[list[Shape], list[Shape]]:
    """Return the strips that nothing lies beside, and the other shapes.

    A curved shape may reach into a gap that its box does not fit; of strips among curved
    shapes only those count that leave next to nothing beside them.
    """
    straight = all(shape.rectangle for shape in fit)
    widest_gap = width if straight else LEFT_BESIDE * width
    tall = {shape.number: shape.narrowest for shape in fit}
    strips = []
    for shape in fit:
        others = [tall[other.number] for other in fit if other is not shape or shape.count > 1]
        beside = min(others, default=width)
        gap = width - shape.box().height
        if shape.rectangle and len(shape.turns) < 3 and gap < min(beside, widest_gap) - HAIR:
            strips.append(shape)
    return strips, [shape for shape in fit if shape not in strips]


def _with_strips(plan: Plan, strips: Sequence[Shape]) -> Plan:
    laid, length = list(plan[0]), plan[1]
    for shape in strips:
        for copy, flipped in enumerate(copies(shape), start=1):
            laid.append(at(shape, copy, 0.0, length, 0.0, flipped=flipped))
            length += shape.box().width
    return tuple(laid), length


def _in_order(laid: Sequence[Laid]) -> tuple[Laid, ...]:
    """Return shapes in the order of the cut list, copies counted along the cloth.

    Copies that come out alike may change their numbers; those of a pair in two layers keep them.
    """
    alike: dict[tuple[int, bool], list[Laid]] = {}
    for one in laid:
        alike.setdefault((one.shape.number, one.flipped), []).append(one)
    found: list[Laid] = []
    for copies_of in alike.values():
        if any(one.lies in (Lies.UPPER, Lies.UNDER, Lies.ALONE) for one in copies_of):
            found += copies_of
            continue
        along = sorted(copies_of, key=lambda one: (round(one.box.left, 3), one.box.bottom))
        numbers = sorted(one.copy for one in copies_of)
        found += [replace(one, copy=copy) for one, copy in zip(along, numbers, strict=True)]
    return tuple(sorted(found, key=lambda one: (one.shape.number, one.copy)))


# --- a folded one --------------------------------------------------------------------------


def _folded(fit: Sequence[Shape], name: str, of: Cloth, effort: Effort, units: Units) -> Lay:
    width = usable_width(of)
    doubled, left = folded_jobs(fit, width)
    # What is cut once may lie behind the folded cloth, or beside what is cut double on it.
    beside = alone(left, fit, width)
    names = {job.shape.number for job in beside}
    ways = [(doubled, left)]
    if beside:
        ways.append(((*doubled, *beside), tuple(s for s in left if s.number not in names)))
    laid, stretches, rows, told = min(
        (
            _on_fold_and_behind(jobs_there, rest, fit, width, effort, name)
            for jobs_there, rest in ways
        ),
        key=lambda way: sum(stretch.length for stretch in way[1]),
    )
    total = sum(stretch.length for stretch in stretches)
    opened = open_plan(fit, width, Effort.QUICK)[0][1]
    if total - opened > WORTH_SAYING:
        told = (*told, _opened_saves(name, total - opened, units))
    return Lay(
        name=name,
        cloth=of,
        usable=width,
        stretches=stretches,
        laid=_in_order(laid),
        method=Method.SLID,
        rows_length=rows,
        findings=told,
    )


def _on_fold_and_behind(
    folded: Sequence[Job],
    left: Sequence[Shape],
    fit: Sequence[Shape],
    width: Mm,
    effort: Effort,
    name: str,
) -> tuple[tuple[Laid, ...], tuple[Stretch, ...], Mm, tuple[Finding, ...]]:
    """Return what lies on folded cloth and behind it, its stretches, the length of rows, words."""
    laid, length, rows = on_fold(folded, width, trials=TRIALS[effort])
    stretches = [Stretch(start=0.0, length=length, folded=True)]
    told: tuple[Finding, ...] = ()
    if left:
        (behind, more), _, told = open_plan(left, width, effort, name=name)
        laid += tuple(_behind(one, fit, length) for one in behind)
        stretches.append(Stretch(start=length, length=more, folded=False))
        rows += rows_length(left, width)
    return laid, tuple(stretches), rows, told


def _behind(one: Laid, fit: Sequence[Shape], start: Mm) -> Laid:
    """Return a shape left over from the fold where it lies on the whole cloth."""
    whole = next(shape for shape in fit if shape.number == one.shape.number)
    first = whole.count - one.shape.count
    return replace(one, shape=whole, copy=first + one.copy, x=one.x + start)


# --- what is said --------------------------------------------------------------------------


def _too_wide(shape: Shape, name: str, width: Mm, units: Units) -> Finding:
    return caution(
        "too-wide-to-lay",
        say(
            # TRANSLATORS: {piece} and {cloth} have no article; word it so that they can stand so.
            "The {piece} is {width} wide and does not fit the {cloth}, which has {usable} between"
            " its selvages.",
            piece=piece_words(shape.name),
            width=length_text(shape.narrowest, units),
            cloth=cloth_in_full(name),
            usable=length_text(width, units),
        ),
        say("Buy wider cloth, or piece it from two."),
    )


def _too_many(fit: Sequence[Shape], name: str) -> Finding:
    count = sum(shape.count for shape in fit)
    return note(
        "too-many-to-draw",
        say(
            # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
            "{count} pieces are cut from the {cloth}: more than a plan can show.",
            count=count,
            cloth=cloth_in_full(name),
        ),
        say("Lay them in rows; the length is that of rows."),
    )


def _no_solver(name: str, error: SolverError) -> Finding:
    return note(
        "laid-without-solver",
        say(_NO_SOLVER.get(error.reason, _SOLVER_FAILED), cloth=cloth_in_full(name)),
        say("The plan is sound, and may take a little more cloth than it need."),
    )


# TRANSLATORS: {cloth} has no article in these three; word them so that it stands by itself.
_SOLVER_FAILED = said_later(
    "The packing solver failed, so the {cloth} is laid by hemsweep's own way."
)
_NO_SOLVER = {
    CANNOT_BE_RUN: said_later(
        "The packing solver cannot be run, so the {cloth} is laid by hemsweep's own way."
    ),
    TOOK_TOO_LONG: said_later(
        "The packing solver took too long, so the {cloth} is laid by hemsweep's own way."
    ),
}


def _not_folded(name: str) -> Finding:
    return note(
        "not-folded",
        say(
            # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
            "No sound plan of the {cloth} was found on the fold, so it is laid open.",
            cloth=cloth_in_full(name),
        ),
        say("Chalk each half, turn it over on its middle line and chalk the other."),
    )


def _may_shade(name: str, of: Cloth) -> Finding:
    return note(
        "may-shade",
        say(
            # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
            "The {cloth} is {kind}, which may look darker one way up than the other, and this plan"
            " lays pieces both ways.",
            cloth=cloth_in_full(name),
            kind=kind_words(of.kind),
        ),
        say(
            "Hold two scraps beside each other, one upside down, in daylight; if they differ, write"
            " one_way = true under [cloth.{key}] and lay anew.",
            key=name,
        ),
    )


def _opened_saves(name: str, saved: Mm, units: Units) -> Finding:
    return note(
        "opened-saves-cloth",
        say(
            # TRANSLATORS: {cloth} has no article; word it so that it stands by itself.
            "Laid in a single layer, the {cloth} would be {saved} shorter than on the fold.",
            cloth=cloth_in_full(name),
            saved=length_text(saved, units),
        ),
        say(
            "Lay it open if you do not mind chalking each half, turning it over and chalking again;"
            " leave fold = true out under [cloth.{key}].",
            key=name,
        ),
    )
