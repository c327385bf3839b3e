"""Makes a ``Spec`` of a faultless sheet: every default of the trade that hangs on another key.

Lengths in millimetres. Reads the tables of ``sheet_models`` but loads no pydantic itself.
"""

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from drafting.findings import Finding
from drafting.measurements import (
    NAMES,
    SHOE_SHARE,
    Given,
    estimate_findings,
    measure_findings,
    whole_body,
)
from drafting.sizes import Size
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    Figure,
    Grain,
    HemFinish,
    Lining,
    PaperName,
    Print,
    Publish,
    Ruffle,
    RuffleCloth,
    Skirt,
    Spec,
    Strips,
    WaistFinish,
    Wearer,
)
from drafting.units import MM_PER_INCH, Mm, Units

if TYPE_CHECKING:
    from drafting.sheet_models import (
        ClothTable,
        LiningTable,
        PrintTable,
        PublishTable,
        RuffleTable,
        SheetTable,
        SkirtTable,
        WearerTable,
    )

UNTITLED = "Skirt"


def made_spec(
    sheet: "SheetTable", known: Mapping[str, Given], size: Size | None, units: Units, title: str
) -> Spec:
    """Return the spec that a faultless sheet asks for.

    Args:
        known: the measures that the sheet writes, and those of the size it names.
        title: the title of a sheet that gives none.
    """
    wearer = _wearer(sheet.wearer, size)
    skirt = _skirt(sheet.skirt, wearer)
    given = sheet.model_fields_set
    ruffle = _ruffle(sheet.ruffle) if "ruffle" in given else None
    return Spec(
        title=sheet.title or _title_from(title),
        units=units,
        wearer=wearer,
        skirt=skirt,
        lining=_lining(sheet.lining, skirt) if "lining" in given else None,
        ruffle=ruffle,
        cloths=Cloths(
            skirt=_cloth(sheet.cloth.skirt, units),
            lining=_cloth(sheet.cloth.lining, units),
            ruffle=_cloth(sheet.cloth.ruffle, units, kind=ruffle.cloth.value if ruffle else ""),
        ),
        print=_print(sheet.print),
        publish=_publish(sheet.publish),
        findings=_findings(sheet.wearer, known, size, units),
    )


def _title_from(text: str) -> str:
    """Return a title made from a file's name, which may hold anything."""
    from drafting.sheet_values import TITLE_LENGTH, clean, forbidden, seen

    title = clean("".join(c for c in text if not forbidden(c)))[:TITLE_LENGTH].strip()
    return title if seen(title) else UNTITLED


def _written(table: "WearerTable") -> dict[str, Mm]:
    return {key: value for key in NAMES if (value := getattr(table, key)) is not None}


def _wearer(table: "WearerTable", size: Size | None) -> Wearer:
    figure = table.figure or Figure.ADULT
    body = whole_body(_written(table), figure=figure, size=size)
    return Wearer(label=table.label or "", size=size.name if size else "", figure=figure, **body)


def _findings(
    table: "WearerTable", known: Mapping[str, Given], size: Size | None, units: Units
) -> tuple[Finding, ...]:
    figure = table.figure or Figure.ADULT
    accept = table.accept or ()
    return (
        *measure_findings(known, figure=figure, units=units, accept=accept),
        *estimate_findings(_written(table), figure=figure, size=size, units=units),
    )


_WAIST_EASE = {Figure.ADULT: 15.0, Figure.CHILD: 20.0}


def _skirt(table: "SkirtTable", wearer: Wearer) -> Skirt:
    hem = table.hem or HemFinish.NARROW
    allowances = table.allowances
    return Skirt(
        fullness=_or(table.fullness, 1.0),
        length=_length(table, wearer),
        hem_above_floor=table.hem_above_floor,
        panels=table.panels,
        waist_ease=_or(table.waist_ease, _WAIST_EASE[wearer.figure]),
        waist_stretch=_or(table.waist_stretch, 0.01),
        gather_ratio=_or(table.gather_ratio, 1.0),
        grain=table.grain or Grain.EDGE,
        closure=table.closure or Closure.CENTRE_BACK,
        waist_finish=table.waist_finish or WaistFinish.BAND,
        band=_or(table.band, 30.0),
        facing=_or(table.facing, 50.0),
        elastic=_or(table.elastic, 25.0),
        hem=hem,
        allowances=Allowances(
            waist=_or(allowances.waist, 10.0),
            side=_or(allowances.side, 15.0),
            hem=allowances.hem,
        ),
    )


def _length(table: "SkirtTable", wearer: Wearer) -> Mm:
    """Return the length at the side: as asked, down to a level hem, or to the knee."""
    if table.hem_above_floor is not None:
        return wearer.floor_side + SHOE_SHARE * wearer.heel - table.hem_above_floor
    return _or(table.length, wearer.waist_to_knee)


def _or(value: float | None, otherwise: float) -> float:
    """Return the value, or the default where the sheet leaves it out; nought is a value."""
    return otherwise if value is None else value


def _lining(table: "LiningTable", skirt: Skirt) -> Lining:
    return Lining(
        fullness=_or(table.fullness, min(skirt.fullness, 0.5)),
        shorter=_or(table.shorter, 30.0),
        panels=table.panels,
    )


_RUFFLE_GATHER = {
    RuffleCloth.SOFT_TULLE: 3.0,
    RuffleCloth.STIFF_NET: 2.6,
    RuffleCloth.SILK_ORGANZA: 2.25,
    RuffleCloth.POLYESTER_ORGANZA: 2.4,
    RuffleCloth.COTTON_ORGANDY: 2.0,
    RuffleCloth.CRINOLINE_CANVAS: 1.5,
}


def _ruffle(table: "RuffleTable") -> Ruffle:
    cloth = table.cloth or RuffleCloth.STIFF_NET
    return Ruffle(
        cloth=cloth,
        depth=table.depth,
        gather_ratio=_or(table.gather_ratio, _RUFFLE_GATHER[cloth]),
        above_hem=_or(table.above_hem, 10.0),
        doubled=bool(table.doubled),
    )


# Fractions lost along and across the cloth in the first wash; classroom estimates.
_SHRINKAGE = {
    **dict.fromkeys(
        ("cotton", "poplin", "sateen", "lawn", "denim", "organdy", "calico"), (0.04, 0.02)
    ),
    **dict.fromkeys(("linen", "viscose", "rayon"), (0.05, 0.025)),
    "wool": (0.03, 0.015),
    "polyester": (0.01, 0.005),
    "silk": (0.03, 0.015),
    **dict.fromkeys(("net", "tulle", "crinoline"), (0.0, 0.0)),
}


def _shrinkage(kind: str) -> tuple[float, float]:
    """Return what a kind of cloth loses; the first word known decides, cotton if none is."""
    words = re.findall(r"[a-z]+", kind.lower())
    return next((_SHRINKAGE[word] for word in words if word in _SHRINKAGE), _SHRINKAGE["cotton"])


_WIDTH = {Units.CM: 1400.0, Units.INCH: 54 * MM_PER_INCH}
"""Width of a dress cloth as sold, where cloth is sold by the metre and by the yard."""


def _cloth(table: "ClothTable", units: Units, kind: str = "") -> Cloth:
    kind = table.kind or kind
    along, across = _shrinkage(kind)
    return Cloth(
        kind=kind,
        width=_or(table.width, _WIDTH[units]),
        selvage=_or(table.selvage, 10.0),
        shrink_length=_or(table.shrink_length, along),
        shrink_width=_or(table.shrink_width, across),
        one_way=bool(table.one_way),
        fold=bool(table.fold),
        price=table.price,
    )


def _print(table: "PrintTable") -> Print:
    return Print(
        papers=table.paper or (PaperName.A4,),
        margin=table.margin,
        overlap=_or(table.overlap, 10.0),
        strips=table.strips or Strips.LISTED,
    )


def _publish(table: "PublishTable") -> Publish:
    return Publish(
        maker=table.maker or "",
        page=table.page or "",
        licence=table.licence or "",
        edition=table.edition or "",
        date=table.date or "",
        language=table.language or "en",
    )
