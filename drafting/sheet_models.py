"""The spec sheet as pydantic sees it: its tables, its keys, and the faults among them.

Loaded by ``drafting.sheet`` when a sheet is read. Nothing of pydantic goes further: values
come out as lengths in mm, fractions, words of ``drafting.spec``, or None for a key that the
sheet leaves out.
"""

import math
from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, ValidationError

from drafting.errors import Fault, quoted
from drafting.half_scale import Scale
from drafting.language import Language
from drafting.printer import Measured
from drafting.sheet_texts import (
    TEXT_LENGTH,
    TITLE_LENGTH,
    read_date,
    read_edition,
    read_page,
    text_up_to,
)
from drafting.sheet_told import Context, did_you_mean, near, shown
from drafting.sheet_values import (
    count_within,
    length_within,
    number_or,
    number_within,
    numbers_within,
    read_fullness,
    read_measured,
)
from drafting.sheet_words import (
    choice_of,
    read_accept,
    read_papers,
    read_size,
    read_sizes,
    read_yes_no,
)
from drafting.spec import (
    BandShape,
    Closure,
    CutKind,
    Figure,
    Grain,
    HemFinish,
    LevelAt,
    PaperName,
    RuffleCloth,
    Scope,
    SeamFinish,
    Strips,
    WaistFinish,
)
from drafting.units import Units

BY_CLOTH = "by cloth"
"""The word for a waist that stretches as its cloth does."""

MOST_FAULTS = 100

# --- the sheet -----------------------------------------------------------------------------

# The limits of a body depend on who it is, so here any length that a tape can show will do.
_Measure = Annotated[float | None, length_within(0.0, math.inf, example="74 cm")]
_Words = Annotated[str | None, text_up_to(TEXT_LENGTH)]
_YesNo = Annotated[bool | None, BeforeValidator(read_yes_no)]
_Fullness = Annotated[float | None, BeforeValidator(read_fullness)]
_Panels = Annotated[int | None, count_within(1, 24)]
_Gores = Annotated[int | None, count_within(4, 12)]
_TierGrowth = Annotated[float | None, number_within(1, 1.6, example="1.25")]
_Shrinkage = Annotated[
    float | None, number_within(0, 0.25, note=", as a part of one: 0.04 is 4 %", example="0.04")
]


class _Table(BaseModel):
    """A table of the sheet; a key that is None was left out."""

    model_config: ClassVar[ConfigDict] = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True
    )


class WearerTable(_Table):
    label: Annotated[str | None, text_up_to(TITLE_LENGTH)] = None
    size: Annotated[str | None, BeforeValidator(read_size)] = None
    waist: _Measure = None
    hip: _Measure = None
    hip_depth: _Measure = None
    waist_to_knee: _Measure = None
    floor_front: _Measure = None
    floor_side: _Measure = None
    floor_left: _Measure = None
    floor_right: _Measure = None
    floor_back: _Measure = None
    figure: Annotated[Figure | None, choice_of(Figure)] = None
    accept: Annotated[tuple[str, ...] | None, BeforeValidator(read_accept)] = None
    height: _Measure = None
    heel: Annotated[float | None, length_within(0.0, math.inf, example="4 cm")] = None
    step: _Measure = None


class AllowancesTable(_Table):
    waist: Annotated[float | None, length_within(3, 40)] = None
    side: Annotated[float | None, length_within(3, 50)] = None
    hem: Annotated[float | None, length_within(0, 100)] = None
    spare: Annotated[float | None, length_within(0, 100)] = None


class GodetsTable(_Table):
    depth: Annotated[float | None, length_within(40, 1000, example="20 cm")] = None
    angle: Annotated[float | None, number_within(20, 120, note=" degrees", example="60")] = None


class FlounceTable(_Table):
    depth: Annotated[float | None, length_within(40, 500, example="15 cm")] = None
    ratio: Annotated[float | None, number_within(1.2, 4, example="2")] = None


class OwnedTable(_Table):
    waist: Annotated[float | None, length_within(300, 2200, example="75 cm")] = None
    length: Annotated[float | None, length_within(100, 1600, example="62 cm")] = None
    sweep: Annotated[float | None, length_within(500, 30000, example="4.6 m")] = None


class SkirtTable(_Table):
    cut: Annotated[CutKind | None, choice_of(CutKind)] = None
    fullness: _Fullness = None
    length: Annotated[
        float | None, length_within(100, 1600, usual=(300, 1200), example="62 cm")
    ] = None
    hem_above_floor: Annotated[
        float | None, length_within(0, 1300, usual=(10, 900), example="45 cm")
    ] = None
    panels: _Panels = None
    gores: _Gores = None
    shaped: _YesNo = None
    waist_ease: Annotated[float | None, length_within(0, 100)] = None
    waist_stretch: Annotated[
        float | str | None,
        number_or(BY_CLOTH, 0, 0.1, note=", as a part of one: 0.01 is 1 %", example="0.01"),
    ] = None
    gather_ratio: Annotated[float | None, number_within(1, 4)] = None
    full_widths: _YesNo = None
    drop: Annotated[float | None, length_within(0, 250)] = None
    drop_ease: Annotated[float | None, length_within(0, 100)] = None
    level: Annotated[LevelAt | None, choice_of(LevelAt)] = None
    grain: Annotated[Grain | None, choice_of(Grain)] = None
    closure: Annotated[Closure | None, choice_of(Closure)] = None
    waist_finish: Annotated[WaistFinish | None, choice_of(WaistFinish)] = None
    bodice_waist: Annotated[float | None, length_within(300, 2200, example="75 cm")] = None
    band: Annotated[float | None, length_within(10, 150)] = None
    band_shape: Annotated[BandShape | None, choice_of(BandShape)] = None
    facing: Annotated[float | None, length_within(30, 100)] = None
    elastic: Annotated[float | None, length_within(6, 100)] = None
    hem: Annotated[HemFinish | None, choice_of(HemFinish)] = None
    hem_facing: Annotated[float | None, length_within(40, 100)] = None
    braid: Annotated[float | None, length_within(12, 150)] = None
    seams: Annotated[SeamFinish | None, choice_of(SeamFinish)] = None
    interfacing: _YesNo = None
    pockets: _YesNo = None
    tiers: Annotated[int | None, count_within(2, 6)] = None
    tier_ratios: Annotated[
        tuple[float, ...] | None, numbers_within(1, 4, least=2, most=6, example="[2, 1.6, 1.6]")
    ] = None
    tier_growth: _TierGrowth = None
    yoke: Annotated[float | None, length_within(60, 500, example="20 cm")] = None
    trim_bias: _YesNo = None
    allowances: AllowancesTable = AllowancesTable()
    godets: GodetsTable = GodetsTable()
    flounce: FlounceTable = FlounceTable()
    owned: OwnedTable = OwnedTable()


class LiningTable(_Table):
    cut: Annotated[CutKind | None, choice_of(CutKind, only=(CutKind.CIRCLE, CutKind.GORED))] = None
    fullness: _Fullness = None
    shorter: Annotated[float | None, length_within(0, 300)] = None
    panels: _Panels = None
    gores: _Gores = None
    shaped: _YesNo = None
    vent: Annotated[float | None, length_within(0, 700)] = None


class RuffleTable(_Table):
    cloth: Annotated[RuffleCloth | None, choice_of(RuffleCloth, example="stiff net")] = None
    depth: Annotated[float | None, length_within(20, 900)] = None
    gather_ratio: Annotated[float | None, number_within(1, 6)] = None
    above_hem: Annotated[float | None, length_within(0, 100)] = None
    tiers: Annotated[int | None, count_within(1, 5)] = None
    tier_ratio: Annotated[float | None, number_within(1.1, 3, example="1.6")] = None
    tier_growth: _TierGrowth = None
    doubled: _YesNo = None


class ClothTable(_Table):
    kind: Annotated[str | None, text_up_to(TITLE_LENGTH)] = None
    width: Annotated[float | None, length_within(100, 6000)] = None
    selvage: Annotated[float | None, length_within(0, 100)] = None
    shrink_length: _Shrinkage = None
    shrink_width: _Shrinkage = None
    one_way: _YesNo = None
    fold: _YesNo = None
    price: Annotated[float | None, number_within(0, 100000, example="12.50")] = None
    grams: Annotated[
        float | None, number_within(5, 1500, note=" grams for a square metre", example="140")
    ] = None
    repeat: Annotated[float | None, length_within(0, 2000, example="32 cm")] = None
    squared: _YesNo = None
    have: Annotated[float | None, length_within(0, 100000, example="3 m")] = None
    piecing: _YesNo = None


class ClothsTable(_Table):
    skirt: ClothTable = ClothTable()
    lining: ClothTable = ClothTable()
    ruffle: ClothTable = ClothTable()
    interfacing: ClothTable = ClothTable()
    binding: ClothTable = ClothTable()


class PrintTable(_Table):
    paper: Annotated[tuple[PaperName, ...] | None, BeforeValidator(read_papers)] = None
    margin: Annotated[float | None, length_within(3, 60)] = None
    overlap: Annotated[float | None, length_within(0, 60)] = None
    widest: Annotated[float | None, length_within(400, 20000, example="1.8 m")] = None
    scope: Annotated[Scope | None, choice_of(Scope)] = None
    measured: Annotated[tuple[Measured, ...] | None, BeforeValidator(read_measured)] = None
    strips: Annotated[Strips | None, choice_of(Strips)] = None


class PublishTable(_Table):
    maker: _Words = None
    page: Annotated[str | None, BeforeValidator(read_page)] = None
    licence: _Words = None
    edition: Annotated[str | None, BeforeValidator(read_edition)] = None
    date: Annotated[str | None, BeforeValidator(read_date)] = None
    language: Annotated[Language | None, choice_of(Language, example="de")] = None
    working: _YesNo = None
    sizes: Annotated[tuple[str, ...] | None, BeforeValidator(read_sizes)] = None


class SheetTable(_Table):
    title: Annotated[str | None, text_up_to(TITLE_LENGTH, empty="refused")] = None
    units: Annotated[Units | None, choice_of(Units)] = None
    scale: Annotated[Scale | None, choice_of(Scale, example="half")] = None
    size_table: str | None = None  # read before all else, in own_sizes
    wearer: WearerTable = WearerTable()
    skirt: SkirtTable = SkirtTable()
    lining: LiningTable = LiningTable()
    ruffle: RuffleTable = RuffleTable()
    cloth: ClothsTable = ClothsTable()
    print: PrintTable = PrintTable()
    publish: PublishTable = PublishTable()


# --- reading -------------------------------------------------------------------------------

Path = tuple[str, ...]


@cache
def known_keys() -> dict[Path, tuple[str, ...]]:
    """Return the keys of each table of a sheet, the tables within it left out."""
    found: dict[Path, tuple[str, ...]] = {}

    def walk(table: type[BaseModel], path: Path) -> None:
        inner = {
            name: field.annotation
            for name, field in table.model_fields.items()
            if isinstance(field.annotation, type) and issubclass(field.annotation, BaseModel)
        }
        found[path] = tuple(name for name in table.model_fields if name not in inner)
        for name, model in inner.items():
            assert model is not None
            walk(model, (*path, name))

    walk(SheetTable, ())
    return found


def read(
    data: Mapping[str, Any], context: Context
) -> tuple[SheetTable, tuple[tuple[Path, Fault], ...], frozenset[Path]]:
    """Return what could be read, the faults by path, and the paths that were left unread.

    Faulty keys are taken out and the rest is read without them, so that the measures beside
    a faulty key can still be checked.
    """
    try:
        return SheetTable.model_validate(data, context=context), (), frozenset()
    except ValidationError as error:
        details = error.errors(include_url=False, include_input=True)
    faults: list[tuple[Path, Fault]] = []
    paths: set[Path] = set()
    for detail in details:
        path = tuple(str(part) for part in detail["loc"])
        paths.add(path)
        if detail["type"] != "unread" and len(faults) < MOST_FAULTS:
            faults.append((path, _fault(path, detail["type"], detail["input"], detail.get("ctx"))))
    table = SheetTable.model_validate(_without(data, paths), context=context)
    return table, tuple(faults), frozenset(paths)


def _without(data: Mapping[str, Any], paths: set[Path]) -> dict[str, Any]:
    """Return ``data`` without those keys, however deep the rest goes."""
    heads = {path[0] for path in paths}
    kept: dict[str, Any] = {}
    for name, value in data.items():
        if (name,) in paths:
            continue
        inner = {path[1:] for path in paths if path[0] == name} if name in heads else None
        kept[name] = _without(value, inner) if inner else value
    return kept


def _fault(path: Path, kind: str, value: object, details: Mapping[str, Any] | None) -> Fault:
    dotted = ".".join(path)
    if kind == "refused" and details is not None:
        return Fault(
            what=details["what"],
            allowed=details["allowed"],
            key=dotted,
            given=details["given"],
            nearest=details["nearest"],
        )
    if kind == "extra_forbidden":
        return unknown(path, value)
    if path in known_keys():
        return _not_a_table(path, value)
    return Fault(what=f"{dotted} cannot be {shown(value)}.", key=dotted, given=shown(value))


def _not_a_table(path: Path, value: object) -> Fault:
    dotted = ".".join(path)
    if isinstance(value, list) and value and all(isinstance(one, dict) for one in value):
        what = f"[[{dotted}]] has double brackets."
    else:
        what = f"{path[-1]} is {shown(value)}, but it is the name of a table."
    return Fault(
        what=what,
        allowed=f"Write {path[-1]} = {{ {_ON_ONE_LINE[path]} }}."
        if path in _ON_ONE_LINE
        else f"Write [{dotted}] on a line of its own, once, and its keys under it.",
        key=dotted,
        given=shown(value),
    )


# Tables that are short enough to stand on a line among the keys of their skirt.
_ON_ONE_LINE: dict[Path, str] = {
    ("skirt", "godets"): 'depth = "20 cm", angle = 60',
    ("skirt", "flounce"): 'depth = "15 cm", ratio = 2',
    ("skirt", "owned"): 'waist = "75 cm", length = "62 cm", sweep = "4.6 m"',
}

# Words that people look for in a table which says it another way.
_SAID_OTHERWISE: dict[Path, str] = {
    ("lining", "length"): 'Say how much shorter it is than the skirt: shorter = "3 cm".',
    ("lining", "waist_ease"): "The lining takes the ease of the skirt.",
    ("ruffle", "length"): 'Its finished depth is depth = "20 cm".',
    ("ruffle", "fullness"): "Its fullness is gather_ratio, such as 2.6.",
    ("skirt", "hem_allowance"): 'Write hem = "1.2 cm" under [skirt.allowances].',
    ("skirt", "seam_allowance"): 'Write side = "1.5 cm" under [skirt.allowances].',
}


def unknown(path: Path, value: object) -> Fault:
    """Return the fault for a key or a table that a sheet does not have."""
    table, name = path[:-1], path[-1]
    dotted = ".".join(path)
    tables = known_keys()
    where = f"of [{'.'.join(table)}]" if table else "at the top of a sheet"
    if isinstance(value, dict) or (
        isinstance(value, list) and value and all(isinstance(one, dict) for one in value)
    ):
        return _unknown_table(path, value)
    fault = Fault(what=f"{quoted(name)} is not a key {where}.", key=dotted, given=shown(value))
    if said := _SAID_OTHERWISE.get(path):
        return _fix(fault, said, "")
    homes = [home for home, keys in tables.items() if name in keys and home != table]
    if homes:
        return _fix(fault, _belongs(homes), ".".join((*homes[0], name)))
    nearest = near(name, tables.get(table, ()))
    if nearest:
        return _fix(fault, did_you_mean(nearest), nearest)
    for home, keys in tables.items():
        if elsewhere := near(name, keys):
            there = f"under [{'.'.join(home)}]" if home else "at the top of the sheet"
            return _fix(
                fault, f'Did you mean "{elsewhere}", {there}?', ".".join((*home, elsewhere))
            )
    keys = tables.get(table, ())
    known = f"Its keys are {', '.join(keys)}." if table and keys else (
        f"At the top stand {', '.join(keys)}; the rest goes under a [table]."
    )  # fmt: skip
    return _fix(fault, known, "")


def _fix(fault: Fault, allowed: str, nearest: str) -> Fault:
    return Fault(
        what=fault.what, allowed=allowed, key=fault.key, given=fault.given, nearest=nearest
    )


def _belongs(homes: list[Path]) -> str:
    if () in homes:
        return "It belongs at the top of the sheet, above the first [table]."
    named = [f"[{'.'.join(home)}]" for home in homes]
    return f"It belongs under {' or '.join(named)}."


def _unknown_table(path: Path, value: object) -> Fault:
    dotted = ".".join(path)
    names = tuple(".".join(table) for table in known_keys() if table)
    ends = {name.rsplit(".", 1)[-1]: name for name in reversed(names)}
    parent = ".".join(path[:-1])
    nearest = near(dotted, tuple(name for name in names if name != parent)) or ends.get(
        near(path[-1], tuple(ends)), ""
    )
    shown_name = quoted(dotted)[1:-1]
    return Fault(
        what=f"[{shown_name}] is not a table of a sheet.",
        allowed=f"Did you mean [{nearest}]?" if nearest
        else f"The tables are {', '.join(f'[{name}]' for name in names)}.",
        key=dotted,
        given=shown(value),
        nearest=nearest,
    )  # fmt: skip
