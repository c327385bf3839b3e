"""Whole commands against a floor measured in the same run: python benchmarks/commands.py

Two ratios, each the median over paired runs, so that a machine whose speed drifts does not
matter. The floor of `figures` is a process that imports typer, pydantic and pint with our unit
file, reads one length and ends. The floor of `draft` is the same process which then writes
the operators of the drafted file's pages on one page with reportlab.
"""

import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import drafting
from drafting.geometry import Arc
from drafting.spec import PaperName
from render.fonts import printable
from render.pages import printed

ROOT = Path(__file__).resolve().parent.parent
SHEET = ROOT / "measurements_examples" / "chorus-skirt.toml"
RUNS = 15

READ_ONE_LENGTH = """
import typer
from pydantic import BaseModel
import pint
units = pint.UnitRegistry({units!r})
print(units.Quantity(74, "cm").m_as("mm"))
"""

WRITE_OPERATORS = """
import io, json
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
for name, path in {fonts!r}.items():
    pdfmetrics.registerFont(TTFont(name, path))
canvas = Canvas({out!r}, pagesize=(595.2756, 841.8898), invariant=1, pageCompression=1)
with open({operators!r}) as held:
    operators = json.load(held)
for kind, *rest in operators:
    if kind == "text":
        font, size, x, y, words = rest
        line = canvas.beginText()
        line.setFont(font, size)
        line.setTextTransform(1, 0, 0, 1, x, y)
        line.textOut(words)
        canvas.drawText(line)
    else:
        width, dash, parts = rest
        canvas.setLineWidth(width)
        canvas.setDash(dash)
        path = canvas.beginPath()
        for name, *numbers in parts:
            getattr(path, name)(*numbers)
        canvas.drawPath(path, stroke=1, fill=0)
canvas.save()
"""


def operators() -> list[list[Any]]:
    """Return the strokes and texts of the first example's pages as plain lists."""
    pattern = drafting.draft(drafting.load(SHEET))
    found: list[list[Any]] = []
    for page in printed(pattern, PaperName.A4).document.pages:
        for stroke in page.drawing.strokes:
            start = stroke.path[0].start
            parts: list[list[Any]] = [["moveTo", start.x, start.y]]
            for segment in stroke.path:
                end = segment.end
                if isinstance(segment, Arc):
                    parts.append(["curveTo", start.x, start.y, end.x, end.y, end.x, end.y])
                else:
                    parts.append(["lineTo", end.x, end.y])
                start = end
            found.append(["stroke", stroke.pen.width, list(stroke.pen.dash), parts])
        for text in page.drawing.texts:
            name = "FiraSans-SemiBold" if text.bold else "FiraSans"
            found.append(["text", name, text.size, text.at.x, text.at.y, printable(text.text)])
    return found


def seconds(command: list[str]) -> float:
    """Return how long one process takes from start to end."""
    began = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return time.perf_counter() - began


def ratio(command: list[str], floor: list[str]) -> tuple[float, float, float]:
    """Return the median ratio of paired runs, and the median seconds of both."""
    seconds(command), seconds(floor)
    pairs = [(seconds(command), seconds(floor)) for _ in range(RUNS)]
    return (
        statistics.median(mine / base for mine, base in pairs),
        statistics.median(mine for mine, _ in pairs),
        statistics.median(base for _, base in pairs),
    )


def main() -> None:
    """Print the ratios. A draft lays cloth, and a usual one searches too, which no floor does."""
    import fontpkg_fira_sans

    python = sys.executable
    fonts = Path(fontpkg_fira_sans.__file__).parent / "files"
    read = READ_ONE_LENGTH.format(units=str(ROOT / "drafting" / "units.txt"))
    with tempfile.TemporaryDirectory() as folder:
        held = Path(folder) / "operators.json"
        held.write_text(json.dumps(operators()))
        write = read + WRITE_OPERATORS.format(
            fonts={
                "FiraSans": str(fonts / "FiraSans-Regular.ttf"),
                "FiraSans-SemiBold": str(fonts / "FiraSans-SemiBold.ttf"),
            },
            out=str(Path(folder) / "floor.pdf"),
            operators=str(held),
        )
        start = [python, "-m", "cli"]
        draft = [*start, "draft", str(SHEET), "--paper", "a4", "--force", "--out", folder]
        rows = (
            ("hemsweep figures", [*start, "figures", str(SHEET)], [python, "-c", read], 1.4),
            (
                "hemsweep draft --quick --without lay",
                [*draft, "--quick", "--without", "lay", "--without", "booklet"],
                [python, "-c", write],
                2.5,
            ),
            ("hemsweep draft --quick", [*draft, "--quick"], [python, "-c", write], None),
            ("hemsweep draft", draft, [python, "-c", write], None),
        )
        for name, command, floor, aim in rows:
            found, mine, base = ratio(command, floor)
            print(
                f"{name}: {found:.2f} times its floor ({f'aim {aim}' if aim else 'no aim'});"
                f" medians of {RUNS} paired"
                f" runs: {mine * 1000:.0f} ms over {base * 1000:.0f} ms"
            )


if __name__ == "__main__":
    main()
