"""Which papers are drawn with a correction for the printer at home, and what is said of it.

Imports drafting's values.
"""

from collections.abc import Sequence

from drafting.findings import Finding, caution, note
from drafting.printer import AS_DRAWN, Correction, Measured, Printer, printer, size_words
from drafting.spec import PaperName

HOME_PAPERS = frozenset(
    {
        PaperName.A4,
        PaperName.LETTER,
        PaperName.A3,
        PaperName.TABLOID,
        PaperName.LEGAL,
        PaperName.A4_LETTER,
    }
)
"""What goes through the printer that a sheet's ``measured`` is of; no copy shop, no projector."""


def is_corrected(paper: PaperName) -> bool:
    """Tell whether a sheet's ``measured`` counts for a paper."""
    return paper in HOME_PAPERS


def correction_on(paper: PaperName, measured: tuple[Measured, ...]) -> Correction:
    """Return what pages of a paper are enlarged by so that they come out true."""
    found = printer(measured)
    return found.correction if found is not None and is_corrected(paper) else AS_DRAWN


def printer_findings(
    measured: tuple[Measured, ...], papers: Sequence[PaperName]
) -> tuple[Finding, ...]:
    """Return what there is to say of the printer that a sheet has measured."""
    found = printer(measured)
    if found is None:
        return ()
    at_home = any(is_corrected(paper) for paper in papers)
    findings = [_of_home(found)] if at_home else []
    others = ", ".join(paper.value for paper in papers if not is_corrected(paper))
    if others:
        findings.append(
            note(
                "printer-not-this",
                f"What was measured is of your printer at home; {others} is not corrected by it.",
                "Measure the square on that print too, and tell those who print it.",
            )
        )
    return tuple(findings)


def _of_home(found: Printer) -> Finding:
    if found.good:
        return note(
            "printer-true",
            f"Your printer prints {way_words(found)}: within 0.5 %, so nothing is corrected.",
            "Print as ever, at 100 %.",
        )
    drawn = correction_words(found.correction)
    if found.far_off:
        return caution(
            "printer-far-off",
            f"Your printer prints {way_words(found)}, as when it is told to fit the page; the"
            f" pages are drawn at {drawn}.",
            "Print the trial page at 100 % and measure it again before you print them all.",
        )
    return note(
        "printer-corrected",
        f"Your printer prints {way_words(found)}; the pages are drawn at {drawn}.",
        "Print the first page on that printer at 100 %: its square must measure 100 mm each way.",
    )


def way_words(found: Printer) -> str:
    """Return what a printer makes of a length, both ways: "0.60 % small across and true up"."""
    across, up = size_words(found.across.size), size_words(found.up.size)
    return f"{across} both ways" if across == up else f"{across} across and {up} up"


def correction_words(correction: Correction) -> str:
    """Return what pages are drawn at: "100.60 % across and 99.70 % up"."""
    across, up = (f"{by * 100:.2f} %" for by in correction)
    return f"{across} both ways" if across == up else f"{across} across and {up} up"
