"""What must be said for safety, whoever the wearer is. General wording; local rules come first.

Imports the spec's words.
"""

from drafting.language import say
from drafting.spec import Figure, RuffleCloth, Spec

_NETS = (RuffleCloth.SOFT_TULLE, RuffleCloth.STIFF_NET, RuffleCloth.POLYESTER_ORGANZA)

LONG_SHARE = 0.85
"""A skirt that reaches this far to the floor is a long one on stairs."""


def cautions(spec: Spec) -> tuple[str, ...]:
    """Return the cautions that belong to a garment, a short paragraph each."""
    found = [
        say(
            "Fire: full skirts and light cloth catch easily. Keep well away from candles, heaters,"
            " cookers and sparklers. If clothing burns: stop, drop, roll, and follow what your"
            " fire service advises."
        )
    ]
    if spec.ruffle is not None and spec.ruffle.cloth in _NETS:
        found.append(
            say(
                "Net, tulle and polyester organza melt and stick to skin as they burn; cotton"
                " flames faster. Rely on neither."
            )
        )
    if spec.wearer.figure is Figure.CHILD:
        found.append(
            say(
                "Children: no cords or drawstrings, no dangling ends at waist or hem, no"
                " nightwear. Dressing-up clothes have rules of their own that differ by country:"
                " check those in force where you live, and ask a qualified person before you sell"
                " or give away."
            )
        )
    if spec.skirt.length >= LONG_SHARE * spec.wearer.floor_side:
        found.append(
            say(
                "Long hems trip: lift the skirt on stairs, and keep it out of escalators, wheels"
                " and pedals."
            )
        )
    found.append(tools_caution())
    found.append(
        say(
            "This is general sewing information. Local safety law, house rules and qualified"
            " advice come first."
        )
    )
    return tuple(found)


def tools_caution() -> str:
    """Return the one caution that belongs beside the cutting table."""
    return say(
        "Tools: close rotary cutters, cut away from yourself, count pins and needles. Try the iron"
        " on a scrap; synthetics melt."
    )
