"""What a reader is asked to measure once the pattern is taped: two seams, with their true lengths.

Millimetres in the page's frame; words in the language spoken. Imports the draft's check seams and
setting.
"""

from drafting.check_seams import check_seams
from drafting.language import clauses, headed, said_later, say
from drafting.pattern import Pattern
from drafting.spec import PaperName
from drafting.units import length_text
from render import style
from render.nest.facts import SizedRow
from render.nest.table import set_rows
from render.setting import Setting
from render.tiling import Sheets

_ON_PAPER = said_later(
    "Once the pattern is put together, measure these stitching lines on it from corner to corner,"
    " a curve with the tape measure on its edge. Within half a per cent is right."
)
_ON_CLOTH = said_later(
    "Measure these stitching lines where they are shown, from corner to corner, a curve with the"
    " tape measure on its edge. Within half a per cent is right."
)


def set_feedback(page: Setting, pattern: Pattern, sheets: Sheets) -> None:
    """Set which seams to measure on paper, where a pattern is graded or its maker is named."""
    publish = pattern.spec.publish
    if not (pattern.sizes or publish.maker or publish.page):
        return
    seams = check_seams(pattern, [placement.piece.name for placement in sheets.placements])
    if not seams:
        return
    ask = say(_ON_CLOTH if sheets.grid.paper.name is PaperName.PROJECTOR else _ON_PAPER)
    # No full stop: it would be taken for a part of the address.
    tell = (
        say("The maker is glad to hear what you measured: {page}", page=publish.page)
        if publish.page
        else ""
    )
    page.y -= 1.5
    if pattern.sizes:
        page.paragraph(f"{ask} {tell}".strip(), size=style.SMALL, after=0.4)
        rows = [SizedRow(name=seam.words, lengths=seam.lengths) for seam in seams]
        set_rows(page, pattern, rows)
        return
    units = pattern.spec.units
    told = clauses(headed(seam.words, length_text(seam.lengths[0], units)) for seam in seams)
    page.paragraph(f"{ask} {told}. {tell}".strip(), size=style.SMALL)
