"""The command line at a workroom's table: what it says, what it writes, how it ends."""

import errno
import json
import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from cli import app
from tests.end_to_end.conftest import CHILD, CHORUS, EXAMPLES, ROOT, Run

PLAIN = ("--without", "booklet")
SHORT = ("--quick", "--without", "lay", "--without", "booklet")
"""What draws the pages alone and soon, where neither lay plans nor their count matter."""

DONE, WORDS_WRONG, SHEET_WRONG, FILE_WRONG, INTERRUPTED = 0, 2, 3, 4, 130

# Four circles in one panel, each a metre and a fifth long: no cloth is wide enough.
NO_SKIRT_AT_ALL = '[wearer]\nsize = "P05"\n[skirt]\nfullness = 4\nlength = "1.2 m"\npanels = 1\n'


def hemsweep(*words: str | Path) -> Result:
    """Run the command and make sure that whatever went wrong was told in plain words."""
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    assert "Traceback" not in result.output
    assert "Error(" not in result.output
    return result


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b"(folder)"
        for path in sorted(folder.rglob("*"))
    }


def sheet_of(folder: Path, text: str | bytes) -> Path:
    sheet = folder / "sheet.toml"
    sheet.write_bytes(text if isinstance(text, bytes) else text.encode())
    return sheet


# --- drafting ------------------------------------------------------------------------------


def test_a_draft_shows_its_figures_its_files_and_their_proof(run: Run) -> None:
    assert re.search(r"waist seam, flat +\d", run.said)
    assert re.search(rf"{run.pdf.name}  {run.paper['pages']} pages", run.said.replace("\n", ""))
    assert "test square 100.00 × 100.00 mm" in run.said
    assert "no scaling asked for" in run.said
    assert "fonts embedded" in run.said
    assert "-figures.json" in run.said


def test_papers_on_the_command_line_replace_the_sheets(tmp_path: Path) -> None:
    papers = ("--paper", "letter", "--paper", "a3")
    result = hemsweep("draft", CHILD, "--quick", *papers, "--out", tmp_path / "o")
    assert result.exit_code == DONE
    assert set(tree(tmp_path / "o")) == {
        "young-chorus-skirt-letter.pdf",
        "young-chorus-skirt-a3.pdf",
        "young-chorus-skirt-lay.pdf",
        "young-chorus-skirt-booklet.pdf",
        "young-chorus-skirt-booklet.html",
        "young-chorus-skirt-figures.json",
    }
    assert list(json.loads(tree(tmp_path / "o")["young-chorus-skirt-figures.json"])["paper"]) == [
        "letter",
        "a3",
    ]


def test_a_paper_may_be_written_in_any_case(tmp_path: Path) -> None:
    papers = ("--paper", "A4", "--paper", "Letter", "--paper", "A4-LETTER")
    without = ("--quick", "--without", "Lay", "--without", "BOOKLET")
    assert hemsweep("draft", CHILD, *papers, *without, "--out", tmp_path / "o").exit_code == DONE
    assert {path.name for path in (tmp_path / "o").glob("*.pdf")} == {
        "young-chorus-skirt-a4.pdf",
        "young-chorus-skirt-letter.pdf",
        "young-chorus-skirt-a4-letter.pdf",
    }


def test_an_unknown_paper_is_refused_before_anything_is_read(tmp_path: Path) -> None:
    result = hemsweep("draft", tmp_path / "none.toml", "--paper", "a5")
    assert result.exit_code == WORDS_WRONG
    assert '"a5"' in result.output
    assert "a4-letter" in result.output


def test_a_folder_named_for_the_title_is_made_where_one_stands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert hemsweep("draft", CHILD, "--quick").exit_code == DONE
    assert set(tree(tmp_path)) == {
        "young-chorus-skirt",
        "young-chorus-skirt/young-chorus-skirt-a4.pdf",
        "young-chorus-skirt/young-chorus-skirt-lay.pdf",
        "young-chorus-skirt/young-chorus-skirt-booklet.pdf",
        "young-chorus-skirt/young-chorus-skirt-booklet.html",
        "young-chorus-skirt/young-chorus-skirt-figures.json",
    }


def test_files_that_exist_are_never_written_over_without_force(tmp_path: Path) -> None:
    assert hemsweep("draft", CHILD, *SHORT, "--out", tmp_path).exit_code == DONE
    figures = tmp_path / "young-chorus-skirt-figures.json"
    figures.write_text("my own notes")
    (tmp_path / "young-chorus-skirt-a4.pdf").unlink()
    before = tree(tmp_path)
    assert set(before) == {figures.name}
    result = hemsweep("draft", CHILD, "--quick", "--out", tmp_path)
    assert result.exit_code == FILE_WRONG
    assert "young-chorus-skirt-figures.json exists already" in result.output.replace("\n", "")
    assert "--force" in result.output
    assert tree(tmp_path) == before

    assert hemsweep("draft", CHILD, "--quick", "--out", tmp_path, "--force").exit_code == DONE
    assert json.loads(figures.read_text(encoding="utf-8"))["title"] == "Young chorus skirt"
    assert set(tree(tmp_path)) == {
        figures.name,
        "young-chorus-skirt-a4.pdf",
        "young-chorus-skirt-lay.pdf",
        "young-chorus-skirt-booklet.pdf",
        "young-chorus-skirt-booklet.html",
    }


def test_another_paper_of_the_same_draft_joins_the_first(tmp_path: Path) -> None:
    assert hemsweep("draft", CHILD, "--quick", *PLAIN, "--out", tmp_path).exit_code == DONE
    first = tree(tmp_path)
    more = ("--quick", *PLAIN, "--paper", "a3", "--out", tmp_path)
    assert hemsweep("draft", CHILD, *more).exit_code == DONE
    after = tree(tmp_path)
    assert after["young-chorus-skirt-a4.pdf"] == first["young-chorus-skirt-a4.pdf"]
    papers = json.loads(after["young-chorus-skirt-figures.json"])["paper"]
    before = json.loads(first["young-chorus-skirt-figures.json"])["paper"]
    assert list(papers) == ["a4", "a3"]
    assert papers["a4"] == before["a4"]
    # The same paper once more is still written over by force alone.
    assert hemsweep("draft", CHILD, *more).exit_code == FILE_WRONG
    assert tree(tmp_path) == after
    # A paper whose pages are gone is told of no longer.
    (tmp_path / "young-chorus-skirt-a4.pdf").unlink()
    assert hemsweep("draft", CHILD, *more, "--force").exit_code == DONE
    held = json.loads(tree(tmp_path)["young-chorus-skirt-figures.json"])
    assert list(held["paper"]) == ["a3"]


def test_figures_of_another_draft_are_not_added_to(tmp_path: Path) -> None:
    assert hemsweep("draft", CHILD, "--quick", *PLAIN, "--out", tmp_path).exit_code == DONE
    other = tmp_path / "other.toml"
    shorter = CHILD.read_text(encoding="utf-8").replace('length = "36 cm"', 'length = "34 cm"')
    other.write_text(shorter, encoding="utf-8")
    before = tree(tmp_path)
    result = hemsweep("draft", other, "--quick", *PLAIN, "--paper", "a3", "--out", tmp_path)
    assert result.exit_code == FILE_WRONG
    said = result.output.replace("\n", "")
    assert "figures.json" in said and "exist already" in said
    assert tree(tmp_path) == before


def test_a_name_that_is_taken_is_told_before_the_long_work(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "young-chorus-skirt-a4.pdf").write_text("mine")
    monkeypatch.setattr("render.output.printed", lambda *_: pytest.fail("it was drawn first"))
    assert hemsweep("draft", CHILD, "--out", tmp_path).exit_code == FILE_WRONG
    assert tree(tmp_path) == {"young-chorus-skirt-a4.pdf": b"mine"}


def test_a_folder_with_other_things_in_it_will_do(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("zip: 22 cm")
    assert hemsweep("draft", CHILD, *SHORT, "--out", tmp_path).exit_code == DONE
    assert (tmp_path / "notes.txt").read_text() == "zip: 22 cm"


def test_the_same_sheet_gives_the_same_bytes_whatever_the_day(tmp_path: Path) -> None:
    # A child's skirt with a lining: two pieces to search for, and sooner found than a chorus's.
    sheet = sheet_of(tmp_path, CHILD.read_text(encoding="utf-8") + "\n[lining]\n")
    written = []
    for seed in ("1", "2"):
        out = tmp_path / seed
        subprocess.run(
            [sys.executable, "-m", "cli", "draft", str(sheet), "--out", str(out)],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": f"UTC{seed}"},
            capture_output=True,
            check=True,
        )
        written.append(tree(out))
    assert written[0] == written[1]
    assert len(written[0]) == 5


# --- what stops a draft --------------------------------------------------------------------


def test_a_finding_that_stops_writes_nothing_and_says_what_to_do(tmp_path: Path) -> None:
    sheet = sheet_of(tmp_path, NO_SKIRT_AT_ALL)
    result = hemsweep("draft", sheet, "--out", tmp_path / "out")
    assert result.exit_code == SHEET_WRONG
    assert "stop: " in result.stderr
    assert result.stdout == ""
    assert set(tree(tmp_path)) == {"sheet.toml"}


def test_figures_of_a_stopped_draft_still_come_as_json(tmp_path: Path) -> None:
    result = hemsweep("figures", sheet_of(tmp_path, NO_SKIRT_AT_ALL), "--json")
    assert result.exit_code == SHEET_WRONG
    levels = [finding["level"] for finding in json.loads(result.stdout)["findings"]]
    assert "stop" in levels


@pytest.mark.parametrize("sheet", EXAMPLES, ids=lambda path: path.stem)
def test_figures_are_json_and_write_nothing(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = hemsweep("figures", sheet, "--json")
    assert result.exit_code == DONE
    figures = json.loads(result.stdout, parse_constant=lambda word: pytest.fail(word))
    assert figures["units"] == "mm"
    assert figures["skirt"]["sweep"] > 0
    if {"hem_radius", "waist_radius"} <= set(figures["skirt"]):
        assert figures["skirt"]["hem_radius"] > figures["skirt"]["waist_radius"] > 0
    assert "paper" not in figures
    assert hemsweep("figures", sheet).exit_code == DONE
    assert not tree(tmp_path)


def test_every_fault_of_a_sheet_has_its_own_line_on_standard_error(tmp_path: Path) -> None:
    sheet = sheet_of(
        tmp_path, '[wearer]\nwaist = "740 cm"\n[skirt]\nfulness = "full"\nlength = "62"\n'
    )
    result = hemsweep("draft", sheet, "--out", tmp_path / "out")
    assert result.exit_code == SHEET_WRONG
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert len(lines) >= 3
    assert all(line.startswith("sheet.toml, line ") for line in lines)
    assert any('"fullness"' in line for line in lines)
    assert not (tmp_path / "out").exists()


SMALL = '[wearer]\nsize = "P05"\n'

BAD_SHEETS: dict[str, tuple[str | bytes, str]] = {
    "ten megabytes": (b"# " + b"x" * 10_000_000, "over 1 MB"),
    "not UTF-8": ('[wearer]\nlabel = "Zo\xeb"\n'.encode("latin-1"), "UTF-8"),
    "nothing": ("", "waist"),
    "nan": ("[wearer]\nwaist = nan\n", "waist"),
    "infinite": ('[wearer]\nwaist = "1e400 cm"\n', "waist"),
    "sixty figures": (f'[wearer]\nwaist = "{"7" * 60} cm"\n', "waist"),
    "a hem of 40 m": (SMALL + '[skirt]\nlength = "40 m"\n', "length"),
    "margins that leave nothing": (SMALL + '[print]\nmargin = "9 cm"\n', "margin"),
    "a list for a waist": ("[wearer]\nwaist = [1, 2]\n", "waist"),
    "no TOML": ("\x00\x01\x02", ""),
}


@pytest.mark.parametrize("name", BAD_SHEETS)
def test_a_bad_sheet_gets_a_plain_message_and_no_files(name: str, tmp_path: Path) -> None:
    text, word = BAD_SHEETS[name]
    result = hemsweep("draft", sheet_of(tmp_path, text), "--out", tmp_path / "out")
    assert result.exit_code == SHEET_WRONG, result.output
    assert word in result.stderr
    assert result.stderr.strip()
    assert set(tree(tmp_path)) == {"sheet.toml"}


TITLES = [
    "../../etc/cron.d/skirt",
    "/etc/passwd",
    "..",
    "CON",
    "nul.txt",
    "C:\\skirts",
    "💃🏽 skirt",
    "💃",
    "Ζωή, юбка",
    "a" * 100,
    "x; rm -rf ~",
    "%s %d {0}",
    "-rf",
    "(un)balanced \\( parens",
    "\u202eright to left",
    "Zo\u0308e\u0301 \ufb03 \u200d",
]


@pytest.mark.parametrize("title", TITLES)
def test_a_hostile_title_stays_inside_its_folder(title: str, tmp_path: Path) -> None:
    # Any letter may be written in TOML by its number, in eight figures.
    written = (
        '"'
        + "".join(
            c if c.isascii() and c.isprintable() and c not in '"\\' else f"\\U{ord(c):08x}"
            for c in title
        )
        + '"'
    )
    body = CHILD.read_text(encoding="utf-8").replace('"Young chorus skirt"', written)
    if title != TITLES[0]:
        body += '\n[print]\nscope = "card"\n'  # its files have the same names and are soon drawn
    whole = () if title == TITLES[0] else ("--without", "booklet", "--without", "lay")
    words = ("--quick", *whole, "--out", tmp_path / "a" / "b")
    result = hemsweep("draft", sheet_of(tmp_path, body), *words)
    if result.exit_code == SHEET_WRONG:
        assert "title" in result.stderr
        assert set(tree(tmp_path)) == {"sheet.toml"}
        return
    assert result.exit_code == DONE, result.output
    names = set(tree(tmp_path))
    assert len(names) == (5 if whole else 8)
    assert {"sheet.toml", "a", "a/b"} < names
    for name in names - {"sheet.toml", "a", "a/b"}:
        assert re.fullmatch(r"a/b/[a-z0-9][a-z0-9-]*\.(pdf|json|html)", name), name


def test_letters_that_no_type_has_are_replaced_and_told(tmp_path: Path) -> None:
    body = CHILD.read_text(encoding="utf-8").replace("Young chorus skirt", "Dancer 💃 skirt")
    result = hemsweep("draft", sheet_of(tmp_path, body), *SHORT, "--out", tmp_path / "out")
    assert result.exit_code == DONE
    assert "U+1F483" in result.output
    figures = json.loads((tmp_path / "out" / "dancer-skirt-figures.json").read_text("utf-8"))
    assert "letters-replaced" in [finding["code"] for finding in figures["findings"]]


# --- files and folders ---------------------------------------------------------------------


def test_a_sheet_that_is_not_there_is_named(tmp_path: Path) -> None:
    for command in ("draft", "figures"):
        result = hemsweep(command, tmp_path / "none.toml")
        assert result.exit_code == FILE_WRONG
        assert "none.toml: there is no such file" in result.stderr


def test_a_folder_is_no_sheet(tmp_path: Path) -> None:
    result = hemsweep("draft", tmp_path)
    assert result.exit_code == FILE_WRONG
    assert "it is a folder" in result.stderr


def test_a_file_where_the_folder_should_be_is_left_alone(tmp_path: Path) -> None:
    target = tmp_path / "out"
    target.write_text("not a folder")
    for out in (target, target / "deeper"):
        result = hemsweep("draft", CHILD, *SHORT, "--out", out)
        assert result.exit_code == FILE_WRONG
        assert str(target) in result.stderr.replace("\n", "")
    assert tree(tmp_path) == {"out": b"not a folder"}


def test_a_folder_of_the_files_name_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "young-chorus-skirt-a4.pdf").mkdir()
    for force in ((), ("--force",)):
        result = hemsweep("draft", CHILD, "--out", tmp_path, *force)
        assert result.exit_code == FILE_WRONG
        assert "it is a folder" in result.stderr
    assert set(tree(tmp_path)) == {"young-chorus-skirt-a4.pdf"}


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_to_is_named(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    result = hemsweep("draft", CHILD, "--out", tmp_path)
    tmp_path.chmod(0o700)
    assert result.exit_code == FILE_WRONG
    assert "you may not" in result.stderr
    assert not tree(tmp_path)


def test_a_refused_write_names_the_file_that_was_wanted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **others: Any) -> None:
        raise PermissionError(errno.EACCES, "Permission denied", f"{others['dir']}/.odd-name")

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    result = hemsweep("draft", CHILD, *SHORT, "--out", tmp_path / "out")
    assert result.exit_code == FILE_WRONG
    assert "young-chorus-skirt-a4.pdf" in result.stderr.replace("\n", "")
    assert "you may not" in result.stderr
    assert not tree(tmp_path)


@pytest.mark.skipif(sys.platform == "win32", reason="limits of a process are POSIX")
def test_a_full_disk_leaves_nothing_behind_and_loses_nothing(tmp_path: Path) -> None:
    """The system itself refuses to let any file grow past 20 kB, as a full disk would."""
    out = tmp_path / "out"
    command = [sys.executable, "-m", "cli", "draft", str(CHILD), *SHORT, "--out", str(out)]

    def small_disk() -> None:
        import resource

        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))

    full = {"cwd": ROOT, "capture_output": True, "text": True, "preexec_fn": small_disk}
    done = subprocess.run(command, check=False, **full)  # type: ignore[call-overload]
    assert done.returncode == FILE_WRONG, done.stderr
    assert "Traceback" not in done.stderr
    assert "young-chorus-skirt-a4.pdf" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert not out.exists()

    out.mkdir()
    (out / "young-chorus-skirt-a4.pdf").write_text("last season's")
    done = subprocess.run([*command, "--force"], check=False, **full)  # type: ignore[call-overload]
    assert done.returncode == FILE_WRONG, done.stderr
    assert tree(out) == {"young-chorus-skirt-a4.pdf": b"last season's"}


# --- reading back --------------------------------------------------------------------------


def test_a_written_file_proofs_true(run: Run) -> None:
    result = hemsweep("proof", run.pdf)
    assert result.exit_code == DONE
    assert "test square 100.00 × 100.00 mm" in result.stdout


def test_garbage_is_no_pattern(tmp_path: Path) -> None:
    for name, data in (
        ("noise", bytes(range(256)) * 40),
        ("empty", b""),
        ("half", b"%PDF-1.7\n1 0 obj\n<<"),
        ("words", b"%PDF-1.7\nno pattern at all\n%%EOF"),
    ):
        file = tmp_path / f"{name}.pdf"
        file.write_bytes(data)
        result = hemsweep("proof", file)
        assert result.exit_code == SHEET_WRONG, name
        assert f"{name}.pdf" in result.stderr.replace("\n", "")


def test_a_file_to_proof_must_be_there(tmp_path: Path) -> None:
    assert hemsweep("proof", tmp_path / "none.pdf").exit_code == FILE_WRONG
    assert hemsweep("proof", tmp_path).exit_code == FILE_WRONG


# --- the rest ------------------------------------------------------------------------------


def test_every_command_explains_itself() -> None:
    whole = hemsweep("--help")
    assert whole.exit_code == DONE
    for command in ("draft", "figures", "trial", "sizes", "proof"):
        assert command in whole.stdout
        result = hemsweep(command, "-h")
        assert result.exit_code == DONE
        assert "Usage" in result.stdout
    assert "hemsweep draft chorus-skirt.toml" in hemsweep("draft", "--help").stdout


def test_the_version_is_that_of_the_package() -> None:
    result = hemsweep("--version")
    assert result.exit_code == DONE
    wanted = re.search(r'^version = "(.+)"$', (ROOT / "pyproject.toml").read_text(), re.MULTILINE)
    assert wanted is not None
    assert result.stdout.strip() == f"hemsweep {wanted[1]}"


def test_wrong_words_end_with_2() -> None:
    for words in (["sew"], ["draft"], ["draft", "--size"], ["figures", "a.toml", "b.toml"]):
        assert hemsweep(*words).exit_code == WORDS_WRONG, words


def test_the_size_table_comes_in_both_units() -> None:
    for words, unit in ((["sizes"], "centimetres"), (["sizes", "--inches"], "inches")):
        result = hemsweep(*words)
        assert result.exit_code == DONE
        assert unit in result.stdout
        assert re.search(r"^P05\b", result.stdout, re.MULTILINE)


@pytest.mark.skipif(shutil.which("head") is None, reason="there is no head here")
@pytest.mark.parametrize("words", [["sizes"], ["figures", str(CHORUS), "--json"]])
def test_a_reader_that_stops_reading_is_no_fault(words: list[str]) -> None:
    command = [sys.executable, "-m", "cli", *words]
    with subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()  # gone before a word is said, the hardest case
        said = running.stderr.read()
        code = running.wait(timeout=30)
    assert said == ""
    assert code == DONE


def test_an_interrupted_draft_writes_nothing_and_ends_with_130(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    for place in ("drafting.sheet.load", "render.output.printed", "os.fsync"):
        with monkeypatch.context() as patched:
            patched.setattr(place, interrupted)
            result = hemsweep("draft", CHILD, *SHORT, "--out", tmp_path / "out")
        assert result.exit_code == INTERRUPTED
        assert "stopped" in result.output
        assert not tree(tmp_path)


def test_a_draft_interrupted_while_it_is_read_back_does_not_deny_its_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("render.output.proof", interrupted)
    result = hemsweep("draft", CHILD, "--quick", "--out", tmp_path / "out")
    assert result.exit_code == INTERRUPTED
    assert "nothing was written" not in result.output
    assert {path.suffix for path in (tmp_path / "out").iterdir()} == {".pdf", ".json", ".html"}


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437"])
def test_a_terminal_without_our_letters_still_gets_its_figures(
    encoding: str, tmp_path: Path
) -> None:
    body = CHILD.read_text(encoding="utf-8").replace("Young chorus skirt", "Юбка φ ◊ ½")
    sheet = sheet_of(tmp_path, body)
    done = subprocess.run(
        [sys.executable, "-m", "cli", "draft", str(sheet), *SHORT, "--out", str(tmp_path / "o")],
        cwd=ROOT,
        env={**os.environ, "PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
        capture_output=True,
        check=False,
    )
    assert done.returncode == DONE, done.stderr
    assert b"test square 100.00" in done.stdout


def test_no_progress_is_shown_where_nobody_watches(run: Run) -> None:
    assert "\r" not in run.said
    assert "\x1b" not in run.said


def test_a_quick_search_is_the_short_one_and_the_usual_one_saves_paper(tmp_path: Path) -> None:
    pages = {}
    for name, words in (("usual", []), ("quick", ["--quick"])):
        out = tmp_path / name
        assert (
            hemsweep(
                "draft", CHORUS, *words, "--without", "lay", "--without", "booklet", "--out", out
            ).exit_code
            == DONE
        )
        told = json.loads((out / "chorus-skirt-figures.json").read_text(encoding="utf-8"))
        pages[name] = told["paper"]["a4"]["pieces_pages"]
    assert pages["usual"] < pages["quick"]


def test_one_piece_alone_is_soon_laid_however_long_one_would_search(tmp_path: Path) -> None:
    result = hemsweep(
        "draft", CHILD, "--thorough", "--without", "lay", "--without", "booklet", "--out", tmp_path
    )
    assert result.exit_code == DONE


def test_a_search_cannot_be_both_short_and_long(tmp_path: Path) -> None:
    result = hemsweep("draft", CHILD, "--quick", "--thorough", "--out", tmp_path / "out")
    assert result.exit_code == WORDS_WRONG
    assert "--quick or --thorough" in result.stderr


OWN_SIZES = ROOT / "measurements_examples" / "own_sizes"


def test_a_size_table_of_ones_own_is_shown_and_drafted_from() -> None:
    shown = hemsweep("sizes", "--table", OWN_SIZES / "chorus-sizes.csv")
    assert shown.exit_code == DONE
    assert re.search(r"^IV +82\.0 +107\.0 +20\.8 .* 170\.0$", shown.stdout, re.MULTILINE)
    told = hemsweep("figures", OWN_SIZES / "landing-stage-skirt.toml", "--json")
    assert told.exit_code == DONE
    # A full circle about 82 cm, its ease of half a centimetre and its stretch aside.
    waistline = json.loads(told.stdout)["skirt"]["waistline"]
    assert waistline == pytest.approx(820, abs=15)


def test_a_faulty_size_table_is_told_line_by_line(tmp_path: Path) -> None:
    table = tmp_path / "ours.csv"
    table.write_text(
        "size,waist,hip,hip_depth,waist_to_knee,floor_front,floor_side,floor_back\n"
        "A,64,89,19.5,57,101.5,103,102\nB,64,97,20,58,103.5,105,none\n"
    )
    result = hemsweep("sizes", "--table", table)
    assert result.exit_code == SHEET_WRONG
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert [line.partition(" is ")[0] for line in lines] == [
        "ours.csv, line 3: floor_back",
        "ours.csv, line 3: waist",
    ]
    assert hemsweep("sizes", "--table", tmp_path / "none.csv").exit_code == FILE_WRONG
    assert hemsweep("sizes", "--table", table, "--child").exit_code == SHEET_WRONG
