"""The terms that a maker gives a pattern: repeated as they are given, and where their text is.

What is said of the well-known Creative Commons licences is a summary in a sentence, no legal
advice; the deed and the licence themselves say what holds. Imports the spec and the language.
"""

import re
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from drafting.language import headed, said_later, say, spoken
from drafting.spec import Spec
from render.words import edition_words

ALL_OF_THEM = "https://creativecommons.org/licenses/"
"""Where all of the licences are listed, for a name that gives no version."""

_NAMED = re.compile(
    r"(?:CC|Creative Commons)[\s-]*BY((?:-(?:NC|SA|ND)){0,2})"
    r"(?:[\s-]+(2\.0|2\.5|3\.0|4\.0)(?:[\s-]+International)?)?",
    re.IGNORECASE,
)
_ZERO = re.compile(r"(?:CC[\s-]?0|CC[\s-]Zero)(?:[\s-]+1\.0(?:[\s-]+Universal)?)?", re.IGNORECASE)

_MEANS = {
    "by": said_later(
        "You may share and change this pattern for any purpose, and sell what you make of it, as"
        " long as you name its maker, link to the licence and say what you changed."
    ),
    "by-sa": said_later(
        "You may share and change this pattern for any purpose, as long as you name its maker,"
        " link to the licence, say what you changed, and pass your own version on under the same"
        " licence."
    ),
    "by-nc": said_later(
        "You may share and change this pattern for purposes that are not commercial, as long as"
        " you name its maker, link to the licence and say what you changed."
    ),
    "by-nc-sa": said_later(
        "You may share and change this pattern for purposes that are not commercial, as long as"
        " you name its maker, link to the licence, say what you changed, and pass your own version"
        " on under the same licence."
    ),
    "by-nd": said_later(
        "You may share this pattern whole and unchanged for any purpose, as long as you name its"
        " maker and link to the licence; a changed version may not be passed on."
    ),
    "by-nc-nd": said_later(
        "You may share this pattern whole and unchanged for purposes that are not commercial, as"
        " long as you name its maker and link to the licence; a changed version may not be passed"
        " on."
    ),
    "cc0": said_later(
        "Its maker waives every right that the law lets them waive: you may use, share and change"
        " this pattern for any purpose without asking."
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Licence:
    """The terms of a pattern.

    Attributes:
        name: as the sheet gives it, "" where it gives none.
        deed: address of a page that explains it, "" for terms of the maker's own.
        means: a sentence that sums it up, "" where we know none.
    """

    name: str
    deed: str = ""
    means: str = ""


def licence(name: str) -> Licence:
    """Return what is known of a licence by the name that a sheet gives it."""
    words = " ".join(name.replace("\u2011", "-").replace("_", "-").split())
    if _ZERO.fullmatch(words):
        return Licence(
            name=name,
            deed=f"https://creativecommons.org/publicdomain/zero/1.0/deed.{spoken().value}",
            means=say(_MEANS["cc0"]),
        )
    found = _NAMED.fullmatch(words)
    kind = f"by{found[1].lower()}" if found else ""
    if found is None or kind not in _MEANS:
        return Licence(name=name)
    deed = f"{ALL_OF_THEM}{kind}/{found[2]}/deed.{spoken().value}" if found[2] else ALL_OF_THEM
    return Licence(name=name, deed=deed, means=say(_MEANS[kind]))


def terms(spec: Spec) -> tuple[str, ...]:
    """Return what is said of the terms of a pattern, in paragraphs; without the deed's address."""
    return tuple(_terms(licence(spec.publish.licence)))


def _terms(given: Licence) -> Iterator[str]:
    if not given.name:
        yield say("No licence is given with this pattern.")
        yield say(
            "Without one, the law of copyright alone says what a reader may do; in most countries"
            " that allows little beyond using it oneself. Ask the maker before you pass it on,"
            " change it for others, or sell what is made from it. This is general information and"
            " no legal advice."
        )
        return
    yield say("Licence, as its maker names it: {licence}", licence=given.name)
    if given.means:
        yield say("In short: {summary}", summary=given.means)
        yield say(
            "That is a summary and no legal advice. Its deed, and the text of the licence that it"
            " leads to, say what holds:"
        )
    else:
        yield say(
            "These are the maker's own words, and hemsweep adds nothing to them. Where they leave"
            " a question open, ask the maker."
        )


LICENCE_WIDTH = 88


def licence_page(spec: Spec) -> bytes:
    """Return the page of terms as plain text: title, maker, edition, day, and the licence."""
    publish = spec.publish
    lines = [spec.title]
    if publish.maker:
        lines.append(say("by {maker}", maker=publish.maker))
    lines += [words for words in (edition_words(spec), publish.page) if words]
    given = licence(publish.licence)
    for paragraph in terms(spec):
        lines += ["", *_wrapped(paragraph)]
    if given.deed:
        lines += ["", f"    {given.deed}"]
    lines += [
        "",
        *_wrapped(
            headed(
                say("Typeface"),
                say(
                    "the typeface embedded in these files is Fira Sans, under the SIL Open Font"
                    " Licence, whatever the licence of the pattern."
                ),
            )
        ),
    ]
    return ("\n".join(lines) + "\n").encode()


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(words, LICENCE_WIDTH, break_long_words=False, break_on_hyphens=False)
