"""What a garment is, told to somebody who has not seen it: in a line, and in a few sentences.

Imports the measures' words and the front matter of the booklet.
"""

from collections.abc import Iterator

from drafting.language import say, say_counted
from drafting.pattern import Pattern
from drafting.spec import Closure, WaistFinish
from drafting.units import Mm, Units, length_text
from render.measures import cut_words, finish_words, fullness_words, ratio_text

OTHER = {Units.CM: Units.INCH, Units.INCH: Units.CM}


def both(length: Mm, units: Units) -> str:
    """Return a length in a sheet's units, and in brackets in the other ones."""
    return in_brackets(length_text(length, units), length_text(length, OTHER[units]))


def in_brackets(first: str, second: str) -> str:
    """Return a text with another that says the same behind it in brackets."""
    return say("{first} ({second})", first=first, second=second)


def short(pattern: Pattern) -> str:
    """Return what the garment is in one line."""
    figures = pattern.figures
    if figures.skirt.cut == "owned":
        return (
            say("A lining to go into a skirt that you have")
            if figures.ruffle is None
            else say("A lining and a gathered ruffle to go into a skirt that you have")
        )
    return ", ".join((*_skirt(pattern), *_under(pattern)))


def _skirt(pattern: Pattern) -> Iterator[str]:
    skirt = pattern.figures.skirt
    if skirt.cut == "gored":
        yield say("A skirt in gores")
    elif skirt.cut == "gathered":
        yield say("A gathered skirt")
    elif skirt.cut == "tiered":
        yield say("A tiered skirt")
    else:
        yield say("A circle skirt")
        yield fullness_words(skirt.fullness or 0.0)


def _under(pattern: Pattern) -> Iterator[str]:
    figures = pattern.figures
    if figures.flounce is not None:
        yield say("with a flounce")
    if figures.ruffle is not None:
        yield say("with a lining and a gathered ruffle under it")
    elif figures.lining is not None:
        yield say("with a lining")


def told(pattern: Pattern) -> tuple[str, ...]:
    """Return what it is in a few sentences, with the numbers of one size."""
    return tuple(_told(pattern))


def _told(pattern: Pattern) -> Iterator[str]:
    figures, spec = pattern.figures, pattern.spec
    units = spec.units
    if figures.skirt.cut != "owned":
        yield say("The skirt: {cut}.", cut=cut_words(figures.skirt))
    if figures.lining is not None:
        yield say("The lining: {cut}.", cut=cut_words(figures.lining))
    if figures.ruffle is not None:
        yield say(
            "The ruffle, {depth} deep, is gathered {ratio} to 1 and sewn to the lining so that the"
            " skirt stands out.",
            depth=both(figures.ruffle.depth, units),
            ratio=ratio_text(figures.ruffle.gather_ratio),
        )
    if figures.flounce is not None:
        yield say_counted(
            "At its hem hangs a flounce {depth} deep, cut as {count} ring.",
            "At its hem hangs a flounce {depth} deep, cut as {count} rings.",
            figures.flounce.rings,
            depth=both(figures.flounce.depth, units),
        )
    yield _waist(pattern)
    if figures.hem is not None:
        yield say("Its hem: {finish}.", finish=finish_words(figures.hem.finish))
    if spec.scale != 1:
        yield say("Drafted at half scale, for a half-scale form.")


def _waist(pattern: Pattern) -> str:
    wish = pattern.spec.skirt
    finish = {
        WaistFinish.BAND: say("a waistband"),
        WaistFinish.FACING: say("a facing"),
        WaistFinish.CASING: say("a casing with elastic"),
        WaistFinish.BIAS: say("a bias binding"),
        WaistFinish.BODICE: say("none, for it is sewn to a bodice"),
    }[wish.waist_finish]
    if pattern.figures.opening is None or wish.waist_finish is WaistFinish.CASING:
        return say("Waist finish: {finish}; it is pulled on.", finish=finish)
    where = {
        Closure.CENTRE_BACK: say("at the centre back"),
        Closure.LEFT_SIDE: say("at the left side"),
        Closure.NONE: say("where you choose"),
    }[wish.closure]
    return say("Waist finish: {finish}; it opens {where}.", finish=finish, where=where)
