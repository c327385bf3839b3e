"""What is known of kinds of cloth: classroom estimates, each said to be one where it is shown.

Millimetres and grams per square metre. Imports nothing of the project.
"""

import re
import unicodedata
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class Behaviour:
    """How a kind of cloth behaves at a waist and at a hem, and what it weighs.

    Attributes:
        hem_ease: fraction of a hem's turned edge that can be eased away (q).
        bias_drop: how far a reference skirt's hem drops on the bias, in mm (b); 0 where the
            law of woven cloth does not hold.
        hang_hours: how long to hang it before the hem is marked.
        waist_give: fraction by which an edge stretches on the bias (beta); 0 where the law
            of woven cloth does not hold.
        woven: whether it has a warp and a weft, so that it gives on the diagonal. Knit, net
            and tulle have none: what they give and drop is not estimated here.
        grams: what a square metre weighs.
    """

    hem_ease: float
    bias_drop: float
    hang_hours: int
    waist_give: float
    woven: bool = True
    grams: float = 150.0


ORDINARY = Behaviour(hem_ease=0.03, bias_drop=7, hang_hours=24, waist_give=0.025)

_SHEER = Behaviour(hem_ease=0.03, bias_drop=40, hang_hours=72, waist_give=0.065)
_LIQUID = Behaviour(hem_ease=0.03, bias_drop=28, hang_hours=72, waist_give=0.065)
_WOOL = Behaviour(hem_ease=0.06, bias_drop=15, hang_hours=48, waist_give=0.04)
_CRISP = Behaviour(hem_ease=0.015, bias_drop=3, hang_hours=24, waist_give=0.015)
# Lawn is as firm at the waist as poplin, but drops and hems as ordinary cotton does.
_LAWN = replace(ORDINARY, waist_give=0.015)
_UNWOVEN = Behaviour(hem_ease=0.03, bias_drop=0, hang_hours=24, waist_give=0, woven=False)

# Words that must all stand in a sheet's `kind`, most telling first: a wool jersey is a knit,
# "silk crepe" hangs as silk crepe, and flannel is wool unless it is said to be cotton.
_KINDS: tuple[tuple[str, Behaviour], ...] = (
    ("knit", _UNWOVEN),
    ("knitted", _UNWOVEN),
    ("jersey", _UNWOVEN),
    ("net", _UNWOVEN),
    ("tulle", _UNWOVEN),
    ("chiffon", _SHEER),
    ("georgette", _SHEER),
    ("viscose", _LIQUID),
    ("rayon", _LIQUID),
    ("satin crepe", _LIQUID),
    ("silk crepe", _LIQUID),
    ("wool", _WOOL),
    ("cotton flannel", ORDINARY),
    ("flannel", _WOOL),
    ("crepe", _WOOL),
    ("organdy", _CRISP),
    ("organza", _CRISP),
    ("taffeta", _CRISP),
    ("poplin", _CRISP),
    ("lawn", _LAWN),
)

_GRAMS: tuple[tuple[str, float], ...] = (
    ("net", 33.0),
    ("tulle", 33.0),
    ("lining", 75.0),
    ("chiffon", 60.0),
    ("georgette", 60.0),
    ("organza", 38.0),
    ("organdy", 70.0),
    ("taffeta", 120.0),
    ("lawn", 80.0),
    ("poplin", 120.0),
    ("sateen", 140.0),
    ("denim", 260.0),
    ("wool", 250.0),
    ("cotton flannel", ORDINARY.grams),
    ("flannel", 250.0),
    ("crepe", 150.0),
    ("viscose", 120.0),
    ("rayon", 120.0),
)


def behaviour(kind: str) -> Behaviour:
    """Return how a cloth of that kind behaves; an unknown kind is taken for ordinary cotton."""
    words = _words(kind)
    found = next((found for names, found in _KINDS if words.issuperset(names.split())), ORDINARY)
    grams = next((g for names, g in _GRAMS if words.issuperset(names.split())), ORDINARY.grams)
    return replace(found, grams=grams)


_SHADING = frozenset({
    "satin", "sateen", "taffeta", "velvet", "velveteen", "velour", "corduroy", "fleece", "moire",
    "charmeuse", "dupion",
})  # fmt: skip


def may_shade(kind: str) -> bool:
    """Tell whether a kind of cloth may look lighter one way up than the other."""
    return not _SHADING.isdisjoint(_words(kind))


# A weaver spells some cloths in more ways than one.
_SPELT = {"organdie": "organdy", "woollen": "wool", "woolen": "wool"}


def _words(kind: str) -> frozenset[str]:
    """Return the words of a kind without their accents: a crêpe is a crepe."""
    plain = unicodedata.normalize("NFKD", kind.lower())
    bare = "".join(c for c in plain if not unicodedata.combining(c))
    return frozenset(_SPELT.get(word, word) for word in re.findall(r"[a-z]+", bare))
