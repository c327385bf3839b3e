"""Which papers are drawn with a correction for the printer at home, and what is said of it.

Findings and pages are told in the language spoken; what a command answers stays English.
Millimetres. Imports drafting's values, the language and drawing.
"""

from collections.abc import Sequence

from drafting.findings import Finding, caution, note
from drafting.language import decimal, say
from drafting.printer import (
    AS_DRAWN,
    Correction,
    Measured,
    Printer,
    multiplied,
    printer,
    size_words,
)
from drafting.spec import PaperName
from drafting.units import Mm
from render.drawing import About, Kind
from render.paper import HOME


def is_corrected(paper: PaperName) -> bool:
    """Tell whether a sheet's ``measured`` counts for a paper: no copy shop's, no projector."""
    return paper in HOME


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
                say(
                    "What was measured is of your printer at home; {papers} is not corrected by"
                    " it.",
                    papers=others,
                ),
                say("Measure the square on that print too, and tell those who print it."),
            )
        )
    return tuple(findings)


def _of_home(found: Printer) -> Finding:
    sizes = way_words(found)
    if found.good:
        return note(
            "printer-true",
            say("Your printer prints {sizes}: within 0.5 %, so nothing is corrected.", sizes=sizes),
            say("Print as ever, at 100 %."),
        )
    drawn = correction_words(found.correction)
    if found.far_off:
        return caution(
            "printer-far-off",
            say(
                "Your printer prints {sizes}, as when it is told to fit the page; the pages are"
                " drawn at {drawn}.",
                sizes=sizes,
                drawn=drawn,
            ),
            say("Print the trial page at 100 % and measure it again before you print them all."),
        )
    return note(
        "printer-corrected",
        say(
            "Your printer prints {sizes}; the pages are drawn at {drawn}.", sizes=sizes, drawn=drawn
        ),
        say(
            "Print the first page on that printer at 100 %: its square must measure 100 mm each"
            " way."
        ),
    )


def way_words(found: Printer) -> str:
    """Return what a printer makes of a length, both ways: "0.60 % small across and true up"."""
    return _both(_size_words(found.across), _size_words(found.up))


def _size_words(way: Measured) -> str:
    """Return how far a size is off, in the language spoken."""
    off = decimal(f"{abs(way.size - 1) * 100:.2f}")
    if size_words(way.size) == "true":
        return say("true")
    return (
        say("{off} %\u00a0small", off=off) if way.size < 1 else say("{off} %\u00a0large", off=off)
    )


def _both(across: str, up: str) -> str:
    """Return what holds across and up, once where it is the same."""
    if across == up:
        return say("{size} both ways", size=across)
    return say("{across} across and {up} up", across=across, up=up)


def correction_words(correction: Correction) -> str:
    """Return what pages are drawn at: "100.60 % across and 99.70 % up"."""
    across, up = (f"{decimal(f'{by * 100:.2f}')} %" for by in correction)
    return _both(across, up)


def corrected_words(measured: tuple[Measured, ...], paper: PaperName) -> tuple[str, ...]:
    """Return what the first page of a paper says of its correction; nothing without measures."""
    found = printer(measured)
    if found is None or not is_corrected(paper):
        return ()
    told = measures_words(found)
    if found.good:
        words = say(
            "Your printer made {measures}. That is within 0.5 %; nothing is corrected.",
            measures=told,
        )
    else:
        words = say(
            "Corrected for a printer that made {measures}: drawn at {drawn}. On it, the square must"
            " now measure 100 mm each way. Take no other printer.",
            measures=told,
            drawn=correction_words(found.correction),
        )
    # No line ends between a figure and its unit.
    return (words.replace(" mm", "\u00a0mm").replace(" %", "\u00a0%"),)


def measures_words(found: Printer) -> str:
    """Return what was measured: "198.8 mm of 200 mm across and 200.6 mm of 200 mm up"."""
    across, up = (
        say(
            "{measured} mm of {nominal} mm",
            measured=decimal(f"{round(way.measured, 2):g}"),
            nominal=decimal(f"{round(way.nominal, 2):g}"),
        )
        for way in (found.across, found.up)
    )
    if found.alike:
        return say("{size} both ways", size=across)
    return say("{across} across and {up} up", across=across, up=up)


def measure_words(way: Measured) -> str:
    """Return one measure as a sheet writes it, in every language alike."""
    return f"{round(way.measured, 2):g} mm of {round(way.nominal, 2):g} mm"


def told_of(found: Printer, about: About) -> tuple[str, ...]:
    """Return what measures of a printed file mean for its skirt, and what to do, line by line.

    Raises:
        MeasuredError: with what the file is corrected by already, no printer is that far off.
    """
    if about.kind is Kind.CARD:
        return ("A card is read and not measured: no printer's error matters to it.",)
    if about.kind is Kind.LAY:
        return ("Lay plans are drawn small and read: no printer's error matters to them.",)
    pairs = (
        [("Both ways", found.across)]
        if found.alike
        else [("Across", found.across), ("Up", found.up)]
    )
    lines = [_way_told(name, way, about) for name, way in pairs]
    if about.waist and about.sweep and size_words(found.across.size) != size_words(found.up.size):
        lines.append("Waist and hem run both ways, so they come out between the two.")
    if found.good:
        return (*lines, "That is within 0.5 %: nothing need be done.")
    if found.far_off:
        lines.append("It looks like “fit to page”: print at 100 % first, and measure again.")
    return (*lines, *_what_to_do(found, about))


def _way_told(name: str, way: Measured, about: About) -> str:
    words = f"{name}, {measure_words(way)} is {size_words(way.size)}"
    by = abs(way.size - 1)
    change = "smaller" if way.size < 1 else "larger"
    told: list[str] = []
    for girth, long in (("your waist", about.waist), ("the hem", about.sweep)):
        if long:
            comes_out = "" if told else "comes out "
            told.append(f"{girth} {comes_out}{_amount(long * by)} {change}")
    if not told or size_words(way.size) == size_words(1.0):
        return f"{words}."
    return f"{words}: {', '.join(told)}."


def _amount(length: Mm) -> str:
    return f"{length:.1f} mm" if length < 10 else f"{length:.0f} mm"


def _what_to_do(found: Printer, about: About) -> list[str]:
    scale = found.one_scale
    if scale is None:
        across, up = (f"{way.factor * 100:.2f} %" for way in (found.across, found.up))
        lines = [f"Across asks for {across} and up for {up}: no one scale puts both right."]
    else:
        lines = [f"Print it at {scale * 100:.2f} % in place of 100 %, if you can set that."]
    if about.kind is Kind.PROJECTOR:
        return ["A projector is set until its grid is true; no measure of paper corrects it."]
    if about.kind is Kind.LARGE:
        return [
            *lines,
            "A sheet's measured is of the printer at home; this file is drawn as it is.",
        ]
    whole = multiplied(about.correction, found)
    if about.correction.needed:
        told = f"The file is corrected already, to {correction_words(about.correction)}"
        if whole.good:
            return [
                *lines,
                f"{told}; for this printer that is not needed.",
                "Take measured out of the sheet and have it drawn again.",
            ]
        lines.append(f"{told}; its printer asks for {correction_words(whole.correction)} in all.")
    ways = (whole.across,) if whole.alike else (whole.across, whole.up)
    listed = ", ".join(f'"{measure_words(way)}"' for way in ways)
    lead = "Or have" if scale is not None else "Have"
    return [
        *lines,
        f"{lead} it drawn for this printer: write under [print] in the sheet",
        f"    measured = [{listed}]",
    ]
