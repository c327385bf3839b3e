"""The file for a projector: what it is calibrated by is true, lines are bold, pieces are whole."""

import io
import itertools
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
import shapely

from drafting.geometry import flattened
from drafting.pattern import Pattern, draft
from drafting.piece import cutting_line
from drafting.sheet import read_sheet
from drafting.spec import PaperName, Scope
from render.drawing import Kind, Layer, Page
from render.output import paper_figures
from render.pages import Printed, printed
from render.paper import PaperError
from render.pdf import pdf_bytes
from render.proof import proof
from render.resized import resized
from tests.end_to_end.pdf_ink import MM, Leaf, Stroke, leaves
from tests.garments import STRIPS_ALONE
from tests.render.looks import looks

NAMES = ("chorus-skirt", "twirl-skirt", "young-chorus-skirt", "character-skirt")


@pytest.fixture(params=NAMES)
def name(request: pytest.FixtureRequest) -> str:
    held: str = request.param
    return held


@pytest.fixture
def pattern(name: str, pattern_of: Callable[[str], Pattern]) -> Pattern:
    return pattern_of(name)


@pytest.fixture
def shown(name: str, layout_of: Callable[..., Printed]) -> Printed:
    return layout_of(name, PaperName.PROJECTOR)


@pytest.fixture
def pages(shown: Printed, tmp_path: Path) -> tuple[Leaf, ...]:
    file = tmp_path / "projector.pdf"
    file.write_bytes(pdf_bytes(shown.document))
    return leaves(file)


def box(stroke: Stroke) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in stroke.points], [y for _, y in stroke.points]
    return min(xs), min(ys), max(xs), max(ys)


def levels(leaf: Leaf, width: float) -> tuple[list[float], list[float]]:
    """Return where upright and level lines of a width stand, sorted."""
    across: set[float] = set()
    up: set[float] = set()
    for stroke in leaf.strokes:
        if abs(stroke.width - width) > 0.002 or len(stroke.points) != 2:
            continue
        left, bottom, right, top = box(stroke)
        if right - left < 1e-3:
            across.add(round(left, 2))
        if top - bottom < 1e-3:
            up.add(round(bottom, 2))
    return sorted(across), sorted(up)


def test_a_projectors_file_begins_with_the_calibration_and_ends_with_the_ticket(
    shown: Printed,
) -> None:
    layout = shown
    labels = [page.label for page in layout.document.pages]
    drawn = [placement.piece.name for placement in layout.sheets.placements]
    assert labels[:2] == ["calibration", "all pieces"]
    assert [label.split()[0] for label in labels[2:]] == ["piece"] * len(drawn) + ["ticket"] * (
        len(labels) - 2 - len(drawn)
    )
    assert labels[-1].startswith("ticket")
    found = [page.bookmark for page in layout.document.pages[2 : 2 + len(drawn)]]
    assert found == drawn
    assert layout.document.about.kind is Kind.PROJECTOR


def test_the_frame_is_900_by_600_with_a_line_each_50_mm(pages: tuple[Leaf, ...]) -> None:
    first = pages[0]
    (frame,) = [stroke for stroke in first.strokes if stroke.closed]
    left, bottom, right, top = box(frame)
    assert (right - left, top - bottom) == pytest.approx((900, 600), abs=0.01)
    lines = [box(s) for s in first.strokes if not s.closed and math.dist(*s.points) > 500]
    inner = sorted(round(line[0] - left, 2) for line in lines if line[2] - line[0] < 1e-3)
    assert inner == pytest.approx([50 * k for k in range(1, 18)], abs=0.01)
    level = sorted(round(line[1] - bottom, 2) for line in lines if line[3] - line[1] < 1e-3)
    assert level == pytest.approx([50 * k for k in range(1, 12)], abs=0.01)
    # Every second line, at 100 mm, is bolder and unbroken.
    for stroke in first.strokes:
        one = box(stroke)
        if stroke.closed or one not in lines:
            continue
        along = one[0] - left if one[2] - one[0] < 1e-3 else one[1] - bottom
        hundred = abs(along / 100 - round(along / 100)) < 1e-3
        assert (stroke.width >= 1.9 and not stroke.dash) is hundred
    # A cross over each corner: two arms that go on outside the frame.
    arms = [box(s) for s in first.strokes if not s.closed and math.dist(*s.points) < 50]
    for x, y in itertools.product((left, right), (bottom, top)):
        spot = shapely.Point(x, y)
        meeting = [arm for arm in arms if shapely.box(*arm).distance(spot) < 0.01]
        assert len(meeting) == 2


def test_the_frames_measures_are_written_and_the_steps_are_large(shown: Printed) -> None:
    first = shown.document.pages[0]
    words = " ".join(text.text for text in first.drawing.texts)
    assert "across (X): 900 mm" in words
    assert "up (Y): 600 mm" in words
    assert "1082 mm" in words  # the diagonal: 900 and 600 at right angles
    assert "mat" in words
    assert min(text.size for text in first.drawing.texts) >= 12


def test_every_line_of_a_piece_is_bold_and_stitching_is_dashed(
    shown: Printed, pages: tuple[Leaf, ...]
) -> None:
    count = len(shown.sheets.placements)
    for leaf in pages[1 : 2 + count]:
        drawn = [stroke for stroke in leaf.strokes if abs(stroke.width - 0.8) > 0.002]
        assert drawn
        assert all(1.2 - 1e-6 <= stroke.width <= 2.0 + 1e-6 for stroke in drawn)
        # The rhythm of the paper's stitching line, 6 and 3 mm, twice as long.
        assert any(stroke.dash == pytest.approx((12.0, 6.0)) for stroke in drawn)
        assert any(stroke.width == pytest.approx(2.0) and not stroke.dash for stroke in drawn)


def test_pieces_are_drawn_whole_and_at_true_size(shown: Printed, pages: tuple[Leaf, ...]) -> None:
    layout = shown
    placed = []
    for placement in layout.sheets.placements:
        polygon = shapely.Polygon(flattened(cutting_line(placement.piece)))
        turned = shapely.affinity.rotate(polygon, placement.turn, origin=(0, 0), use_radians=True)
        placed.append(shapely.affinity.translate(turned, placement.x, placement.y))
    outlines = [s for s in pages[1].strokes if s.closed and s.is_drawn_with(2.0)]
    assert len(outlines) == len(placed)
    for one in placed:
        assert shapely.box(*pages[1].window).contains(one)
        near = min(
            shapely.hausdorff_distance(one.exterior, shapely.LinearRing(s.points)) for s in outlines
        )
        assert near < 0.05
    for one, other in itertools.combinations(placed, 2):
        assert one.distance(other) >= 20
    for k, one in enumerate(placed):
        leaf = pages[2 + k]
        (outline,) = [s for s in leaf.strokes if s.closed and s.is_drawn_with(2.0)]
        alone = shapely.Polygon(outline.points)
        assert alone.area == pytest.approx(one.area, rel=1e-4)
        assert shapely.box(*leaf.window).contains(alone)


def test_the_grain_of_every_piece_lies_along_the_table(shown: Printed) -> None:
    for placement in shown.sheets.placements:
        (ax, ay), (bx, by) = placement.piece.grainline
        angle = math.atan2(by - ay, bx - ax) + placement.turn
        assert math.sin(angle) == pytest.approx(0, abs=1e-9)


def test_the_grid_measures_100_mm_on_every_page_of_pieces(
    shown: Printed, pages: tuple[Leaf, ...]
) -> None:
    for leaf in pages[1 : 2 + len(shown.sheets.placements)]:
        across, up = levels(leaf, 0.8)
        for lines in (across, up):
            steps = [b - a for a, b in itertools.pairwise(lines)]
            assert steps
            assert steps == pytest.approx([100.0] * len(steps), abs=0.011)


def test_the_grid_is_a_layer_that_pdfium_hides(shown: Printed) -> None:
    data = pdf_bytes(shown.document)
    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(data)) as pdf:
        (group,) = (g for g in pdf.Root.OCProperties.OCGs if str(g.Name) == "grid")
        pdf.Root.OCProperties.D.OFF = pikepdf.Array([group])
        pdf.save(out)
    greys = []
    for one in (data, out.getvalue()):
        document = pypdfium2.PdfDocument(one)
        page = document[1]
        wide = page.get_width() * MM
        shade = page.render(scale=0.5, grayscale=True)
        greys.append(sum(1 for value in bytes(shade.buffer) if value < 245))
        assert wide < 5080
        document.close()
    assert greys[1] < greys[0]


def test_nothing_is_filled_but_letters(shown: Printed) -> None:
    with pikepdf.open(io.BytesIO(pdf_bytes(shown.document))) as pdf:
        for page in pdf.pages:
            for instruction in pikepdf.parse_content_stream(page):
                assert str(instruction.operator) not in {
                    "f",
                    "F",
                    "f*",
                    "B",
                    "B*",
                    "b",
                    "b*",
                    "sh",
                    "Do",
                    "BI",
                }


def test_the_words_on_pieces_are_twice_those_of_paper(
    shown: Printed, layout_of: Callable[..., Printed]
) -> None:
    page = shown.document.pages[2]
    words = [text for text in page.drawing.texts if text.layer is Layer.TEXT]
    assert words
    assert min(text.size for text in words) >= 5.8
    assert max(text.size for text in words) >= 11


def test_the_proof_of_a_projectors_file_is_content(shown: Printed) -> None:
    found = proof(pdf_bytes(shown.document))
    assert found.faults == ()
    assert found.about.kind is Kind.PROJECTOR


def test_the_figures_tell_where_each_piece_lies_on_its_page(
    shown: Printed, pages: tuple[Leaf, ...]
) -> None:
    told = paper_figures(shown)
    (tile,) = told["tiles"]
    assert tile["page"] == 2
    assert told["page"] == pytest.approx([pages[1].width, pages[1].height], abs=0.01)
    assert told["window"][:2] == [tile["x"], tile["y"]]  # the plane's own frame is the page's


def test_the_ticket_prints_on_a4_and_on_letter(pattern: Pattern, shown: Printed) -> None:
    last = shown.document.pages[-1]
    assert (last.width, last.height) == (210.0, 279.4)
    words = " ".join(
        text.text
        for page in shown.document.pages
        if page.label.startswith("ticket")
        for text in page.drawing.texts
    ).replace("\u00a0", " ")
    for heading in ("Check", "Show", "Cut", "Know", "Take care"):
        assert heading in words
    assert "glue" not in words
    assert "tape" not in words.replace("tape measure", "")
    for number, piece in enumerate(pattern.pieces, start=1):
        assert f"{number}  {piece.name}" in words


def words_at(page: Page, of: Layer) -> dict[str, list[tuple[float, float]]]:
    found: dict[str, list[tuple[float, float]]] = {}
    for text in page.drawing.texts:
        if text.layer is of:
            found.setdefault(text.text, []).append((text.at.x, text.at.y))
    return found


def test_a_piece_bears_its_words_in_the_same_places_on_both_of_its_pages(shown: Printed) -> None:
    _, together, *rest = shown.document.pages
    alone = [page for page in rest if page.label.startswith("piece")]
    assert len(alone) == len(shown.sheets.placements)
    layer = alone[0].drawing.texts[0].layer
    everywhere = words_at(together, layer)
    for page, placement in zip(alone, shown.sheets.placements, strict=True):
        own = words_at(page, layer)
        (x, y) = own[placement.piece.name][0]
        for u, v in everywhere[placement.piece.name]:
            moved = {
                (words, round(a + u - x, 3), round(b + v - y, 3))
                for words, places in own.items()
                for a, b in places
            }
            on_both = {
                (words, round(a, 3), round(b, 3))
                for words, places in everywhere.items()
                for a, b in places
            }
            if moved <= on_both:
                break
        else:
            pytest.fail(f"{placement.piece.name} has other words among the other pieces")


def test_the_waist_alone_is_labelled_without_looking_at_every_place(
    pattern_of: Callable[[str], Pattern], monkeypatch: pytest.MonkeyPatch
) -> None:
    spec = pattern_of("chorus-skirt").spec
    waist = draft(replace(spec, print=replace(spec.print, scope=Scope.WAIST)))
    looked_at = looks(monkeypatch)
    layout = printed(waist, PaperName.PROJECTOR)
    assert len(layout.sheets.placements) == 2
    assert len(looked_at) < 40_000


def test_a_waist_part_crowded_with_rays_has_its_name(
    pattern_of: Callable[[str], Pattern],
) -> None:
    spec = pattern_of("character-skirt").spec
    layout = printed(
        draft(replace(spec, print=replace(spec.print, scope=Scope.WAIST))), PaperName.PROJECTOR
    )
    names = {placement.piece.name for placement in layout.sheets.placements}
    assert names <= {text.text for text in layout.document.pages[1].drawing.texts}


def test_a_pattern_of_strips_alone_shows_no_pieces_and_says_so() -> None:
    layout = printed(draft(read_sheet(STRIPS_ALONE)), PaperName.PROJECTOR)
    assert {page.label.split()[0] for page in layout.document.pages} == {"calibration", "ticket"}
    words = " ".join(
        text.text for page in layout.document.pages for text in page.drawing.texts
    ).replace("\u00a0", " ")
    assert "No piece is shown" in words
    for wrong in (
        "all pieces together",
        "page of its own",
        "On every page of pieces",
        "Pieces lie",
    ):
        assert wrong not in words, wrong


def test_pieces_too_long_for_any_page_are_refused_with_the_reason(
    pattern_of: Callable[[str], Pattern],
) -> None:
    pattern = pattern_of("chorus-skirt")
    giant = tuple(resized(piece, 8.0) for piece in pattern.pieces[:1])
    with pytest.raises(PaperError, match=r"5\.08 m"):
        printed(replace(pattern, pieces=giant), PaperName.PROJECTOR)
