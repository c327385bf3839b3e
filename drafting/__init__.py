"""hemsweep's drafting: measurements in, pattern pieces out.

    from pathlib import Path
    import drafting

    spec = drafting.load(Path("chorus-skirt.toml"))
    pattern = drafting.draft(spec)
    print(pattern.figures.skirt.waist_radius)        # millimetres

Never prints, never writes a file, and reads none but a spec sheet.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from drafting.figures import as_json as as_json
    from drafting.pattern import Pattern as Pattern
    from drafting.pattern import draft as draft
    from drafting.sheet import load as load
    from drafting.sheet import read_sheet as read_sheet
    from drafting.spec import Spec as Spec

_HOMES = {
    "Pattern": "drafting.pattern",
    "Spec": "drafting.spec",
    "as_json": "drafting.figures",
    "draft": "drafting.pattern",
    "load": "drafting.sheet",
    "read_sheet": "drafting.sheet",
}


def __getattr__(name: str) -> Any:
    """Return one of the package's names, its module imported only now."""
    import importlib

    if name not in _HOMES:
        raise AttributeError(f"module 'drafting' has no attribute {name!r}")
    return getattr(importlib.import_module(_HOMES[name]), name)
