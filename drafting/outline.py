"""The four edges of a panel, as its cut gives them to be made into a piece.

Millimetres. Imports geometry.
"""

from dataclasses import dataclass

from drafting.geometry import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A panel's stitching line, counter-clockwise, right side up with its waist as given.

    Attributes:
        begin: its first edge, from the waist down to the hem.
        hem: from the first edge to the last.
        finish: its last edge, from the hem up to the waist.
        waist: from the last edge back to the first.
    """

    begin: Path
    hem: Path
    finish: Path
    waist: Path
