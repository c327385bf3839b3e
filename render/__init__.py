"""hemsweep's rendering: pattern pieces in, files out.

    import drafting, render

    pattern = drafting.draft(drafting.load(Path("chorus-skirt.toml")))
    printed = render.printed(pattern, PaperName.A4)
    Path("chorus-skirt-a4.pdf").write_bytes(render.pdf_bytes(printed.document))

or, with the figures and a proof of every file, ``render.write_draft(pattern, Path("out"))``.
Knows paper and file formats, and no garment formula.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from render.batch.writing import write_batch as write_batch
    from render.output import write_draft as write_draft
    from render.output import write_lay as write_lay
    from render.pages import printed as printed
    from render.pdf import pdf_bytes as pdf_bytes
    from render.proof import proof as proof

_HOMES = {
    "pdf_bytes": "render.pdf",
    "printed": "render.pages",
    "proof": "render.proof",
    "write_batch": "render.batch.writing",
    "write_draft": "render.output",
    "write_lay": "render.output",
}


def __getattr__(name: str) -> Any:
    """Return one of the package's names, its module imported only now."""
    import importlib

    if name not in _HOMES:
        raise AttributeError(f"module 'render' has no attribute {name!r}")
    return getattr(importlib.import_module(_HOMES[name]), name)
