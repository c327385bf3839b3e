"""A booklet with every kind of block, long and short, as the wardrobe of a theatre would have it.

Its pictures are drawn here: a strip with its length, and a skirt's quarter. Millimetres.
"""

import math
from collections.abc import Iterator

from drafting.geometry import Arc, Box, Point, rim, straight
from drafting.units import Mm
from render.booklet.model import (
    Block,
    Booklet,
    Bullets,
    Cautions,
    Paragraph,
    Section,
    Step,
    Steps,
    Table,
)
from render.drawing import Anchor, Drawing, Layer, Stroke, Text
from render.pictures.picture import SMALL_TYPE, Picture
from render.style import CUTTING, STITCHING


def strip_picture(wide: Mm = 122.0, tall: Mm = 40.0, *, left: Mm = 0.0) -> Picture:
    """Return a strip of cloth: its cut edge, its stitching line, a word along it."""
    box = Box(left=left, bottom=-5.0, right=left + wide, top=tall - 5.0)
    return Picture(
        name="ruffle-strip",
        drawing=Drawing(
            strokes=(
                Stroke(path=rim(box.grown(-1)), pen=CUTTING, layer=Layer.CUTTING),
                Stroke(
                    path=straight(Point(left + 5, 0), Point(left + wide - 5, 0)),
                    pen=STITCHING,
                    layer=Layer.STITCHING,
                ),
            ),
            texts=(
                Text(
                    text="gathering row",
                    at=Point(left + wide / 2, 2),
                    size=SMALL_TYPE,
                    anchor=Anchor.MIDDLE,
                ),
            ),
        ),
        box=box,
        caption="The ruffle's strip: gather it along the dashed row to the length of the hem.",
        alt=f"A strip {wide:g} mm long with a dashed line 5 mm above its lower edge.",
    )


def quarter_picture(tall: Mm = 100.0) -> Picture:
    """Return a quarter of a circle skirt."""
    waist, hem = (
        Arc(centre=Point(0, 0), radius=radius, begin=0.0, finish=math.pi / 2)
        for radius in (tall / 4, tall)
    )
    sides = (
        *straight(Point(tall / 4, 0), Point(tall, 0)),
        *straight(Point(0, tall / 4), Point(0, tall)),
    )
    return Picture(
        name="skirt-quarter",
        drawing=Drawing(
            strokes=tuple(
                Stroke(path=(line,), pen=CUTTING, layer=Layer.CUTTING)
                for line in (waist, hem, *sides)
            ),
            texts=(
                Text(text="waist", at=Point(tall / 4, tall / 4), size=4.0, bold=True),
                Text(text="hem", at=Point(tall / 2, tall / 2), size=SMALL_TYPE),
            ),
        ),
        box=Box(left=-1, bottom=-1, right=tall + 1, top=tall + 1),
        caption="A quarter of the skirt; its straight sides lie on the grain.",
        alt="A quarter of a ring: the waist a small arc, the hem a large one.",
    )


WORK = (
    ("tape", "Tape the waist"),
    ("sides", "Sew the side seams"),
    ("press", "Press the seams open over a sleeve board"),
    ("zip", "Set the zip into the left side seam, between the notches and the top"),
    ("lining", "Sew the lining"),
    ("ruffle", "Join the strips of the ruffle to a ring"),
    ("gather", "Gather the ruffle"),
    ("mount", "Mount the ruffle on the lining"),
    ("join", "Join lining and skirt at the waist"),
    ("band", "Put on the waistband"),
    ("hook", "Sew on hook and bar"),
    ("hang", "Hang the skirt for a night"),
    ("level", "Level the hem over ruffle and lining"),
    ("trim", "Trim the hem"),
    ("turn", "Turn the hem up"),
    ("hem", "Stitch the hem"),
    ("steam", "Steam it"),
    ("label", "Sew in the label"),
    ("try", "Try it on with the shoes"),
    ("rail", "Hand it to the rail"),
)


def work_steps() -> Steps:
    """Return twenty steps, some with cautions, pictures and times."""
    return Steps(
        steps=tuple(
            Step(
                name=name,
                title=title,
                do=(
                    f"Lay the cloth flat on the table and pin every {k} cm, right sides together. "
                    "Start at the notch and work towards the hem, so that no length creeps in.",
                    "Stitch on the line, not beside it; fasten both ends.",
                )[: 1 + k % 2],
                check=f"The seam is {40 + k} cm long, measured along the stitching.",
                cautions=("The iron marks satin: try it on a scrap.",) if k % 6 == 2 else (),
                pictures=(strip_picture(122.0 if k % 2 else 90.0),) if k % 7 == 3 else (),
                hands=5.0 * k if k != 5 else 0.0,
                first=12.0 * k if k != 6 else 0.0,
            )
            for k, (name, title) in enumerate(WORK, 1)
        )
    )


def rail_table(rows: int = 60) -> Table:
    """Return a table of many rows with two columns of figures."""
    return Table(
        caption="Skirts on the rail, by number",
        heads=("Skirt", "Waist, cm", "Length, cm", "Where it is worn"),
        rows=tuple(
            (
                f"Chorus {k}",
                f"{58 + k % 12 * 4}",
                f"{60 + k / 2:g}",
                "finale, second row, left of the bandstand" if k % 5 == 0 else "opening number",
            )
            for k in range(1, rows + 1)
        ),
        figures=(1, 2),
    )


CARE = Cautions(
    title="Fire and footlights",
    items=(
        "Net and organdy flare up at a naked flame. Keep them from candles & lamps.",
        "A hem that trails is trodden on: keep it 2 cm < the floor.",
    ),
)


DAMP = Paragraph(words="Damp it.")


def blocks() -> Iterator[Block]:
    """Yield one of each kind of block."""
    yield Paragraph(words="Read all of it before you cut. The chorus dresses in nine minutes.")
    yield Bullets(
        items=(
            "Wash and press the cloth as the finished skirt will be washed.",
            "Cut lining and ruffle from what is left of the bolt, along the selvedge.",
        )
    )
    yield CARE
    yield rail_table(3)
    yield quarter_picture(60)


def sample(*, rows: int = 60, language: str = "en") -> Booklet:
    """Return a booklet of some two dozen pages."""
    long = " ".join(
        f"On evening {k} the wind comes off the pier and lifts every hem in the front row."
        for k in range(1, 60)
    )
    return Booklet(
        title="Chorus skirt",
        subtitle="A full circle with a stiff ruffle, for the summer season",
        facts=(
            "Waist 71.5 cm, length 62 cm",
            "Edition 3, first sheet of the season",
            "Made for the wardrobe by the cutting table",
            "May be copied for the house",
        ),
        cover=quarter_picture(80),
        language=language,
        author="Wardrobe, Pier Theatre",
        subject="How the chorus skirt is sewn",
        sections=(
            Section(name="before", title="Before you begin", blocks=tuple(blocks())),
            Section(
                name="cloth",
                title="Cloth",
                blocks=(
                    Section(
                        name="washing",
                        title="Washing it",
                        blocks=(
                            Paragraph(words="Wash it once, warm."),
                            Section(
                                name="wool", title="Wool", blocks=(Paragraph(words="Damp it."),)
                            ),
                        ),
                    ),
                    Section(name="grain", title="Finding the grain", blocks=(strip_picture(),)),
                ),
            ),
            Section(name="work", title="The work", blocks=(work_steps(),)),
            Section(name="rail", title="The rail", blocks=(rail_table(rows),)),
            Section(name="empty", title="Left out this season", blocks=()),
            Section(name="wind", title="Wind", blocks=(Paragraph(words=long), *blocks())),
            Section(
                name="wide",
                title="Many columns",
                blocks=(
                    Table(
                        caption="Girths by size, cm",
                        heads=("Size", *(f"P{k:02d}" for k in range(1, 11))),
                        rows=(
                            ("Waist", *(str(54 + 4 * k) for k in range(1, 11))),
                            ("Hip at its fullest", *(str(80 + 4 * k) for k in range(1, 11))),
                        ),
                        figures=tuple(range(1, 11)),
                    ),
                    quarter_picture(118),
                    Paragraph(words="That is all. Sweep the table."),
                ),
            ),
        ),
    )
