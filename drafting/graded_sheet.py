"""A sheet that asks for several sizes, read once for each: tables in, one spec that holds them all.

Millimetres. Imports the spec, findings and the language; loads no pydantic.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from drafting.errors import Fault
from drafting.findings import note
from drafting.language import listed, say, say_counted
from drafting.sheet_checks import Faults
from drafting.spec import Scope, Spec

OF_EVERY_SIZE = ("figure", "accept", "height", "heel", "step")
"""What [wearer] tells of all who wear a graded garment. Measures of one body, and her label, are
of no use to readers of every size."""


def asks_for_sizes(tables: Mapping[str, Any]) -> bool:
    """Tell whether a sheet has a list of sizes, be it readable or not."""
    publish = tables.get("publish")
    return isinstance(publish, Mapping) and publish.get("sizes", []) != []


def for_size(tables: Mapping[str, Any], name: str) -> dict[str, Any]:
    """Return the tables of a sheet as they would be for a wearer of one size of its list."""
    wearer = _table(tables, "wearer")
    publish = {key: value for key, value in _table(tables, "publish").items() if key != "sizes"}
    kept = {key: wearer[key] for key in OF_EVERY_SIZE if key in wearer}
    return {**tables, "wearer": {**kept, "size": name}, "publish": publish}


def _table(tables: Mapping[str, Any], name: str) -> Mapping[str, Any]:
    found = tables.get(name)
    return found if isinstance(found, Mapping) else {}


def with_those_of_sizes(own: Faults, found: Mapping[str, Faults]) -> Faults:
    """Return the faults of a sheet with those of its sizes, each told once.

    What is wrong in every size is the sheet's; what is wrong in some is told with their names.
    """
    names: dict[tuple[tuple[str, ...], str], list[str]] = {}
    first: dict[tuple[tuple[str, ...], str], Fault] = {}
    known = {(path, fault.what) for path, fault in own}
    for name, faults in found.items():
        for path, fault in faults:
            if (path, fault.what) not in known:
                names.setdefault((path, fault.what), []).append(name)
                first[path, fault.what] = fault
    return [
        *own,
        *(
            (path, first[path, what] if len(of) == len(found) else _named(first[path, what], of))
            for (path, what), of in names.items()
        ),
    ]


def _named(fault: Fault, sizes: list[str]) -> Fault:
    size = "Size" if len(sizes) == 1 else "Sizes"
    return replace(fault, what=f"{size} {', '.join(sizes)}: {fault.what}")


def scope_faults(scope: Scope | None) -> Faults:
    """Return the fault of printing less than whole pieces for several sizes."""
    if scope is None or scope is Scope.WHOLE:
        return []
    fault = Fault(
        what=f'scope = "{scope.value}" tells one wearer\'s lengths, and this sheet lists sizes.',
        allowed='Write scope = "whole", or take the list of sizes out.',
        key="print.scope",
        given=scope.value,
    )
    return [(("print", "scope"), fault)]


def one_body_faults(tables: Mapping[str, Any]) -> Faults:
    """Return the faults of keys that tell of one garment, which fits one of the sizes at most."""
    skirt = _table(tables, "skirt")
    told = {
        "owned": "is a skirt of one waist",
        "bodice_waist": "is the waist seam of one bodice",
    }
    return [
        (
            ("skirt", key),
            Fault(
                what=f"{key} {what}, and this sheet lists sizes.",
                allowed="Take it out, or take the list of sizes out.",
                key=f"skirt.{key}",
            ),
        )
        for key, what in told.items()
        if key in skirt
    ]


def graded(specs: tuple[Spec, ...], tables: Mapping[str, Any]) -> Spec:
    """Return the spec of a garment in several sizes: that of its middle size, holding them all.

    Args:
        specs: one for each size, smallest first.
        tables: the sheet as it is written.
    """
    middle = specs[(len(specs) - 1) // 2]
    sizes = tuple(spec.wearer.size for spec in specs)
    unused = [
        key for key in _table(tables, "wearer") if key not in (*OF_EVERY_SIZE, "label", "size")
    ]
    findings = middle.findings
    if unused:
        told = note(
            "wearer-not-graded",
            say_counted(
                "The {sizes} are drafted from the size table: {keys} under [wearer] is not used.",
                "The {sizes} are drafted from the size table: {keys} under [wearer] are not used.",
                len(unused),
                sizes=sizes_words(sizes),
                keys=listed(unused),
            ),
            say("Take the list of sizes out to draft for one wearer."),
        )
        findings = (*findings, told)
    return replace(
        middle,
        publish=replace(middle.publish, sizes=sizes),
        findings=findings,
        graded=specs,
    )


def sizes_words(sizes: tuple[str, ...]) -> str:
    """Return what a row of sizes is called: "sizes P03, P04 and P05"."""
    return say("sizes {sizes}", sizes=listed(sizes))
