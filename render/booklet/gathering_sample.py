"""The gathering sample: a strip to print and sew, and the ratio it gives back.

Imports the making, its pictures and the booklet's values.
"""

from drafting.language import say
from render.booklet.making import Making
from render.booklet.model import Block, Paragraph, Section
from render.booklet.strip_steps import ratio_text
from render.pictures.picture import Picture


def gathering_sample(making: Making, strip: Picture | None) -> Section:
    """Return the page that finds out how much a cloth can be gathered."""
    blocks: list[Block] = [
        Paragraph(
            words=say(
                "Crisp cloth stands by itself and needs less; soft cloth needs more. The ruffle is"
                " drafted for {ratio} to 1. Before you cut all its strips, gather one scrap and"
                " see.",
                ratio=ratio_text(making),
            )
        ),
        Paragraph(
            words=say(
                "The strip is a third of the sample. Mark it three times along a scrap of the"
                " ruffle's cloth: its eighths, its rows, its seam line. If it was printed smaller,"
                " draw it by its measures instead."
            )
        ),
    ]
    if strip is not None:
        blocks.append(strip)
    blocks += [
        Paragraph(
            words=say(
                "Sew the rows, draw the scrap up until you like how it stands, spread the gathers"
                " evenly between the eighth marks, and measure it along the seam line. Its flat"
                " length divided by that is your ratio."
            )
        ),
        Paragraph(
            words=say(
                "Sew the sample to a scrap of lining as well: the allowance must still go under the"
                " presser foot."
            )
        ),
    ]
    return Section(name="gathering-sample", title=say("A gathering sample"), blocks=tuple(blocks))
