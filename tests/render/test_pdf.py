"""What a file says of itself: its title, how it wants to be printed, its words and letters."""

import io
from collections.abc import Callable, Iterator

import pikepdf
import pypdfium2
import pytest

from drafting.geometry import Arc, Box, Line, Path, Point
from drafting.pattern import Pattern
from render.drawing import Anchor, Document, Drawing, Layer, Page, Pen, Stroke, Text
from render.pages import Printed
from render.pdf import pdf_bytes


@pytest.fixture(scope="module")
def chorus(layout_of: Callable[..., Printed]) -> bytes:
    return pdf_bytes(layout_of("chorus-skirt").document)


@pytest.fixture
def opened(chorus: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(chorus)) as pdf:
        yield pdf


def test_the_file_carries_title_maker_licence_and_language(opened: pikepdf.Pdf) -> None:
    assert str(opened.docinfo["/Title"]) == "Chorus skirt"
    assert str(opened.docinfo["/Author"]) == "The Pier Workroom"
    assert "CC BY-NC 4.0" in str(opened.docinfo["/Subject"])
    assert "hemsweep" in str(opened.docinfo["/Creator"])
    assert str(opened.Root.Lang) == "en"
    assert opened.pdf_version == "1.7"


def test_the_file_asks_not_to_be_scaled_and_to_be_printed_on_one_side(opened: pikepdf.Pdf) -> None:
    wishes = opened.Root.ViewerPreferences
    assert wishes.PrintScaling == "/None"
    assert wishes.Duplex == "/Simplex"
    assert bool(wishes.DisplayDocTitle) is True
    assert bool(wishes.PickTrayByPDFSize) is True
    assert "/Enforce" not in wishes


def test_pages_are_labelled_as_they_are_called(
    opened: pikepdf.Pdf, layout_of: Callable[..., Printed]
) -> None:
    layout = layout_of("chorus-skirt")
    labels = [page.label for page in opened.pages]
    tiles = [tile.name for tile in layout.sheets.tiles]
    assert labels == [*(f"ticket {k + 1}" for k in range(len(labels) - len(tiles))), *tiles]


def test_the_outline_leads_to_the_ticket_and_to_each_piece(
    opened: pikepdf.Pdf, layout_of: Callable[..., Printed]
) -> None:
    labels = [page.label for page in opened.pages]
    first: dict[str, str] = {}
    for tile in layout_of("chorus-skirt").sheets.tiles:
        for piece in tile.pieces:
            first.setdefault(piece, tile.name)
    found = {}
    names = opened.Root.get("/Dests")
    with opened.open_outline() as outline:
        for item in outline.root:
            place: object = item.destination
            if isinstance(place, pikepdf.Name) and names is not None:
                place = names[str(place)]
            assert isinstance(place, pikepdf.Array)
            page = next(p for p in opened.pages if p.obj.objgen == place[0].objgen)
            found[item.title] = labels[page.index]
    assert found.pop("Ticket: check, print, cut, know") == "ticket 1"
    assert found == {"skirt panel": first["skirt panel"], "lining panel": first["lining panel"]}


def test_every_font_is_in_the_file(opened: pikepdf.Pdf) -> None:
    fonts = {}
    for page in opened.pages:
        for font in page.obj.Resources.Font.values():
            fonts[str(font.BaseFont)] = font
    assert 1 <= len(fonts) <= 4
    for name, font in fonts.items():
        assert "FiraSans" in name
        assert "/FontFile2" in font.FontDescriptor, name
        assert "/ToUnicode" in font, name


def test_the_same_pattern_gives_the_same_bytes(
    chorus: bytes, layout_of: Callable[..., Printed]
) -> None:
    assert pdf_bytes(layout_of("chorus-skirt").document) == chorus


def test_the_words_can_be_searched_and_read_aloud(chorus: bytes) -> None:
    pdf = pypdfium2.PdfDocument(chorus)
    try:
        words = "\n".join(page.get_textpage().get_text_bounded() for page in pdf)
    finally:
        pdf.close()
    for wanted in ("Chorus skirt", "100 mm", "skirt panel", "lining panel", "cut 2 from skirt",
                   "The Pier Workroom", "ruffle's line", "centre front"):  # fmt: skip
        assert wanted in words


def document(*strokes: Stroke, texts: tuple[Text, ...] = (), title: str = "Usher") -> Document:
    page = Page(
        width=210,
        height=297,
        window=Box(left=10, bottom=10, right=200, top=287),
        drawing=Drawing(strokes=strokes, texts=texts),
        label="A1",
    )
    return Document(title=title, author="", subject="", keywords="", language="en", pages=(page,))


def pixels(data: bytes, dpi: float) -> Callable[[float, float], int]:
    """Return a function that tells the grey of a page at a place in millimetres."""
    pdf = pypdfium2.PdfDocument(data)
    try:
        bitmap = pdf[0].render(scale=dpi / 72, grayscale=True)
        width, height, stride = int(bitmap.width), int(bitmap.height), int(bitmap.stride)
        greys = bytes(bitmap.buffer)
    finally:
        pdf.close()

    def grey(x: float, y: float) -> int:
        return greys[int((297 - y) / 297 * height) * stride + int(x / 210 * width)]

    return grey


PEN = Pen(width=1.0)


def test_a_line_is_drawn_where_it_is_and_as_wide_as_it_is() -> None:
    line: Path = (Line(start=Point(50, 60), end=Point(150, 60)),)
    grey = pixels(pdf_bytes(document(Stroke(path=line, pen=PEN, layer=Layer.MARKS))), 254)
    assert grey(50.3, 60) == grey(149.7, 60) == grey(100, 60.4) == grey(100, 59.6) == 0
    assert grey(49.6, 60) == grey(150.4, 60) == grey(100, 60.7) == grey(100, 59.3) == 255


def test_an_arc_is_round_to_a_hundredth_of_a_millimetre() -> None:
    """Each Bezier curve of the file is walked and held against its circle."""
    circle = Arc(centre=Point(100, 150), radius=80, begin=0.4, finish=0.4 - 5.0)
    data = pdf_bytes(document(Stroke(path=(circle,), pen=PEN, layer=Layer.MARKS)))
    worst, curves, here = 0.0, 0, (0.0, 0.0)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for instruction in pikepdf.parse_content_stream(pdf.pages[0]):
            assert isinstance(instruction, pikepdf.ContentStreamInstruction)
            numbers = [
                float(n) * 25.4 / 72
                for n in instruction.operands
                if str(instruction.operator) in {"m", "c"}
            ]
            if numbers and len(numbers) == 6:
                curves += 1
                a, b, c, d = here, numbers[:2], numbers[2:4], numbers[4:]
                for k in range(21):
                    t = k / 20
                    w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                    x, y = (w[0] * a[i] + w[1] * b[i] + w[2] * c[i] + w[3] * d[i] for i in (0, 1))
                    worst = max(worst, abs(((x - 100) ** 2 + (y - 150) ** 2) ** 0.5 - 80))
            if numbers:
                here = (numbers[-2], numbers[-1])
    assert curves >= 4
    assert worst < 0.01


def test_what_lies_outside_the_window_is_not_drawn() -> None:
    line: Path = (Line(start=Point(-20, 60), end=Point(300, 60)),)
    grey = pixels(pdf_bytes(document(Stroke(path=line, pen=PEN, layer=Layer.MARKS))), 254)
    assert grey(10.3, 60) == grey(199.7, 60) == 0
    assert grey(9.7, 60) == grey(200.3, 60) == grey(2, 60) == 255


def test_dashes_begin_where_their_phase_says() -> None:
    line: Path = (Line(start=Point(50, 60), end=Point(150, 60)),)
    dashed = Stroke(path=line, pen=Pen(width=1, dash=(6, 3)), layer=Layer.MARKS, phase=4)
    grey = pixels(pdf_bytes(document(dashed)), 254)
    assert [grey(50 + at, 60) < 128 for at in (0.5, 1.5, 2.5, 4.5, 5.5, 10.5, 11.5, 13.5)] == [
        True, True, False, False, True, True, False, False,
    ]  # fmt: skip


def test_a_solid_line_after_a_dashed_one_is_solid() -> None:
    dashed = Stroke(
        path=(Line(start=Point(50, 60), end=Point(150, 60)),),
        pen=Pen(width=1, dash=(6, 3)),
        layer=Layer.MARKS,
    )
    solid = Stroke(
        path=(Line(start=Point(50, 70), end=Point(150, 70)),), pen=PEN, layer=Layer.MARKS
    )
    grey = pixels(pdf_bytes(document(dashed, solid)), 254)
    assert all(grey(50.5 + k, 70) == 0 for k in range(99))


@pytest.mark.parametrize(
    ("anchor", "left"), [(Anchor.START, 100.0), (Anchor.MIDDLE, 85.0), (Anchor.END, 70.0)]
)
def test_words_stand_by_their_start_middle_or_end(anchor: Anchor, left: float) -> None:
    """A row of capital Hs, about 30 mm wide, measured by the box that pdfium finds round it."""
    text = Text(text="HHHHHH", at=Point(100, 200), size=7.2, anchor=anchor)
    pdf = pypdfium2.PdfDocument(pdf_bytes(document(texts=(text,))))
    try:
        page = pdf[0].get_textpage()
        boxes = [page.get_charbox(k) for k in range(page.count_chars())]
    finally:
        pdf.close()
    mm = 25.4 / 72
    found_left, found_right = boxes[0][0] * mm, boxes[-1][2] * mm
    wide = found_right - found_left
    assert found_left == pytest.approx(100 - wide * {"start": 0, "middle": 0.5, "end": 1}[anchor],
                                       abs=0.8)  # fmt: skip
    assert boxes[0][1] * mm == pytest.approx(200, abs=0.2)
    assert left - 5 < found_left < left + 5


def test_a_title_with_any_letters_makes_a_sound_file() -> None:
    for title in ("Zoë’s “Юбка” (φ) \\ 100 %", "()))((", "\\", "a" * 300):
        data = pdf_bytes(document(texts=(Text(text=title, at=Point(20, 20), size=4),), title=title))
        with pikepdf.open(io.BytesIO(data)) as pdf:
            assert not pdf.check_pdf_syntax()
            assert str(pdf.docinfo["/Title"]) == title


def test_the_language_of_the_sheet_is_that_of_the_file(pattern_of: Callable[..., Pattern]) -> None:
    page = document()
    changed = Document(
        title="Jupe", author="", subject="", keywords="", language="fr", pages=page.pages
    )
    with pikepdf.open(io.BytesIO(pdf_bytes(changed))) as pdf:
        assert str(pdf.Root.Lang) == "fr"
