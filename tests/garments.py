"""Garments of a seaside theatre's wardrobe workroom, for tests. Millimetres."""

from drafting.findings import Finding
from drafting.piece import Piece
from drafting.spec import (
    Allowances,
    Cloth,
    Cloths,
    Figure,
    Lining,
    Ruffle,
    Skirt,
    Spec,
    Wearer,
)
from drafting.units import Units

# The body of the contract's example sheet.
CHORUS_TALL = Wearer(
    label="Chorus, tall",
    waist=740,
    hip=1010,
    hip_depth=205,
    waist_to_knee=580,
    floor_front=1040,
    floor_side=1055,
    floor_back=1030,
    height=1710,
    heel=40,
    step=700,
)

# The body of the trade's worked examples: waist 72, hip 96.
SOUBRETTE = Wearer(
    label="Soubrette",
    waist=720,
    hip=960,
    hip_depth=200,
    waist_to_knee=583,
    floor_front=1040,
    floor_side=1060,
    floor_back=1050,
    height=1680,
    step=700,
)

PAGE_BOY = Wearer(
    label="Child, eight years",
    figure=Figure.CHILD,
    waist=560,
    hip=660,
    hip_depth=140,
    waist_to_knee=420,
    floor_front=760,
    floor_side=770,
    floor_back=765,
    height=1280,
    step=480,
)


STRIPS_ALONE = """title = "Nell"
[wearer]
size = "P05"
[skirt]
cut = "gathered"
"""
"""A sheet whose pieces are all straight and listed: none is printed."""


def piece_named(pieces: tuple[Piece, ...], name: str) -> Piece:
    """Return the one piece of that name."""
    (found,) = (piece for piece in pieces if piece.name == name)
    return found


def garment(
    *,
    wearer: Wearer = SOUBRETTE,
    skirt: Skirt | None = None,
    lining: Lining | None = None,
    ruffle: Ruffle | None = None,
    cloths: Cloths | None = None,
    units: Units = Units.CM,
    findings: tuple[Finding, ...] = (),
) -> Spec:
    """Return a spec: a plain full circle for the soubrette unless told otherwise."""
    return Spec(
        title="Chorus skirt",
        units=units,
        wearer=wearer,
        skirt=skirt or Skirt(length=580, panels=2),
        lining=lining,
        ruffle=ruffle,
        cloths=cloths or Cloths(),
        findings=findings,
    )


def chorus_skirt() -> Spec:
    """Return the contract's example sheet: full circle, half-circle lining, stiff net ruffle."""
    return garment(
        wearer=CHORUS_TALL,
        skirt=Skirt(
            length=620,
            panels=2,
            waist_ease=15,
            waist_stretch=0.01,
            allowances=Allowances(waist=10, side=15, hem=12),
        ),
        lining=Lining(fullness=0.5, shorter=30),
        ruffle=Ruffle(depth=200, gather_ratio=2.6, above_hem=10),
        cloths=Cloths(
            skirt=Cloth(
                kind="cotton sateen",
                width=1400,
                selvage=10,
                shrink_length=0.04,
                shrink_width=0.02,
                price=12.5,
            )
        ),
    )
