"""The command line: reads words, calls one function, shows what came back.

Results go to standard output, messages and progress to standard error. Exit codes: 0 done;
2 the words of the command are wrong; 3 the sheet is wrong, a finding stops the draft, a proof
fails, or some rows of a batch are at fault; 4 a file or folder cannot be read or written, or
exists already; 130 interrupted.
"""

import gc
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drafting.errors import DraftingError, LengthError, quoted

if TYPE_CHECKING:
    from drafting.pattern import Pattern
    from drafting.sizes import SizeTable
    from drafting.units import Units

WORDS_FAULT, SHEET_FAULT, FILE_FAULT, INTERRUPTED = 2, 3, 4, 130

app = typer.Typer(
    name="hemsweep",
    help="Draft full skirts, their linings and the stiff ruffles under them, and print them at"
    " true size.\n\nWrite a few measurements into a spec sheet, then:\n\n"
    "    hemsweep draft chorus-skirt.toml",
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

Sheet = Annotated[Path, typer.Argument(metavar="SHEET", help="The spec sheet, a .toml file.")]
Out = Annotated[
    Path | None,
    typer.Option(metavar="DIR", help="Folder to write into; else one named for the title."),
]
Force = Annotated[bool, typer.Option("--force", help="Write over files that exist.")]


@contextmanager
def one_line_errors() -> Iterator[None]:
    """Turn what a person can mend into a line for each fault; let our own bugs be seen whole."""
    try:
        yield
    except DraftingError as error:
        for line in error.lines:
            _tell(line, err=True)
        raise typer.Exit(SHEET_FAULT) from None
    except BrokenPipeError:
        # Whoever read our output has gone; Python must not complain again as it ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise typer.Exit(0) from None
    except OSError as error:
        typer.echo(_file_words(error), err=True)
        raise typer.Exit(FILE_FAULT) from None
    except KeyboardInterrupt:
        typer.echo("\nstopped; no file was left half-written", err=True)
        raise typer.Exit(INTERRUPTED) from None


# What an old code page lacks, in signs that every one has. A lost fraction is a wrong measure.
_PLAIN = {
    "⅛": " 1/8", "¼": " 1/4", "⅜": " 3/8", "½": " 1/2", "⅝": " 5/8", "¾": " 3/4", "⅞": " 7/8",
    "π": "pi", "√": "sqrt", "²": "^2", "°": " degrees", "−": "-",
    "×": "x", "–": "-", "…": "...", "“": '"', "”": '"', "◊": "?",
}  # fmt: skip


def _tell(words: str, *, err: bool = False) -> None:
    """Show words, spelt out where the terminal or the pipe cannot take their signs."""
    stream = sys.stderr if err else sys.stdout
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        words.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        for sign, plain in _PLAIN.items():
            words = words.replace(sign, plain)
    typer.echo(words, err=err)


def _file_words(error: OSError) -> str:
    if error.filename is None:
        return str(error.strerror or error)
    reason = {
        "FileNotFoundError": "there is no such file or folder",
        "IsADirectoryError": "it is a folder, and a file is wanted",
        "NotADirectoryError": "it is a file, and a folder is wanted",
        "PermissionError": "you may not read or write it",
    }.get(type(error).__name__, error.strerror or "it cannot be read or written")
    return f"{error.filename}: {reason}"


def _version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        typer.echo(f"hemsweep {version('hemsweep')}")
        raise typer.Exit


@app.callback()
def _main(
    _: Annotated[
        bool,
        typer.Option("--version", help="Show the version.", callback=_version, is_eager=True),
    ] = False,
) -> None:
    """Drafts full skirts from a spec sheet."""


@app.command()
def draft(
    sheet: Sheet,
    paper: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="Paper to print on instead of the sheet's: a4, letter, a3, tabloid, legal, or"
            " a4-letter, which fits both; at a copy shop a0, a1, roll-841, roll-914 or roll-36in;"
            " or projector. May be given more than once.",
        ),
    ] = None,
    piece: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="Print this piece alone, by its name or its number in the cut list. May be given"
            " more than once; the files are named for the pieces.",
        ),
    ] = None,
    quick: Annotated[
        bool, typer.Option("--quick", help="Lay the pieces out at once: a page or two more.")
    ] = False,
    thorough: Annotated[
        bool, typer.Option("--thorough", help="Search longer for fewer pages: up to a minute.")
    ] = False,
    svg: Annotated[
        bool,
        typer.Option("--svg", help="Write the pieces without pages too, as SVG for a plotter."),
    ] = False,
    dxf: Annotated[
        bool,
        typer.Option(
            "--dxf", help="Write the pieces without pages too, as DXF for a cutting table."
        ),
    ] = False,
    without: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="Leave a part out: lay, for the plans of the cloth; booklet, for the sewing.",
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
) -> None:
    """Write what a person needs: pages at true size, lay plans, sewing booklet, the figures.

    hemsweep draft chorus-skirt.toml

    hemsweep draft chorus-skirt.toml --paper letter --out patterns

    hemsweep draft chorus-skirt.toml --piece "lining panel"

    hemsweep draft chorus-skirt.toml --svg --dxf

    hemsweep draft chorus-skirt.toml --without booklet
    """
    with one_line_errors():
        from render.chosen import PieceWishError
        from render.lay_terminal import cloth_table
        from render.output import write_draft
        from render.terminal import figures_table

        papers, only = _papers(paper or []), tuple(piece or ())
        left_out = _extras(without or [])
        effort = _effort(quick=quick, thorough=thorough)
        pattern = _sound(sheet)
        with _progress() as say:
            try:
                output = write_draft(
                    pattern,
                    out,
                    papers=papers,
                    only=only,
                    without=left_out,
                    effort=effort,
                    svg=svg,
                    dxf=dxf,
                    force=force,
                    progress=say,
                )
            except PieceWishError as error:
                _tell(str(error), err=True)
                raise typer.Exit(WORDS_FAULT) from None
        _tell(figures_table(pattern))
        if output.cloth is not None:
            _tell("\n" + cloth_table(pattern, output.cloth.lays, output.cloth.shopping))
        _tell_cloths(pattern, output)
        _show_output(pattern, output)


def _papers(names: list[str]) -> "tuple[PaperName, ...]":
    from drafting.sheet_told import did_you_mean, nearest_paper
    from drafting.spec import PaperName

    known = ", ".join(paper.value for paper in PaperName)
    for name in names:
        if name.lower() not in {paper.value for paper in PaperName}:
            meant = did_you_mean(nearest_paper(name.lower()))
            _tell(
                f'"{name}" is not a paper known here. {meant} Use {known}'.replace("  ", " "),
                err=True,
            )
            raise typer.Exit(WORDS_FAULT)
    return tuple(PaperName(name.lower()) for name in names)


def _extras(names: list[str]) -> "tuple[Extra, ...]":
    from render.output import Extra

    known = {extra.value: extra for extra in Extra}
    for name in names:
        if name.lower() not in known:
            _tell(f"{quoted(name)} cannot be left out. Leave out {', '.join(known)}", err=True)
            raise typer.Exit(WORDS_FAULT)
    return tuple(known[name.lower()] for name in names)


def _effort(*, quick: bool, thorough: bool) -> "Effort":
    from render.placement import Effort

    if quick and thorough:
        typer.echo("give --quick or --thorough, not both", err=True)
        raise typer.Exit(WORDS_FAULT)
    return Effort.QUICK if quick else Effort.THOROUGH if thorough else Effort.USUAL


def _drafted(sheet: Path) -> "Pattern":
    import drafting

    return drafting.draft(drafting.load(sheet))


@contextmanager
def _progress() -> "Iterator[Progress]":
    """Show what is being done in one line, on a terminal only, and wipe it afterwards."""
    live = sys.stderr.isatty()

    def say(words: str) -> None:
        if live:
            sys.stderr.write(f"\r\x1b[K{words} …")
            sys.stderr.flush()

    try:
        yield say
    finally:
        if live:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()


def _sound(sheet: Path) -> "Pattern":
    """Return the drafted pattern; a finding that stops it is told, and ends the command."""
    from drafting.findings import stops

    pattern = _drafted(sheet)
    if stops(pattern.findings):
        _tell(_findings_text(pattern, pattern.findings), err=True)
        raise typer.Exit(SHEET_FAULT)
    return pattern


def _findings_text(pattern: "Pattern", findings: "tuple[Finding, ...]") -> str:
    from drafting.language import speaking
    from render.terminal import findings_text

    with speaking(pattern.spec.publish.language):
        return findings_text(findings)


def _tell_cloths(pattern: "Pattern", output: "Output") -> None:
    """Show what to buy for each size of a graded pattern, if its cloths were laid."""
    if output.cloths:
        from render.sized_terminal import sized_cloths

        _tell("\n" + sized_cloths(pattern, output.cloths))


def _show_output(pattern: "Pattern", output: "Output") -> None:
    if output.findings:
        _tell("\n" + _findings_text(pattern, output.findings))
    typer.echo("")
    sound = [_show_file(written) for written in output.files]
    if not all(sound):
        raise typer.Exit(SHEET_FAULT)


def _show_file(written: "Written") -> bool:
    """Show a file with its pages and its proof; return whether it is without fault."""
    from render.proof import proof_line

    pages = "page" if written.pages == 1 else "pages"
    typer.echo(f"{written.path}" + (f"  {written.pages} {pages}" if written.pages else ""))
    if written.proof is None:
        return True
    typer.echo(f"  {proof_line(written.proof)}")
    for fault in written.proof.faults:
        typer.echo(f"  {fault}", err=True)
    return not written.proof.faults


@app.command()
def lay(
    sheet: Sheet,
    quick: Annotated[
        bool,
        typer.Option("--quick", help="Lay at once, by hemsweep's own way: a little more cloth."),
    ] = False,
    out: Out = None,
    force: Force = False,
) -> None:
    """Write how the pieces are laid on the cloth, and what to buy.

    hemsweep lay chorus-skirt.toml

    hemsweep lay chorus-skirt.toml --out patterns
    """
    with one_line_errors():
        from drafting.effort import Effort
        from render.lay_terminal import lay_table
        from render.output import write_lay

        effort = Effort.QUICK if quick else Effort.THOROUGH
        pattern = _sound(sheet)
        with _progress() as say:
            output = write_lay(pattern, out, effort=effort, force=force, progress=say)
        if output.cloth is not None:
            _tell(lay_table(pattern, output.cloth.lays, output.cloth.shopping))
        _tell_cloths(pattern, output)
        _show_output(pattern, output)


@app.command()
def publish(
    sheet: Sheet,
    quick: Annotated[
        bool, typer.Option("--quick", help="Search less for fewer pages and less cloth.")
    ] = False,
    last: Annotated[
        Path | None,
        typer.Option(
            metavar="DIR",
            help="Folder of the last edition, to tell what changed; else the one beside this.",
        ),
    ] = None,
    out: Out = None,
    force: Force = False,
) -> None:
    """Write a pack for readers, ready to upload: patterns, booklets, tables, pictures, the post.

    hemsweep publish pier-skirts.toml

    hemsweep publish pier-skirts.toml --out edition-2 --last edition-1
    """
    with one_line_errors():
        from drafting.effort import Effort
        from render.publish.pack import publish as publish_pack
        from render.publish.terminal import pack_table, published

        effort = Effort.QUICK if quick else Effort.USUAL
        pattern = _sound(sheet)
        with _progress() as say:
            pack = publish_pack(pattern, out, last=last, effort=effort, force=force, progress=say)
        _tell(pack_table(pattern))
        if pack.findings:
            _tell("\n" + _findings_text(pattern, pack.findings))
        _tell("\n" + published(pack))
        faults = [fault for file in pack.files if file.proof for fault in file.proof.faults]
        for fault in faults:
            typer.echo(f"  {fault}", err=True)
        if faults:
            raise typer.Exit(SHEET_FAULT)


@app.command()
def figures(
    sheet: Sheet,
    json: Annotated[
        bool, typer.Option("--json", help="As JSON: millimetres and degrees, and the findings.")
    ] = False,
    working: Annotated[
        bool,
        typer.Option(
            "--working",
            help="And how each figure comes about: its formula in words, in letters and with this"
            " wearer's numbers. With --json, as a list beside the figures.",
        ),
    ] = False,
) -> None:
    """Show the numbers of a draft and what a cutter would say about it; writes nothing.

    hemsweep figures chorus-skirt.toml

    hemsweep figures chorus-skirt.toml --working
    """
    with one_line_errors():
        from drafting.findings import stops

        pattern = _drafted(sheet)
        if json:
            from json import dumps

            found = _figures(pattern, working=working)
            # Plain ASCII, so that it is the same JSON in every terminal and through every pipe.
            typer.echo(dumps(found, indent=2))
        else:
            from render.terminal import figures_table

            _tell(figures_table(pattern))
            if working:
                from shutil import get_terminal_size

                from render.working_terminal import UNKNOWN, working_text

                for one in pattern.sizes or (pattern,):
                    _tell("\n" + working_text(one, get_terminal_size((UNKNOWN, 24)).columns))
            if pattern.findings:
                _tell("\n" + _findings_text(pattern, pattern.findings))
        if stops(pattern.findings):
            raise typer.Exit(SHEET_FAULT)


def _figures(pattern: "Pattern", *, working: bool) -> dict[str, Any]:
    """Return a pattern's figures as JSON has them, those of every size if it has sizes."""
    from drafting.figures import as_json

    if pattern.sizes:
        sizes = {one.spec.wearer.size: _figures(one, working=working) for one in pattern.sizes}
        return {"sizes": sizes}
    found = as_json(pattern.figures, pattern.findings)
    if working:
        from drafting.working import working as worked
        from drafting.working.in_json import working_json

        found["working"] = working_json(worked(pattern))
    return found


@app.command()
def batch(
    wearers: Annotated[
        Path,
        typer.Argument(
            metavar="WEARERS.csv",
            help="A spreadsheet's table, a wearer a row; its columns are the keys of [wearer].",
        ),
    ],
    sheet: Sheet,
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="Folder to write into; each row gets one in it.")
    ],
    paper: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME", help="Paper to print on instead of the sheet's."),
    ] = None,
    quick: Annotated[
        bool, typer.Option("--quick", help="Lay the pieces out at once: a page or two more each.")
    ] = False,
    without: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="Leave a part out: lay, for the plans of the cloth; booklet, for the sewing.",
        ),
    ] = None,
    figures: Annotated[
        bool, typer.Option("--figures", help="Only the numbers, in the summary; no folder a row.")
    ] = False,
    processes: Annotated[
        int | None,
        typer.Option(metavar="N", min=1, max=1024, help="Draft so many at once; else all cores."),
    ] = None,
    cluster: Annotated[
        str | None,
        typer.Option(
            metavar="ADDRESS",
            help="Draft on a dask cluster, by its scheduler's address: tcp://192.168.1.20:8786.",
        ),
    ] = None,
    force: Annotated[
        bool,
        typer.Option("--force", help="Write into a folder that is in use, and every row anew."),
    ] = False,
) -> None:
    """Write a draft for each row of a table of wearers, and what to buy for all of them.

    hemsweep batch chorus.csv chorus-skirt.toml --out chorus

    hemsweep batch chorus.csv chorus-skirt.toml --out chorus --figures

    Stopped, it goes on when it is run again; rows that are done and unchanged are not drafted
    twice. Rows at fault are told with line, column and reason, and stop no other.
    """
    with one_line_errors():
        from render.batch.cluster import ClusterError
        from render.batch.progress import bar
        from render.batch.terminal import batch_text
        from render.batch.writing import write_batch

        papers, left_out = _papers(paper or []), _extras(without or [])
        try:
            with bar() as advance:
                output = write_batch(
                    wearers,
                    sheet,
                    out,
                    papers=papers,
                    effort=_effort(quick=quick, thorough=False),
                    without=left_out,
                    figures_only=figures,
                    processes=processes,
                    cluster=cluster,
                    force=force,
                    advance=advance,
                )
        except ClusterError as error:
            _tell(str(error), err=True)
            raise typer.Exit(WORDS_FAULT) from None
        except KeyboardInterrupt:
            _tell("\nstopped; run the same command again, and it goes on from here", err=True)
            raise typer.Exit(INTERRUPTED) from None
        for line in output.faults:
            _tell(line, err=True)
        if output.untold:
            _tell(f"and {output.untold} rows more; the summary has them all", err=True)
        _tell(batch_text(output))
        if output.faulty:
            raise typer.Exit(SHEET_FAULT)


@app.command()
def trial(
    paper: Annotated[
        list[str] | None,
        typer.Option(
            metavar="NAME",
            help="Paper to try: a4 if none is given. Rolls and projectors check themselves.",
        ),
    ] = None,
    out: Annotated[
        Path, typer.Option(metavar="DIR", help="Folder to write into; else this one.")
    ] = Path(),
    force: Force = False,
) -> None:
    """Write one page that finds out whether your printer prints at true size.

    hemsweep trial --paper letter
    """
    with one_line_errors():
        from render.output import write_trial

        pages = write_trial(_papers(paper or ["a4"]), out, force=force)
        sound = [_show_file(written) for written in pages]
        if not all(sound):
            raise typer.Exit(SHEET_FAULT)


@app.command()
def sizes(
    inches: Annotated[
        bool, typer.Option("--inches", help="In inches, to the nearest 1/8.")
    ] = False,
    table: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE.csv",
            help="Check and show a size table of your own. Its bare numbers are centimetres, or"
            " inches with --inches.",
        ),
    ] = None,
    child: Annotated[
        bool, typer.Option("--child", help="With --table: it holds children's sizes.")
    ] = False,
) -> None:
    """Show the size table that size = "P05" in a sheet reads from, or check one of your own.

    hemsweep sizes --table our-sizes.csv
    """
    from drafting.units import Units
    from render.terminal import sizes_text

    units = Units.INCH if inches else Units.CM
    with one_line_errors():
        _tell(sizes_text(units, _own_table(table, units, child=child) if table else None))


def _own_table(path: Path, units: "Units", *, child: bool) -> "SizeTable":
    from drafting.own_sizes import load_size_table
    from drafting.spec import Figure

    return load_size_table(path, figure=Figure.CHILD if child else Figure.ADULT, units=units)


@app.command()
def proof(
    file: Annotated[Path, typer.Argument(metavar="FILE.pdf", help="A printed pattern's file.")],
    measured: Annotated[
        list[str] | None,
        typer.Option(
            metavar="LENGTH",
            help='What the printed square or a rule measured, such as "98.5 mm" (of the square)'
            ' or "198.8 mm of 200 mm": told is what that does to waist and hem, and what to do.'
            " Once for both ways; twice for across, then up.",
        ),
    ] = None,
) -> None:
    """Measure a written PDF: its pages, test square, rules and grid, fonts, and scaling asked.

    hemsweep proof chorus-skirt/chorus-skirt-a4.pdf

    hemsweep proof chorus-skirt/chorus-skirt-a4.pdf --measured "198.8 mm of 200 mm"
    """
    with one_line_errors():
        from render.proof import NotAPatternError, proof_line
        from render.proof import proof as proofed

        by = _printer(measured or [])
        try:
            found = proofed(file.read_bytes())
        except NotAPatternError as error:
            typer.echo(f"{file}: {error}", err=True)
            raise typer.Exit(SHEET_FAULT) from None
        typer.echo(f"{file}: {proof_line(found)}")
        for fault in found.faults:
            typer.echo(f"{file}: {fault}", err=True)
        if by is not None:
            _tell_measured(by, found.about)
        if found.faults:
            raise typer.Exit(SHEET_FAULT)


def _printer(measures: list[str]) -> "Printer | None":
    from drafting.printer import measured_from, printer

    try:
        return printer(tuple(measured_from(text) for text in measures))
    except LengthError as error:
        _tell(
            f"--measured: {quoted(error.text)} is not a length with its unit;"
            ' write "198.8 mm of 200 mm", or "99.4 mm" of the test square',
            err=True,
        )
        raise typer.Exit(WORDS_FAULT) from None
    except DraftingError as error:
        _tell(f"--measured: {error}", err=True)
        raise typer.Exit(WORDS_FAULT) from None


def _tell_measured(by: "Printer", about: "About") -> None:
    from drafting.printer import MeasuredError
    from render.correction import told_of

    try:
        lines = told_of(by, about)
    except MeasuredError as error:
        _tell(f"--measured: with what the file is corrected by already: {error}", err=True)
        raise typer.Exit(WORDS_FAULT) from None
    for line in lines:
        _tell(line)


def main() -> None:
    """Run the command line; letters that a terminal cannot show are replaced, never fatal."""
    # A short command leaves few cycles behind; looking for them while modules load would
    # cost a twentieth of its time.
    gc.set_threshold(50_000)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        app()
    finally:
        # As it ends, Python looks for cycles in everything that was ever loaded, which takes
        # as long as the draft itself; frozen, all of it simply goes with the process.
        gc.freeze()


if TYPE_CHECKING:
    from drafting.findings import Finding
    from drafting.printer import Printer
    from drafting.spec import PaperName
    from render.drawing import About
    from render.output import Extra, Output, Written
    from render.placement import Effort, Progress

if __name__ == "__main__":
    main()
