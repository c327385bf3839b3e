"""One figure worked out on paper: its formula, its numbers, what they come to.

Millimetres and degrees. Imports arithmetic, letters, language and units.
"""

from dataclasses import dataclass
from enum import StrEnum

from drafting.language import decimal, said_later, say
from drafting.units import MM_PER_INCH, Units, length_text
from drafting.working import arithmetic
from drafting.working.letters import Kind, base, kind_of, meaning

MM_PER_YARD = 914.4

MOST_DECIMALS = 9

KNOWN = 0.005
"""No number is written further from itself than by this share of it."""


class Law(StrEnum):
    """Where a formula comes from."""

    GEOMETRY = "geometry"
    HABIT = "habit"
    MODEL = "model"


_LAWS = {
    Law.GEOMETRY: said_later("geometry"),
    Law.HABIT: said_later("habit of the trade"),
    Law.MODEL: said_later("a model of ours, an estimate"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A letter of a formula and this draft's number for it."""

    letter: str
    value: float

    @property
    def kind(self) -> Kind:
        """What it counts."""
        return kind_of(self.letter)


@dataclass(frozen=True, slots=True, kw_only=True)
class Working:
    """How a figure comes about.

    Attributes:
        key: path of the figure in the JSON: ``skirt.waist_radius``, ``tiers.0.depth``.
        title: what it is; ``formula`` how it is found, both in words.
        expression: the formula in letters, for a machine; ``terms`` are its letters.
        letters: the same as it is written; ``numbers`` with this draft's numbers in it, and what
            they come to, lengths in the sheet's units.
        result: the figure, in mm, metres, degrees or as a number; ``text`` is how it is shown.
        gives: what the expression comes to: the figure; or, where the figure was found by
            trying (``solved``), what the equation must come to with it.
        step: it leads to the figure, or checks it, and its result is not the figure itself.
        law: where the formula comes from.
        note: what else a teacher would say, or "".
    """

    key: str
    title: str
    formula: str
    expression: str
    terms: tuple[Term, ...]
    letters: str
    numbers: str
    result: float
    kind: Kind
    text: str
    gives: float
    solved: bool = False
    step: bool = False
    law: Law
    note: str = ""

    @property
    def source(self) -> str:
        """Where the formula comes from, in the language spoken."""
        return say(_LAWS[self.law])


def letters_used(workings: "tuple[Working, ...]") -> tuple[tuple[str, str], ...]:
    """Return every letter of some workings and what it stands for, in the language spoken."""
    used = (base(term.letter) for working in workings for term in working.terms)
    return tuple((letter, meaning(letter)) for letter in dict.fromkeys(used))


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """What is told of a working besides its formula; see ``Working``.

    Attributes:
        gives: what the expression comes to, and what that counts, if it is not the result.
    """

    law: Law = Law.GEOMETRY
    kind: Kind = Kind.LENGTH
    gives: tuple[float, Kind] | None = None
    step: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slate:
    """Writes workings in the units of a sheet."""

    units: Units

    def worked(
        self,
        key: str,
        title: str,
        formula: str,
        expression: str,
        result: float,
        how: How | None = None,
        /,
        **numbers: float,
    ) -> Working:
        """Return a working; ``numbers`` has a number for every letter of the expression."""
        how = how or How()
        aim, aim_kind = how.gives or (result, how.kind)
        names = arithmetic.letters(expression)
        terms = tuple(Term(letter=name, value=float(numbers[name])) for name in names)
        put_in = self._put_in(expression, terms, aim, aim_kind)
        return Working(
            key=key,
            title=title,
            formula=formula,
            expression=expression,
            terms=terms,
            letters=arithmetic.set_out(expression, {name: name for name in names}),
            numbers=f"{put_in} = {self._with_unit(aim, aim_kind)}",
            result=result,
            kind=how.kind,
            text=self.shown(result, how.kind),
            gives=aim,
            solved=how.gives is not None,
            step=how.step,
            law=how.law,
            note=how.note,
        )

    def shown(self, value: float, kind: Kind) -> str:
        """Return a figure as it is shown everywhere: a length to 1 mm or to 1/8 in."""
        if kind is Kind.LENGTH:
            return length_text(value, self.units)
        return self._with_unit(value, kind)

    def _put_in(self, expression: str, terms: tuple[Term, ...], aim: float, kind: Kind) -> str:
        """Return the formula with numbers, no longer than they need be to come to its result."""
        told, places = self._size(kind), self._decimals(kind)
        wanted, near = aim / told, None
        for decimals in range(1, MOST_DECIMALS + 1):
            short = {
                term.letter: _rounded(term.value / self._size(term.kind), term.kind, decimals)
                for term in terms
            }
            try:
                comes_to = arithmetic.value(expression, {k: float(t) for k, t in short.items()})
            except (ValueError, ZeroDivisionError):
                continue  # rounded too far: a cosine above 1, a length of nothing
            if round(comes_to, places) == round(wanted, places):
                near = short
                break
            if near is None and abs(comes_to - wanted) < 0.2 * 10.0**-places:
                near = short  # will do where a curve is summed over a few places only
        short = near or short
        return arithmetic.set_out(
            expression, {name: decimal(t).replace("-", "−") for name, t in short.items()}
        )

    def _size(self, kind: Kind) -> float:
        """Return what one of the sheet's units is, in those of a term."""
        inches = self.units is Units.INCH
        unit = MM_PER_INCH if inches else 10.0
        return {
            Kind.LENGTH: unit,
            Kind.AREA: unit * unit,
            Kind.METRES: MM_PER_YARD / 1000 if inches else 1.0,
        }.get(kind, 1.0)

    def _decimals(self, kind: Kind) -> int:
        lengths = 3 if self.units is Units.INCH else 2
        return {Kind.LENGTH: lengths, Kind.NUMBER: 4, Kind.COUNT: 0}.get(kind, 2)

    def _with_unit(self, value: float, kind: Kind) -> str:
        number = decimal(f"{value / self._size(kind):.{self._decimals(kind)}f}")
        inches = self.units is Units.INCH
        if kind is Kind.LENGTH:
            return f"{number}\u00a0{_unit_name(self.units)}"
        if kind is Kind.METRES:
            return f"{number}\u00a0{'yd' if inches else 'm'}"
        return f"{number}°" if kind is Kind.ANGLE else number


def _unit_name(units: Units) -> str:
    return length_text(0.0, units).rpartition("\u00a0")[2]


def _rounded(value: float, kind: Kind, decimals: int) -> str:
    """Return a number to so many decimals, those that are nought left out."""
    if kind is Kind.COUNT:
        return f"{value:.0f}"
    # Ratios are no lengths: two more places make them as telling.
    places = decimals + (2 if kind is Kind.NUMBER else 1 if kind is Kind.ANGLE else 0)
    # What is small keeps enough of its digits to be known again: 0.05, not 0.1.
    while abs(round(value, places) - value) > KNOWN * abs(value) and places < MOST_DECIMALS:
        places += 1
    text = f"{value + 0.0:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
