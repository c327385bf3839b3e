"""What a person asked for, checked and in millimetres. Imports findings, printer and units.

A ``Spec`` is made by ``drafting.sheet`` from a spec sheet, or directly by a test. Every
default of the trade has been filled in, but for those that only the draft itself can know
(``None``): panels, the ruffle's depth, a paper's own margin.
"""

from dataclasses import dataclass
from enum import StrEnum

from drafting.findings import Finding
from drafting.language import Language
from drafting.printer import Measured
from drafting.units import Mm, Units


class Figure(StrEnum):
    """Which limits a body is checked against."""

    ADULT = "adult"
    CHILD = "child"


class Closure(StrEnum):
    """Where the skirt opens; a seam lies there."""

    CENTRE_BACK = "centre back"
    LEFT_SIDE = "left side"
    NONE = "none"


class CutKind(StrEnum):
    """How a layer is cut: sectors of a circle, gores, gathered lengths, or tiers on a yoke."""

    CIRCLE = "circle"
    GORED = "gored"
    GATHERED = "gathered"
    TIERED = "tiered"


class LevelAt(StrEnum):
    """Where a figure's unevenness is taken up."""

    HEM = "hem"
    WAIST = "waist"


class WaistFinish(StrEnum):
    """What the waist seam is sewn to; a bodice brings its own seam."""

    BAND = "band"
    FACING = "facing"
    CASING = "casing"
    BIAS = "bias"
    BODICE = "bodice"


class BandShape(StrEnum):
    """A strip folded along its upper edge, or a curve that follows the body below the waist."""

    STRAIGHT = "straight"
    CONTOUR = "contour"


class HemFinish(StrEnum):
    """How the hem is finished."""

    NARROW = "narrow"
    TURNED = "turned"
    ROLLED = "rolled"
    FACED = "faced"
    BIAS_FACED = "bias-faced"
    BRAID = "braid"
    BOUND = "bound"


class SeamFinish(StrEnum):
    """How the seams between panels are sewn; it chooses their allowance."""

    OPEN = "pressed open"
    FRENCH = "french"
    BOUND = "bound"
    OVERLOCKED = "overlocked"


class Grain(StrEnum):
    """What lies on the lengthwise grain: a straight edge, or the panel's middle."""

    EDGE = "edge"
    CENTRE = "centre"


class RuffleCloth(StrEnum):
    """Cloths that ruffles are made of."""

    SOFT_TULLE = "soft tulle"
    STIFF_NET = "stiff net"
    SILK_ORGANZA = "silk organza"
    POLYESTER_ORGANZA = "polyester organza"
    COTTON_ORGANDY = "cotton organdy"
    CRINOLINE_CANVAS = "crinoline canvas"


class PaperName(StrEnum):
    """Papers that a sheet may ask for. Their sizes are kept by ``render``."""

    A4 = "a4"
    LETTER = "letter"
    A3 = "a3"
    TABLOID = "tabloid"
    LEGAL = "legal"
    A4_LETTER = "a4-letter"
    A0 = "a0"
    A1 = "a1"
    ROLL_841 = "roll-841"
    ROLL_914 = "roll-914"
    ROLL_36IN = "roll-36in"
    PROJECTOR = "projector"


class Scope(StrEnum):
    """How much of a pattern is printed: whole pieces, their waists, or one page of figures."""

    WHOLE = "whole"
    WAIST = "waist"
    CARD = "card"


class Strips(StrEnum):
    """Whether bands and ruffle strips are listed as measures or drawn on the pages."""

    LISTED = "listed"
    DRAWN = "drawn"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """A body. Floor lengths are barefoot; ``heel`` is the shoe's.

    Attributes:
        label: who it is for, a role or a name; may be empty.
        size: name in the size table, or empty.
        floor_left, floor_right: where the sides differ; ``floor_side`` is their mean then.
    """

    label: str = ""
    size: str = ""
    figure: Figure = Figure.ADULT
    waist: Mm
    hip: Mm
    hip_depth: Mm
    waist_to_knee: Mm
    floor_front: Mm
    floor_side: Mm
    floor_back: Mm
    floor_left: Mm | None = None
    floor_right: Mm | None = None
    height: Mm
    heel: Mm = 0.0
    step: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """Width of cloth outside each stitching line.

    Attributes:
        waist, side: or what the waist's finish and the seams' finish ask for (``None``).
        hem: or as deep as the finish asks and the curve takes (``None``).
        spare: more cloth below the hem's allowance, to level the hem once it has hung; or the
            estimated drop on the bias if ``hem`` is left open too, else none (``None``).
    """

    waist: Mm | None = None
    side: Mm | None = None
    hem: Mm | None = None
    spare: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Godets:
    """A godet in every seam of a gored skirt, up from the hem; its angle is in radians."""

    depth: Mm
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Flounce:
    """A circular flounce at the hem; it makes up the last ``depth`` of the skirt's length.

    Attributes:
        ratio: its outer edge over the edge that is sewn.
    """

    depth: Mm
    ratio: float = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiers:
    """Gathered tiers of a skirt that hangs from a yoke.

    Attributes:
        ratios: flat length of each tier over the edge it is sewn to, from the top; its number
            is the number of tiers.
        growth: depth of a tier over the depth of the one above it.
        yoke: depth of the smooth yoke that carries the first, or None for down to the hip.
    """

    ratios: tuple[float, ...] = (2.0, 1.6, 1.6)
    growth: float = 1.25
    yoke: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """A skirt that is already sewn: only the lining and the ruffle to go into it are drafted.

    Attributes:
        waist: its finished waist seam, closed.
        length: from its waist seam to its hem.
        sweep: its hem all the way round.
    """

    waist: Mm
    length: Mm
    sweep: Mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Skirt:
    """The outer layer.

    Attributes:
        cut: which of the keys below count hangs on it.
        fullness: number of circles it is cut from; of gores, that their flare comes to.
        length: finished, from the waist to the hem at the side; from the waist seam, unless
            ``drop`` sets that lower.
        hem_above_floor: height of a level hem over the floor; the length is then the body's.
        level: whether hem or waistline follows a body that is not level.
        panels: how many panels, or None for as many as keep each at half a circle or less.
        gores: how many gores; ``shaped`` ones are curved over the hip.
        waist_stretch: fraction by which the cut waist edge grows (s); None for what its cloth
            and its grain give.
        gather_ratio: flat waist seam over the length it is drawn into (G).
        full_widths: gathered lengths use the cloth's whole width, whatever that gathers to.
        drop: how far the waist seam lies below the natural waist.
        drop_ease: ease at a dropped waist seam, in place of ``waist_ease``.
        bodice_waist: waist seam of the bodice that the skirt is sewn to, closed.
        band: finished height of a band.
        facing: finished depth of a waist facing.
        elastic: width of the elastic in a casing.
        hem_facing: finished depth of a shaped hem facing.
        braid: width of a horsehair braid.
        interfacing: whether band, facing and opening are interfaced.
        pockets: whether pockets are set into the side seams.
        trim_bias: take half of the estimated drop on the bias off the printed hem.
    """

    cut: CutKind = CutKind.CIRCLE
    fullness: float = 1.0
    length: Mm
    panels: int | None = None
    gores: int = 8
    shaped: bool = False
    godets: Godets | None = None
    hem_above_floor: Mm | None = None
    level: LevelAt = LevelAt.HEM
    waist_ease: Mm = 15.0
    waist_stretch: float | None = 0.01
    gather_ratio: float = 1.0
    full_widths: bool = False
    drop: Mm = 0.0
    drop_ease: Mm = 30.0
    grain: Grain = Grain.EDGE
    closure: Closure = Closure.CENTRE_BACK
    waist_finish: WaistFinish = WaistFinish.BAND
    bodice_waist: Mm | None = None
    band: Mm = 30.0
    band_shape: BandShape = BandShape.STRAIGHT
    facing: Mm = 50.0
    elastic: Mm = 25.0
    hem: HemFinish = HemFinish.NARROW
    hem_facing: Mm = 50.0
    braid: Mm = 50.0
    seams: SeamFinish = SeamFinish.OPEN
    interfacing: bool = True
    pockets: bool = False
    flounce: Flounce | None = None
    tiers: Tiers = Tiers()
    trim_bias: bool = False
    allowances: Allowances = Allowances()
    owned: Owned | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lining:
    """A lining with the skirt's finished waist; ``shorter`` than the skirt by that much.

    Attributes:
        cut: circle or gored.
        fullness: in circles; of shaped gores, what their flare below the hip comes to.
        vent: how long its closure seam is left open up from the hem; None for as a step needs.
    """

    cut: CutKind = CutKind.CIRCLE
    fullness: float
    shorter: Mm = 30.0
    panels: int | None = None
    gores: int = 6
    shaped: bool = False
    vent: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruffle:
    """A gathered ruffle on the lining.

    Attributes:
        depth: finished, or None for the default (20 cm, or a third of the lining if less).
        gather_ratio: flat length over the length of the line it is sewn to.
        above_hem: from the ruffle's lower edge down to the lining's hem.
        doubled: cut twice as deep and folded along its length, instead of hemmed.
        tiers: how many tiers make up its depth; each below the first is gathered
            ``tier_ratio`` to 1 onto the one above, and ``tier_growth`` times as deep.
    """

    cloth: RuffleCloth = RuffleCloth.STIFF_NET
    depth: Mm | None = None
    gather_ratio: float
    above_hem: Mm = 10.0
    doubled: bool = False
    tiers: int = 1
    tier_ratio: float = 1.6
    tier_growth: float = 1.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """A cloth as sold.

    Attributes:
        shrink_length, shrink_width: fractions lost in the first wash.
        one_way: with a nap or a print that goes one way: all pieces lie the same way round.
        fold: cut on a folded lay.
        price: per metre or per yard.
        grams: what a square metre weighs, or None for what its kind usually does.
        repeat: length of its pattern's repeat, 0 for a plain cloth.
        squared: its ends are straight already, and nothing is bought for squaring them.
        have: how much of it there is already, or None for cloth that is to be bought.
        piecing: a small corner may be pieced on where the cloth is just too narrow.
    """

    kind: str = ""
    width: Mm = 1400.0
    selvage: Mm = 10.0
    shrink_length: float = 0.0
    shrink_width: float = 0.0
    one_way: bool = False
    fold: bool = False
    price: float | None = None
    grams: float | None = None
    repeat: Mm = 0.0
    squared: bool = False
    have: Mm | None = None
    piecing: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloths:
    """The cloth of each layer."""

    skirt: Cloth = Cloth()
    lining: Cloth = Cloth()
    ruffle: Cloth = Cloth()
    interfacing: Cloth = Cloth(width=900.0)
    binding: Cloth = Cloth()


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """How the pattern goes on paper.

    Attributes:
        margin: blank at each edge of a page; None is the paper's own.
        widest: width of the floor or table that pages are laid out on.
        measured: what printed lengths measured: none, one for both ways, or across and up.
    """

    papers: tuple[PaperName, ...] = (PaperName.A4,)
    margin: Mm | None = None
    overlap: Mm = 10.0
    widest: Mm = 2500.0
    scope: Scope = Scope.WHOLE
    strips: Strips = Strips.LISTED
    measured: tuple[Measured, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Publish:
    """Who made the pattern and under which terms; all may be empty.

    Attributes:
        language: two letters; what is on paper, in pictures and in findings is said in it.
        working: the booklet shows how each figure came about.
        sizes: names of the sizes that the pattern is graded in, smallest first; one pattern
            for the sheet's wearer if there are none.
    """

    maker: str = ""
    page: str = ""
    licence: str = ""
    edition: str = ""
    date: str = ""
    language: Language = Language.ENGLISH
    working: bool = False
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """Everything one spec sheet asks for.

    Attributes:
        units: units in which results are shown.
        scale: 1, or 0.5 for a half-scale form; the lengths of body and design are those of
            the draft, halved already.
        findings: what was noticed while the sheet was read (estimates, unusual measures).
        graded: the same garment for each of the sizes that it is graded in, smallest first; the
            measures of this spec are then those of the middle one.
    """

    title: str
    units: Units = Units.CM
    scale: float = 1.0
    wearer: Wearer
    skirt: Skirt
    lining: Lining | None = None
    ruffle: Ruffle | None = None
    cloths: Cloths = Cloths()
    print: Print = Print()
    publish: Publish = Publish()
    findings: tuple[Finding, ...] = ()
    graded: tuple["Spec", ...] = ()
