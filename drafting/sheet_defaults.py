"""Makes a ``Spec`` of a faultless sheet: the defaults of body, ruffle, cloth and print.

Lengths in millimetres. Reads the tables of ``sheet_models`` but loads no pydantic itself.
"""

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from drafting.findings import Finding, Level
from drafting.half_scale import Scale, halved
from drafting.language import Language, listed, say, say_counted
from drafting.measure_checks import measure_findings
from drafting.measurements import NAMES, Given
from drafting.missing_measures import estimate_findings, whole_body
from drafting.sheet_told import Context
from drafting.sizes import Size, SizeTable
from drafting.skirt_defaults import lining_of, or_else, skirt_of, unused_keys
from drafting.spec import (
    Cloth,
    Cloths,
    Figure,
    PaperName,
    Print,
    Publish,
    Ruffle,
    RuffleCloth,
    Scope,
    Spec,
    Strips,
    Wearer,
)
from drafting.units import MM_PER_INCH, Mm, Units

if TYPE_CHECKING:
    from drafting.sheet_models import (
        ClothsTable,
        ClothTable,
        PrintTable,
        PublishTable,
        RuffleTable,
        SheetTable,
        WearerTable,
    )

UNTITLED = "Skirt"


def made_spec(
    sheet: "SheetTable",
    known: Mapping[str, Given],
    size: Size | None,
    context: Context,
    title: str,
) -> Spec:
    """Return the spec that a faultless sheet asks for, halved if it is for a half-scale form.

    Args:
        known: the measures that the sheet writes, and those of the size it names.
        context: the units that are shown, and the sheet's own size table.
        title: the title of a sheet that gives none.
    """
    wearer, units = _wearer(sheet.wearer, size, context.table), context.shown
    skirt = skirt_of(sheet.skirt, wearer)
    given = sheet.model_fields_set
    ruffle = _ruffle(sheet.ruffle) if "ruffle" in given else None
    spec = Spec(
        title=sheet.title or _title_from(title),
        units=units,
        wearer=wearer,
        skirt=skirt,
        lining=lining_of(sheet.lining, skirt, wearer) if "lining" in given else None,
        ruffle=ruffle,
        cloths=_cloths(sheet.cloth, units, ruffle),
        print=_print(sheet.print),
        publish=_publish(sheet.publish),
        findings=(
            *_findings(sheet, known, size, context),
            *_unused(unused_keys(sheet.skirt)),
        ),
    )
    return halved(spec) if sheet.scale is Scale.HALF else spec


def _unused(keys: tuple[str, ...]) -> tuple[Finding, ...]:
    if not keys:
        return ()
    return (
        Finding(
            level=Level.NOTE,
            code="key-unused",
            what=say_counted(
                "Under [skirt], {keys} changes nothing here.",
                "Under [skirt], {keys} change nothing here.",
                len(keys),
                keys=listed(keys),
            ),
            do=say(
                "They belong to another finish of its waist or hem: take them out, or choose that."
            ),
        ),
    )


def _title_from(text: str) -> str:
    """Return a title made from a file's name, which may hold anything."""
    from drafting.sheet_texts import TITLE_LENGTH, clean, forbidden, seen

    title = clean("".join(c for c in text if not forbidden(c)))[:TITLE_LENGTH].strip()
    return title if seen(title) else UNTITLED


def written_measures(table: "WearerTable") -> dict[str, Mm]:
    """Return the measures that the sheet itself gives."""
    return {key: value for key in NAMES if (value := getattr(table, key)) is not None}


def _wearer(table: "WearerTable", size: Size | None, sizes: SizeTable | None) -> Wearer:
    figure = table.figure or Figure.ADULT
    body = whole_body(written_measures(table), figure=figure, size=size, table=sizes)
    return Wearer(label=table.label or "", size=size.name if size else "", figure=figure, **body)


def _findings(
    sheet: "SheetTable", known: Mapping[str, Given], size: Size | None, context: Context
) -> tuple[Finding, ...]:
    units = context.shown
    table, scale = sheet.wearer, sheet.scale or Scale.FULL
    figure = table.figure or Figure.ADULT
    accept = table.accept or ()
    return (
        *measure_findings(known, figure=figure, units=units, accept=accept, scale=scale),
        *estimate_findings(
            written_measures(table), figure=figure, size=size, units=units, table=context.table
        ),
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
        gather_ratio=or_else(table.gather_ratio, _RUFFLE_GATHER[cloth]),
        above_hem=or_else(table.above_hem, 10.0),
        doubled=bool(table.doubled),
        tiers=table.tiers or 1,
        tier_ratio=or_else(table.tier_ratio, 1.6),
        tier_growth=or_else(table.tier_growth, 1.25),
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


_INTERFACING_WIDTH = {Units.CM: 900.0, Units.INCH: 36 * MM_PER_INCH}


def _cloths(table: "ClothsTable", units: Units, ruffle: Ruffle | None) -> Cloths:
    width = _WIDTH[units]
    skirt = _cloth(table.skirt, width)
    return Cloths(
        skirt=skirt,
        lining=_cloth(table.lining, width),
        ruffle=_cloth(table.ruffle, width, kind=ruffle.cloth.value if ruffle else ""),
        interfacing=_interfacing(table.interfacing, _INTERFACING_WIDTH[units]),
        binding=_cloth(table.binding, width, kind=skirt.kind),
    )


def _cloth(table: "ClothTable", width: Mm, kind: str = "", selvage: Mm = 10.0) -> Cloth:
    kind = table.kind or kind
    along, across = _shrinkage(kind)
    return Cloth(
        kind=kind,
        width=or_else(table.width, width),
        selvage=or_else(table.selvage, selvage),
        shrink_length=or_else(table.shrink_length, along),
        shrink_width=or_else(table.shrink_width, across),
        one_way=bool(table.one_way),
        fold=bool(table.fold),
        price=table.price,
        grams=table.grams,
        repeat=or_else(table.repeat, 0.0),
        squared=bool(table.squared),
        have=table.have,
        piecing=table.piecing is not False,
    )


def _interfacing(table: "ClothTable", width: Mm) -> Cloth:
    """Return the interfacing; of no kind in particular it is not woven, and keeps its size."""
    cloth = _cloth(table, width, selvage=0.0)
    if cloth.kind:
        return cloth
    return replace(
        cloth,
        shrink_length=or_else(table.shrink_length, 0.0),
        shrink_width=or_else(table.shrink_width, 0.0),
    )


def _print(table: "PrintTable") -> Print:
    return Print(
        papers=table.paper or (PaperName.A4,),
        margin=table.margin,
        overlap=or_else(table.overlap, 10.0),
        widest=or_else(table.widest, 2500.0),
        scope=table.scope or Scope.WHOLE,
        strips=table.strips or Strips.LISTED,
        measured=table.measured or (),
    )


def _publish(table: "PublishTable") -> Publish:
    return Publish(
        maker=table.maker or "",
        page=table.page or "",
        licence=table.licence or "",
        edition=table.edition or "",
        date=table.date or "",
        language=table.language or Language.ENGLISH,
        working=bool(table.working),
        sizes=table.sizes or (),
    )
