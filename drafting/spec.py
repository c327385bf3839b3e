"""What a person asked for, checked and in millimetres. Imports nothing but findings and units.

A ``Spec`` is made by ``drafting.sheet`` from a spec sheet, or directly by a test. Every
default of the trade has been filled in, but for those that only the draft itself can know
(``None``): panels, the ruffle's depth, a paper's own margin.
"""

from dataclasses import dataclass
from enum import StrEnum

from drafting.findings import Finding
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


class WaistFinish(StrEnum):
    """What the waist seam is sewn to."""

    BAND = "band"
    FACING = "facing"
    CASING = "casing"


class HemFinish(StrEnum):
    """How the hem is turned."""

    NARROW = "narrow"
    TURNED = "turned"
    ROLLED = "rolled"


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
    """Width of cloth outside each stitching line; a hem of None is as deep as suits its curve."""

    waist: Mm = 10.0
    side: Mm = 15.0
    hem: Mm | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Skirt:
    """A skirt of the circle family.

    Attributes:
        fullness: number of circles it is cut from.
        length: finished, from the waist seam to the hem.
        hem_above_floor: height of a level hem over the floor; the length is then the body's.
        panels: how many panels, or None for as many as keep each at half a circle or less.
        waist_stretch: fraction by which the cut waist edge grows (s).
        gather_ratio: flat waist seam over the length it is drawn into (G).
        band: finished height of a straight band.
        facing: finished depth of a waist facing.
        elastic: width of the elastic in a casing.
    """

    fullness: float = 1.0
    length: Mm
    panels: int | None = None
    hem_above_floor: Mm | None = None
    waist_ease: Mm = 15.0
    waist_stretch: float = 0.01
    gather_ratio: float = 1.0
    grain: Grain = Grain.EDGE
    closure: Closure = Closure.CENTRE_BACK
    waist_finish: WaistFinish = WaistFinish.BAND
    band: Mm = 30.0
    facing: Mm = 50.0
    elastic: Mm = 25.0
    hem: HemFinish = HemFinish.NARROW
    allowances: Allowances = Allowances()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lining:
    """A lining with the skirt's finished waist; ``shorter`` than the skirt by that much."""

    fullness: float
    shorter: Mm = 30.0
    panels: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruffle:
    """A gathered ruffle on the lining.

    Attributes:
        depth: finished, or None for the default (20 cm, or a third of the lining if less).
        gather_ratio: flat length over the length of the line it is sewn to.
        above_hem: from the ruffle's lower edge down to the lining's hem.
        doubled: cut twice as deep and folded along its length, instead of hemmed.
    """

    cloth: RuffleCloth = RuffleCloth.STIFF_NET
    depth: Mm | None = None
    gather_ratio: float
    above_hem: Mm = 10.0
    doubled: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """A cloth as sold; shrinkages are fractions, ``price`` is per metre or per yard."""

    kind: str = ""
    width: Mm = 1400.0
    selvage: Mm = 10.0
    shrink_length: float = 0.0
    shrink_width: float = 0.0
    one_way: bool = False
    fold: bool = False
    price: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloths:
    """The cloth of each layer."""

    skirt: Cloth = Cloth()
    lining: Cloth = Cloth()
    ruffle: Cloth = Cloth()


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """How the pattern goes on paper; ``margin`` None is the paper's own."""

    papers: tuple[PaperName, ...] = (PaperName.A4,)
    margin: Mm | None = None
    overlap: Mm = 10.0
    strips: Strips = Strips.LISTED


@dataclass(frozen=True, slots=True, kw_only=True)
class Publish:
    """Who made the pattern and under which terms; all may be empty."""

    maker: str = ""
    page: str = ""
    licence: str = ""
    edition: str = ""
    date: str = ""
    language: str = "en"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """Everything one spec sheet asks for.

    Attributes:
        units: units in which results are shown.
        findings: what was noticed while the sheet was read (estimates, unusual measures).
    """

    title: str
    units: Units = Units.CM
    wearer: Wearer
    skirt: Skirt
    lining: Lining | None = None
    ruffle: Ruffle | None = None
    cloths: Cloths = Cloths()
    print: Print = Print()
    publish: Publish = Publish()
    findings: tuple[Finding, ...] = ()
