"""What is known of kinds of cloth: classroom estimates, each said to be one where it is shown.

Imports nothing of the project.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Behaviour:
    """How a kind of cloth behaves at a hem.

    Attributes:
        hem_ease: fraction of a hem's turned edge that can be eased away (q).
        bias_drop: how far a reference skirt's hem drops on the bias, in mm (b).
        hang_hours: how long to hang it before the hem is marked.
    """

    hem_ease: float
    bias_drop: float
    hang_hours: int


ORDINARY = Behaviour(hem_ease=0.03, bias_drop=7, hang_hours=24)

# Words that a sheet's `kind` may hold, most telling first: "silk crepe" hangs as silk crepe.
_KINDS: tuple[tuple[tuple[str, ...], Behaviour], ...] = (
    (("chiffon", "georgette"), Behaviour(hem_ease=0.03, bias_drop=40, hang_hours=72)),
    (
        ("viscose", "rayon", "satin-backed", "silk crepe"),
        Behaviour(hem_ease=0.03, bias_drop=28, hang_hours=72),
    ),
    (("wool", "crepe", "flannel"), Behaviour(hem_ease=0.06, bias_drop=15, hang_hours=48)),
    (
        ("organdy", "organza", "taffeta", "poplin"),
        Behaviour(hem_ease=0.015, bias_drop=3, hang_hours=24),
    ),
)


def behaviour(kind: str) -> Behaviour:
    """Return how a cloth of that kind behaves; an unknown kind is taken for ordinary cotton."""
    words = kind.lower()
    for names, found in _KINDS:
        if any(name in words for name in names):
            return found
    return ORDINARY
