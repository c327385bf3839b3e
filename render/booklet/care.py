"""What keeps wearer and skirt from harm: cautions in one box, washing, storing.

Imports the making and the booklet's values.
"""

from drafting.cautions import cautions
from drafting.findings import by_weight
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


def findings(making: Making) -> Section | None:
    """Return what a cutter would say of this draft, or None if there is nothing."""
    told = tuple(f"{one.what} {one.do}" for one in by_weight(making.pattern.findings))
    if not told:
        return None
    return Section(name="worth-knowing", title=say("Worth knowing"), blocks=(Bullets(items=told),))


def care(making: Making) -> Section:
    """Return how to wash, press and keep the finished garment."""
    items = [
        say("Follow the care label of the cloth that asks for most: the others come along."),
    ]
    wish = making.spec.ruffle
    if wish is not None:
        items.append(
            say(
                "Keep it out of the machine: the ruffle tangles, creases and tears. Brush and air"
                " it after wearing; when it must be washed, wash the whole skirt by hand in cool"
                " water, never wrung, and let it drip from the waist."
            )
        )
        if wish.cloth is RuffleCloth.SILK_ORGANZA:
            items.append(
                say(
                    "Silk marks with water and loses its crispness in it: try a scrap, or have the"
                    " skirt cleaned by somebody who knows silk."
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
