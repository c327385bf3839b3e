"""What workings are made from: a planned garment, its figures, and a slate in its units.

Imports the plan, the figures and the model.
"""

from dataclasses import dataclass

from drafting.figures import Figures, LayerFigures
from drafting.layer import Layer
from drafting.plan import Plan
from drafting.spec import CutKind
from drafting.working.model import Slate


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A planned garment and its figures."""

    plan: Plan
    figures: Figures
    slate: Slate

    @property
    def ease_scale(self) -> float:
        """Scale of the draft, by which eases that are counted in mm shrink."""
        return self.plan.spec.scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One layer of a draft: ``skirt`` or ``lining``, planned and in figures."""

    draft: Draft
    name: str
    layer: Layer
    figures: LayerFigures

    @property
    def of_lining(self) -> bool:
        """Whether it is the lining."""
        return self.name == "lining"

    @property
    def cut_kind(self) -> CutKind:
        """How the sheet asks for it to be cut."""
        spec = self.draft.plan.spec
        wish = spec.lining if self.of_lining else spec.skirt
        assert wish is not None
        return wish.cut

    @property
    def line(self) -> float:
        """Length of its flat waist seam."""
        waist = self.draft.plan.waist
        return waist.lining_line if self.of_lining else waist.line

    def key(self, name: str) -> str:
        """Return the path of one of its figures."""
        return f"{self.name}.{name}"


def parts(draft: Draft) -> tuple[Part, ...]:
    """Return the layers that are drafted; a skirt that is owned is none of them."""
    found = []
    if not draft.plan.owned:
        found.append(
            Part(draft=draft, name="skirt", layer=draft.plan.skirt, figures=draft.figures.skirt)
        )
    if draft.plan.lining is not None and draft.figures.lining is not None:
        found.append(
            Part(
                draft=draft,
                name="lining",
                layer=draft.plan.lining,
                figures=draft.figures.lining,
            )
        )
    return tuple(found)
