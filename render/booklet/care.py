"""What keeps wearer and skirt from harm: cautions in one box, washing, storing.

Imports the making and the booklet's values.
"""

from drafting.cautions import cautions
from drafting.language import say
from drafting.spec import RuffleCloth
from render.booklet.making import Making
from render.booklet.model import Block, Bullets, Cautions, Paragraph, Section


def caution_box(making: Making) -> Section:
    """Return every caution that belongs to the garment, in one box."""
    return Section(
        name="cautions",
        title=say("Before you begin"),
        blocks=(Cautions(title=say("Take care"), items=cautions(making.spec)),),
    )


def care(making: Making) -> Section:
    """Return how to wash, press and keep the finished garment."""
    items = [
        say("Follow the care label of the cloth that asks for most: the others come along."),
    ]
    wish = making.spec.ruffle
    if wish is not None:
        items.append(
            say(
                "Keep the ruffle out of the machine: it tangles, creases and tears. Wash lining and"
                " ruffle by hand in cool water, rinse, and hang them by the waist to drip; or brush"
                " and air them, and wash the skirt alone where it comes off."
            )
        )
        items.append(_stiffness(wish.cloth))
    items.append(
        say("Dry it hanging from the waist, never by the hem, and press the skirt from the inside.")
    )
    items.append(
        say(
            "Keep it hanging, with room around it, or in a bag turned inside out; a full skirt that"
            " lies folded keeps its folds."
        )
    )
    blocks: list[Block] = [Bullets(items=tuple(items))]
    if making.spec.cloths.skirt.shrink_length:
        blocks.append(
            Paragraph(
                words=say(
                    "The cloth was washed before it was cut. Wash the skirt no hotter"
                    " than that, and it keeps its length."
                )
            )
        )
    return Section(name="care", title=say("Washing and keeping"), blocks=tuple(blocks))


def _stiffness(cloth: RuffleCloth) -> str:
    if cloth in (RuffleCloth.SOFT_TULLE, RuffleCloth.STIFF_NET):
        return say(
            "Net that has gone limp is steamed from a distance and shaken out while warm."
            " Never touch it with the iron."
        )
    if cloth is RuffleCloth.COTTON_ORGANDY:
        return say("Organdy that has gone limp is starched and pressed damp, up to the gathers.")
    if cloth is RuffleCloth.CRINOLINE_CANVAS:
        return say("Canvas is only brushed and aired: water takes its stiffness out.")
    return say("Organza is pressed dry, at the heat of its fibre, up to the gathers.")
