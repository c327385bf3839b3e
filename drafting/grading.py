"""A garment in several sizes: divided alike, its findings told once.

Imports the spec, the figures and the piece.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, replace

from drafting.figures import Figures
from drafting.findings import Finding, Level
from drafting.language import listed, say
from drafting.piece import Piece
from drafting.spec import Cloth, Cloths, Spec


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """One size of a graded garment, drafted by itself."""

    spec: Spec
    figures: Figures
    pieces: tuple[Piece, ...]

    @property
    def panels(self) -> tuple[int, int]:
        """How many panels the skirt has, and the lining."""
        lining = self.figures.lining
        return self.figures.skirt.panels, 0 if lining is None else lining.panels


def divided_alike(drafts: Sequence[Sized]) -> tuple[Spec, ...]:
    """Return the specs of a graded garment, changed so that every size comes in the same pieces.

    Where one size needs more panels for its cloth than another, all are cut in that many, and no
    corner is pieced on in some sizes alone. Specs that need no change are returned themselves.
    """
    specs = tuple(one.spec for one in drafts)
    if len({tuple(piece.name for piece in one.pieces) for one in drafts}) > 1:
        bare = tuple(replace(spec, cloths=_without_piecing(spec.cloths)) for spec in specs)
        if bare != specs:
            return bare
    if len({one.panels for one in drafts}) == 1:
        return specs
    skirt = max(one.panels[0] for one in drafts)
    lining = max(one.panels[1] for one in drafts)
    return tuple(
        replace(
            spec,
            skirt=replace(spec.skirt, panels=skirt),
            lining=replace(spec.lining, panels=lining) if spec.lining else None,
        )
        for spec in specs
    )


def _without_piecing(cloths: Cloths) -> Cloths:
    whole = {}
    for field in fields(cloths):
        cloth: Cloth = getattr(cloths, field.name)
        whole[field.name] = replace(cloth, piecing=False)
    return Cloths(**whole)


def of_every_size(
    found: Sequence[tuple[str, tuple[Finding, ...]]], own: tuple[Finding, ...]
) -> tuple[Finding, ...]:
    """Return the findings of a graded garment, each told once, with the sizes that it holds for.

    Args:
        found: the name of each size with its findings; those of one code are told with the
            numbers of the largest size that has it.
        own: the findings of the sheet itself.
    """
    told: dict[str, tuple[list[str], Finding]] = {}
    for size, findings in found:
        for one in findings:
            if one.level is Level.STOP and not _same(found, one):
                # What one size would need to be drawn may be wrong for another: each has its own.
                told[f"{one.code} {size}"] = ([size], one)
                continue
            sizes, _ = told.get(one.code, ([], one))
            told[one.code] = ([*sizes, *([] if size in sizes else [size])], one)
    every = len(found)
    codes = {one.code for one in own} & told.keys()
    return (
        *(one for one in own if one.code not in codes),
        *(
            one if len(sizes) == every and _same(found, one) else _sized(one, sizes, every)
            for sizes, one in told.values()
        ),
    )


def _same(found: Iterable[tuple[str, tuple[Finding, ...]]], one: Finding) -> bool:
    return all(one in findings for _, findings in found)


def _sized(one: Finding, sizes: list[str], every: int) -> Finding:
    """Return a finding that says for which sizes it holds, and whose numbers it tells."""
    if len(sizes) == 1:
        return replace(one, what=say("Size {size}: {what}", size=sizes[0], what=one.what))
    if len(sizes) == every:
        what = say(
            "In every size, here with the numbers of {size}: {what}", size=sizes[-1], what=one.what
        )
        return replace(one, what=what)
    what = say(
        "Sizes {sizes}, here with the numbers of {size}: {what}",
        sizes=listed(sizes),
        size=sizes[-1],
        what=one.what,
    )
    return replace(one, what=what)
