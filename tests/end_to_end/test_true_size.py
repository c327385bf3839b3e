"""The written PDFs, measured: taped together in memory, every line must lie where it should.

Read with pikepdf; the true lines come from school geometry and the figures file, the kinds
of line from the printed key: cutting lines solid and 0.7 mm, stitching lines 6 on 3 off.
"""

import math
from collections.abc import Callable, Iterator
from itertools import groupby
from typing import Any

import pikepdf
import pypdfium2
import pytest

from tests.end_to_end.conftest import Run
from tests.end_to_end.pdf_ink import MM, Leaf
from tests.end_to_end.true_shape import Near, Sector, Spot, Walk, runs, turned

CUTTING = (0.7, ())
STITCHING = (0.35, (6.0, 3.0))
RUFFLE = (0.5, (10.0, 2.5, 1.0, 2.5))

# What the project's page sizes must be: ISO 216, and ANSI/ASME Y14.1 and US Legal in inches.
PAPERS = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
    "a4-letter": (210.0, 11 * 25.4),
}

# What a hem takes unless the sheet says otherwise: turned twice by 6 mm, or rolled.
HEMS = {"narrow": 12.0, "rolled": 4.0}

# How far the hem of a full circle of 650 for a waist of 720 drops on the bias, by its cloth.
DROPS = {
    "": 7.0,
    "cotton sateen": 7.0,
    "cotton lawn": 7.0,
    "cotton batiste": 7.0,
    "cotton poplin": 3.0,
    "silk taffeta": 3.0,
    "wool crepe": 15.0,
    "satin-backed crepe": 28.0,
    "viscose": 28.0,
}

WITHIN = 0.05


def mm(text: str) -> float:
    """Read the few plain lengths that the examples' allowances are written in."""
    number, unit = text.rsplit(" ", 1)
    value = sum(
        float(a) / float(b or 1) for a, _, b in (part.partition("/") for part in number.split())
    )
    return value * {"mm": 1.0, "cm": 10.0, "in": 25.4}[unit]


def pull(inner: float, outer: float) -> float:
    """Return how much a sector stretches under its own weight: R2/2 ln(R/r) - (R2 - r2)/4."""
    return outer**2 / 2 * math.log(outer / inner) - (outer**2 - inner**2) / 4


def spare(kind: str, inner: float, outer: float) -> float:
    """Return the spare below a hem that the sheet leaves open: its drop, to the next mm."""
    known = 720 / math.tau
    drop = DROPS[kind] * pull(inner, outer) / pull(known, known + 650)
    # Less than a millimetre cannot be told from the chalk.
    return float(math.ceil(drop)) if drop >= 1 else 0.0


def sectors(run: Run) -> dict[str, tuple[Sector, dict[str, Any]]]:
    """Return the true shape of every printed piece, with where it lies on the plane."""
    given = {
        key: mm(text) for key, text in run.sheet.get("skirt", {}).get("allowances", {}).items()
    }
    waist, side = given.get("waist", 10.0), given.get("side", 15.0)
    hems = {"lining": HEMS["narrow"], "facing": 0.0}
    hems["skirt"] = given.get("hem", HEMS[run.sheet.get("skirt", {}).get("hem", "narrow")])
    found = {}
    for placed in run.paper["pieces"]:
        part = placed["piece"].removesuffix(" panel")
        cloth = run.sheet.get("cloth", {}).get("lining" if part == "lining" else "skirt", {})
        half = bool(cloth.get("fold", False))
        figures = run.figures[part]
        panels = figures["panels"]
        fullness = run.figures["skirt" if part == "facing" else part]["fullness"]
        whole = 2 * math.pi * fullness / panels
        hem = hems[part]
        if part == "lining" or (part == "skirt" and "hem" not in given):
            # Who gives the hem's allowance says how much cloth lies below the hem.
            hem += spare(cloth.get("kind", ""), figures["waist_radius"], figures["hem_radius"])
        found[placed["piece"]] = (
            Sector(
                inner=figures["waist_radius"],
                outer=figures["outer_radius"] if part == "facing" else figures["hem_radius"],
                angle=whole / 2 if half else whole,
                half=half,
                waist=waist,
                side=side,
                hem=hem,
                raw=part == "facing",
            ),
            placed,
        )
    return found


def on_plane(walk: Walk, placed: dict[str, Any]) -> Walk:
    return turned(walk, math.radians(placed["turn"]), placed["x"], placed["y"])


def tiles(run: Run) -> Iterator[tuple[dict[str, Any], Leaf]]:
    for tile in run.paper["tiles"]:
        yield tile, run.leaves[tile["page"] - 1]


def taped(run: Run, width: float, dash: tuple[float, ...]) -> Iterator[tuple[Spot, Spot]]:
    """Yield the ink of one kind of line, its pages laid where the figures say they lie."""
    left, bottom = run.paper["window"][:2]
    for tile, leaf in tiles(run):
        dx, dy = tile["x"] - left, tile["y"] - bottom
        for stroke in leaf.strokes:
            if stroke.is_drawn_with(width, dash):
                for (ax, ay), (bx, by) in stroke.ink():
                    yield (ax + dx, ay + dy), (bx + dx, by + dy)


def middle(run: tuple[Spot, Spot]) -> Spot:
    return (run[0][0] + run[1][0]) / 2, (run[0][1] + run[1][1]) / 2


def true_cut(run: Run) -> list[Walk]:
    return [
        on_plane(walk, placed)
        for sector, placed in sectors(run).values()
        for walk in sector.cut().values()
    ]


def true_stitching(run: Run) -> list[tuple[str, Walk]]:
    return [
        (f"{name}, {edge}", on_plane(walk, placed))
        for name, (sector, placed) in sectors(run).items()
        for edge, walk in sector.stitched().items()
    ]


def test_every_panel_of_the_garment_is_on_the_pages(plain: Run) -> None:
    wanted = {"skirt panel"}
    wanted |= {"lining panel"} if "lining" in plain.sheet else set()
    wanted |= {"facing"} if plain.sheet.get("skirt", {}).get("waist_finish") == "facing" else set()
    assert {placed["piece"] for placed in plain.paper["pieces"]} == wanted


def test_no_cutting_line_is_drawn_astray(plain: Run) -> None:
    truth = Near(runs(true_cut(plain)))
    drawn = list(taped(plain, *CUTTING))
    assert len(drawn) > 100
    worst = max(max(truth.off(spot) for spot in (*ink, middle(ink))) for ink in drawn)
    assert worst < WITHIN


def test_the_cutting_line_is_whole_across_every_join(plain: Run) -> None:
    ink = Near(taped(plain, *CUTTING))
    for walk in true_cut(plain):
        gone = [spot for spot in walk if not ink.off(spot) < WITHIN]
        assert not gone, f"{len(gone)} of {len(walk)} points are on no page, such as {gone[0]}"


def test_no_stitching_line_is_drawn_astray(plain: Run) -> None:
    truth = Near(runs(walk for _, walk in true_stitching(plain)))
    worst = max(
        max(truth.off(spot) for spot in (*ink, middle(ink))) for ink in taped(plain, *STITCHING)
    )
    assert worst < WITHIN


def test_dashes_keep_their_beat_along_every_seam_and_across_every_join(plain: Run) -> None:
    ink = Near(taped(plain, *STITCHING))
    for name, walk in true_stitching(plain):
        step = math.dist(walk[0], walk[1])
        # The corners are left out: there the next edge begins with a dash of its own.
        marks = [ink.off(spot) < WITHIN for spot in walk[1:-2]]
        stretches = [(on, len(list(held)) * step) for on, held in groupby(marks)]
        assert stretches[0][0] or stretches[-1][0], f"{name} begins at neither end with a dash"
        assert max(stretches[0][1], stretches[-1][1]) < 7.2
        for on, long in stretches[1:-1]:
            want = 6.0 if on else 3.0
            assert want - 1.2 < long < want + 1.2, f"{name}: {'dash' if on else 'gap'} of {long}"
        drawn = sum(long for on, long in stretches if on) / sum(long for _, long in stretches)
        assert drawn > 0.6, name


def test_the_ruffles_line_lies_on_the_lining_where_the_figures_say(plain: Run) -> None:
    if "ruffle" not in plain.sheet:
        assert not list(taped(plain, *RUFFLE))
        return
    sector, placed = sectors(plain)["lining panel"]
    radius = plain.figures["ruffle"]["line_radius"]
    cx, cy = placed["x"], placed["y"]
    drawn = list(taped(plain, *RUFFLE))
    assert drawn
    for spot in (end for ink in drawn for end in ink):
        assert abs(math.dist(spot, (cx, cy)) - radius) < WITHIN
    angles = [
        (math.atan2(y - cy, x - cx) - math.radians(placed["turn"]) + 0.1) % math.tau - 0.1
        for ink in drawn
        for x, y in ink
    ]
    assert min(angles) > -1e-3
    assert max(angles) < sector.angle + 1e-3
    assert max(angles) - min(angles) > sector.angle - 12 / radius


def squares(leaf: Leaf) -> list[tuple[float, float, float, float]]:
    """Return left, bottom, right, top of every closed outline of four upright or level lines."""
    found = []
    for stroke in leaf.strokes:
        corners = stroke.points[:4]
        if not (stroke.closed and len({*stroke.points}) == 4):
            continue
        pairs = zip(corners, corners[1:] + corners[:1], strict=True)
        if all(min(abs(a[0] - b[0]), abs(a[1] - b[1])) < 1e-3 for a, b in pairs):
            xs, ys = zip(*corners, strict=True)
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def the_square(leaf: Leaf) -> tuple[float, float, float, float]:
    """Return the one outline on a page that is about a 100 mm square."""
    (square,) = (
        box
        for box in squares(leaf)
        if (box[2] - box[0], box[3] - box[1]) == pytest.approx((100.0, 100.0), abs=5)
    )
    return square


def test_the_test_square_measures_100_mm(run: Run) -> None:
    left, bottom, right, top = the_square(run.leaves[0])
    assert right - left == pytest.approx(100.0, abs=0.02)
    assert top - bottom == pytest.approx(100.0, abs=0.02)


def long_rules(leaf: Leaf) -> tuple[float, float]:
    across, up = 0.0, 0.0
    for stroke in leaf.strokes:
        if stroke.is_drawn_with(0.35) and len(stroke.points) == 2:
            (ax, ay), (bx, by) = stroke.points
            if abs(ay - by) < 1e-6:
                across = max(across, abs(ax - bx))
            if abs(ax - bx) < 1e-6:
                up = max(up, abs(ay - by))
    return across, up


def test_the_long_rules_are_as_long_as_they_say(run: Run) -> None:
    across, up = long_rules(run.leaves[0])
    words = page_text(run, 0)
    assert f"this rule is {across:.0f} mm long" in words
    assert f"this rule is {up:.0f} mm long" in words
    assert across == pytest.approx(round(across), abs=0.02)
    assert up == pytest.approx(round(up), abs=0.02)
    width, height = run.paper["page"]
    assert across > width - 50
    assert up > height - 60


def page_text(run: Run, index: int) -> str:
    pdf = pypdfium2.PdfDocument(run.pdf)
    try:
        text: str = pdf[index].get_textpage().get_text_range()
        return text.replace("\r\n", "\n")
    finally:
        pdf.close()


def test_pages_have_the_papers_size_and_one_window(run: Run) -> None:
    (name,) = run.figures["paper"]
    left, bottom, width, height = run.paper["window"]
    for leaf in run.leaves:
        assert (leaf.width, leaf.height) == pytest.approx(PAPERS[name], abs=0.005)
        assert leaf.window == pytest.approx((left, bottom, left + width, bottom + height), abs=0.01)
    assert run.paper["page"] == pytest.approx(PAPERS[name], abs=0.001)
    assert len(run.leaves) == run.paper["pages"]
    assert left >= 10
    assert bottom >= 10


def test_a_page_bears_the_name_that_the_map_gives_it(run: Run) -> None:
    ticket = "\n".join(page_text(run, k) for k in range(run.paper["tiles"][0]["page"] - 1))
    for tile in run.paper["tiles"][:: max(1, len(run.paper["tiles"]) // 6)]:
        assert tile["name"] in page_text(run, tile["page"] - 1)
    for tile in run.paper["tiles"]:
        assert tile["name"] in ticket.split()


# Sides of a page, as steps of row and column to what lies there; rows are counted downwards.
SIDES = {"left": (0, -1), "right": (0, 1), "top": (-1, 0), "bottom": (1, 0)}


def cut_sides(run: Run) -> Iterator[tuple[Leaf, dict[str, bool]]]:
    """Yield the pages, each with whether it is cut along each of its window's sides.

    With an overlap a page is cut at the left and the top and laid on its neighbour there;
    without one both pages of a join are cut, and butted.
    """
    taken = {(tile["row"], tile["column"]) for tile in run.paper["tiles"]}
    sides = set(SIDES) if run.paper["overlap"] == 0 else {"left", "top"}
    for tile, leaf in tiles(run):
        yield (
            leaf,
            {
                side: side in sides and (tile["row"] + down, tile["column"] + across) in taken
                for side, (down, across) in SIDES.items()
            },
        )


def visible_along(leaf: Leaf, side: str) -> float:
    """Return how wide a solid line shows along the whole of a window's side, 0 for none."""
    left, bottom, right, top = leaf.window
    across = side in {"top", "bottom"}
    at = {"left": left, "bottom": bottom, "right": right, "top": top}[side]
    low, high = (left, right) if across else (bottom, top)
    best = 0.0
    for stroke in leaf.strokes:
        if stroke.dash or len(stroke.points) != 2:
            continue
        (ax, ay), (bx, by) = stroke.points
        one, other = (ay, by) if across else (ax, bx)
        begin, end = sorted((ax, bx) if across else (ay, by))
        if max(abs(one - at), abs(other - at)) > 0.01 or begin > low + 0.01 or end < high - 0.01:
            continue
        inner, outer = (stroke.clip[1], stroke.clip[3]) if across else stroke.clip[::2]
        shown = min(at + stroke.width / 2, outer) - max(at - stroke.width / 2, inner)
        best = max(best, shown)
    return best


def test_every_side_that_scissors_follow_bears_a_solid_line_and_no_other_does(run: Run) -> None:
    found = 0
    for leaf, cut in cut_sides(run):
        for side, wanted in cut.items():
            shown = visible_along(leaf, side)
            assert (shown >= 0.2) if wanted else (shown == 0), side
            found += wanted
    joins = sum(
        (tile["row"] + down, tile["column"] + across) == (other["row"], other["column"])
        for tile in run.paper["tiles"]
        for other in run.paper["tiles"]
        for down, across in ((0, 1), (1, 0))
    )
    assert found == joins * (2 if run.paper["overlap"] == 0 else 1)


def test_a_page_that_is_butted_on_all_sides_shows_its_four_lines_in_another_program(
    run_of: Callable[[str], Run],
) -> None:
    """Look for dark pixels just inside the window, as pdfium paints the page at 300 dpi."""
    run = run_of("butt joins")
    number, leaf = next(
        (tile["page"], leaf)
        for tile, (leaf, cut) in zip(run.paper["tiles"], cut_sides(run), strict=True)
        if all(cut.values())
    )
    pdf = pypdfium2.PdfDocument(run.pdf)
    try:
        bitmap = pdf[number - 1].render(scale=300 / 72, grayscale=True)
        width, height, stride = int(bitmap.width), int(bitmap.height), int(bitmap.stride)
        pixels = bytes(bitmap.buffer)
    finally:
        pdf.close()
    left, bottom, right, top = leaf.window

    def darkest(x: float, y: float) -> int:
        """Return the darkest pixel within 0.2 mm of a place of the page."""
        column, row = x / leaf.width * width, (1 - y / leaf.height) * height
        near = [(int(column + i), int(row + j)) for i in (-2, 0, 2) for j in (-2, 0, 2)]
        return min(pixels[y * stride + x] for x, y in near)

    for k in range(1, 50):
        x, y = left + (right - left) * k / 50, bottom + (top - bottom) * k / 50
        for spot in ((left + 0.1, y), (right - 0.1, y), (x, bottom + 0.1), (x, top - 0.1)):
            assert darkest(*spot) < 110, spot


def inside(sector: Sector, x: float, y: float) -> bool:
    """Tell whether a point of the piece's frame lies within its finished shape."""
    return (
        sector.inner <= math.hypot(x, y) <= sector.outer
        and 0 <= math.atan2(y, x) % math.tau <= sector.angle
    )


def test_no_page_is_without_a_part_of_a_piece(plain: Run) -> None:
    _, _, width, height = plain.paper["window"]
    outline = Near(runs(true_cut(plain)))
    for tile in plain.paper["tiles"]:
        spots = [
            (tile["x"] + i * 2.0, tile["y"] + j * 2.0)
            for i in range(int(width / 2) + 1)
            for j in range(int(height / 2) + 1)
        ]
        held = any(outline.off(spot) < math.inf for spot in spots)
        for sector, placed in sectors(plain).values():
            back = turned(
                ((x - placed["x"], y - placed["y"]) for x, y in spots),
                -math.radians(placed["turn"]),
            )
            held = held or any(inside(sector, x, y) for x, y in back)
        assert held, f"{tile['name']} is blank"


def test_every_part_of_every_piece_is_on_some_page(plain: Run) -> None:
    _, _, width, height = plain.paper["window"]
    places = [(tile["x"], tile["y"]) for tile in plain.paper["tiles"]]
    for sector, placed in sectors(plain).values():
        for k in range(1, 40):
            radius = sector.inner + (sector.outer - sector.inner) * k / 40
            for m in range(1, 60):
                angle = sector.angle * m / 60
                spot = (radius * math.cos(angle), radius * math.sin(angle))
                ((x, y),) = on_plane((spot,), placed)
                assert any(
                    a - 1e-6 <= x <= a + width + 1e-6 and b - 1e-6 <= y <= b + height + 1e-6
                    for a, b in places
                )


def test_pieces_keep_scissors_room_from_each_other(plain: Run) -> None:
    walks = {
        name: [on_plane(walk, placed) for walk in sector.cut().values()]
        for name, (sector, placed) in sectors(plain).items()
    }
    names = sorted(walks)
    for k, name in enumerate(names):
        mine = [spot for walk in walks[name] for spot in walk[::4]]
        for other in names[k + 1 :]:
            theirs = [spot for walk in walks[other] for spot in walk[::4]]
            nearest = min(math.dist(a, b) for a in mine[::3] for b in theirs[::3])
            assert nearest > 5.0, f"{name} and {other}"


def test_the_square_stays_true_when_another_program_shows_it(run: Run) -> None:
    """Find the square's black sides in the first page as pdfium paints it at 300 dpi."""
    leaf = run.leaves[0]
    left, bottom, right, top = the_square(leaf)
    pdf = pypdfium2.PdfDocument(run.pdf)
    try:
        bitmap = pdf[0].render(scale=300 / 72, grayscale=True)
        width, height, stride = bitmap.width, bitmap.height, bitmap.stride
        pixels = bytes(bitmap.buffer)
    finally:
        pdf.close()
    # pdfium rounds the bitmap up, so a millimetre is measured from the bitmap itself.
    across, down = width / leaf.width, height / leaf.height
    y, x = int((leaf.height - bottom - 40) * down), int((left + 10) * across)
    row, column = pixels[y * stride : y * stride + width], pixels[x : height * stride : stride]
    wide = dark_middle(row, right * across) - dark_middle(row, left * across)
    high = dark_middle(column, (leaf.height - bottom) * down) - dark_middle(
        column, (leaf.height - top) * down
    )
    assert wide / across == pytest.approx(100.0, abs=0.1)
    assert high / down == pytest.approx(100.0, abs=0.1)


def dark_middle(line: bytes, near: float) -> float:
    """Return the centre of the darkness within a millimetre of a place, in pixels."""
    low, high = int(near - 10), int(near + 11)
    weights = [(255 - line[k], k + 0.5) for k in range(low, high)]
    total = sum(weight for weight, _ in weights)
    assert total > 255, "there is no line"
    return sum(weight * at for weight, at in weights) / total


def test_a_point_is_a_72nd_of_an_inch(run: Run) -> None:
    with pikepdf.open(run.pdf) as pdf:
        box = [float(side) for side in pdf.pages[0].mediabox.as_list()]
    assert box[2] * 25.4 / 72 == pytest.approx(run.paper["page"][0], abs=0.005)
    assert pytest.approx(0.352777, abs=1e-6) == MM
