"""Mistakes 1 to 10: the waist, the fullness, the lengths, the hem and the ruffle's line."""

import json
import math
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest

from drafting.errors import SheetError
from drafting.piece import EdgeKind, FoldWay, InnerKind, Piece, cutting_line, edge_named
from drafting.sheet import read_sheet
from render.output import Extra, write_draft
from render.placement import Effort
from tests import tape
from tests.end_to_end.pdf_ink import leaves
from tests.mistakes.sheets import (
    EASE,
    FLOOR_BACK,
    FLOOR_FRONT,
    FLOOR_SIDE,
    STRETCH,
    UNEVEN,
    WAIST,
    WEARER,
    all_round,
    allowance_drawn,
    apex,
    cm,
    codes,
    drafted,
    page_words,
    parts,
    piece,
    plain,
    reach,
    said,
    sheet,
    ticket_words,
    times,
)

FINISHED = WAIST + EASE
DRAFTED = FINISHED / (1 + STRETCH)

# --- 1, 2, 3: the waist ----------------------------------------------------------------------

# Lines under [skirt], and the flat waist seam all round as a sum on paper makes it.
WAISTS = [
    ('fullness = "quarter"', DRAFTED),
    ("fullness = 0.3", DRAFTED),
    ('fullness = "half"\nwaist_ease = "2 cm"\nwaist_stretch = 0.02', 740 / 1.02),
    ('fullness = "three-quarter"\ngather_ratio = 1.5', 1.5 * DRAFTED),
    ('fullness = "full"\npanels = 3', DRAFTED),
    ('fullness = "double"\npanels = 4\nwaist_stretch = 0', FINISHED),
    ("fullness = 3\npanels = 8", DRAFTED),
    ('fullness = "full"\nlength = "60 cm"\ndrop = "7 cm"', (720 + 240 * 70 / 200 + 30) / 1.01),
    ('fullness = "full"\nhem_above_floor = "48 cm"\npanels = 4', DRAFTED),
    ('fullness = "full"\nlevel = "waist"\nlength = "60 cm"\npanels = 4', DRAFTED),
    ('cut = "gored"\ngores = 6', FINISHED),
    ('cut = "gored"\nshaped = true', FINISHED),
    ('cut = "gathered"\ngather_ratio = 2.5', 2.5 * FINISHED),
    ('cut = "tiered"\nlength = "75 cm"', FINISHED),
]


@pytest.mark.parametrize(("skirt", "seam"), WAISTS, ids=[skirt for skirt, _ in WAISTS])
@pytest.mark.parametrize("folded", ["", "[cloth.skirt]\nfold = true\n[cloth.lining]\nfold = true"])
def test_the_diameter_is_never_taken_for_the_radius(skirt: str, seam: float, folded: str) -> None:
    """Row 1: the drawn waist lines of all panels together are c, for each fullness and cut."""
    pattern = drafted(skirt, "[lining]\n" + folded)
    assert all_round(parts(pattern, "skirt"), "waist") == pytest.approx(seam, abs=0.1)
    lined = all_round(parts(pattern, "lining"), "waist")
    share = 1.5 if "gather_ratio = 1.5" in skirt else 2.5 if "2.5" in skirt else 1.0
    assert lined == pytest.approx(seam / share, abs=0.1)


@pytest.mark.parametrize("circles", [0.25, 0.5, 1, 1.5, 2, 4])
def test_two_pi_is_never_forgotten(circles: float) -> None:
    """Row 1: the hem is longer than the waist by two pi for every circle and every length."""
    pattern = drafted(f'fullness = {circles}\nlength = "60 cm"')
    panels = parts(pattern, "skirt")
    more = all_round(panels, "hem") - all_round(panels, "waist")
    assert more == pytest.approx(math.tau * circles * 600, abs=0.1)
    near, _ = reach(edge_named(panels[0], "waist").path, apex(panels[0]))
    assert near == pytest.approx(DRAFTED / (math.tau * circles), abs=0.02)


@pytest.mark.parametrize("allowance", ["6 mm", "10 mm", "15 mm"])
def test_the_waist_allowance_never_makes_the_waist_grow(allowance: str) -> None:
    """Row 2: the cutting line lies inside the curve, at r less the allowance, never outside."""
    wide = float(allowance.split()[0])
    pattern = drafted('length = "60 cm"\n[skirt.allowances]\nwaist = "' + allowance + '"')
    (panel,) = parts(pattern, "skirt")
    centre, radius = apex(panel), DRAFTED / math.tau
    seam, _ = reach(edge_named(panel, "waist").path, centre)
    cut, _ = reach(cutting_line(panel), centre)
    assert seam == pytest.approx(radius, abs=0.02)
    assert cut == pytest.approx(radius - wide, abs=0.02)


def test_both_lines_of_the_waist_are_in_the_written_file(tmp_path: Path) -> None:
    """Row 2: taped together, the ink of the pages has the seam at r and the cut inside it."""
    more = '[lining]\n[skirt.allowances]\nwaist = "12 mm"'
    write_draft(
        drafted('length = "45 cm"', more), tmp_path, without=tuple(Extra), effort=Effort.QUICK
    )
    (pdf,) = tmp_path.glob("*.pdf")
    (figures,) = tmp_path.glob("*.json")
    paper = json.loads(figures.read_text(encoding="utf-8"))["paper"]["a4"]
    radii = {"skirt panel": DRAFTED / math.tau, "lining panel": DRAFTED / math.pi}
    assert {one["piece"] for one in paper["pieces"]} == set(radii)
    for one in paper["pieces"]:
        centre, radius = (one["x"], one["y"]), radii[one["piece"]]
        for pen, dash, true in ((0.7, (), radius - 12), (0.35, (6.0, 3.0), radius)):
            far = [math.dist(dot, centre) for dot in _inked(pdf, paper, pen, dash)]
            assert min(far) == pytest.approx(true, abs=0.05)
            # Half a circle of it, or two thirds of that where the line is broken.
            assert sum(abs(each - true) < 0.05 for each in far) > 100


def _inked(
    pdf: Path, paper: dict[str, object], pen: float, dash: tuple[float, ...]
) -> Iterator[tuple[float, float]]:
    """Yield points of one kind of line, about a millimetre apart, where the tape puts them."""
    window, tiles = paper["window"], paper["tiles"]
    assert isinstance(window, list) and isinstance(tiles, list)
    pages = leaves(pdf)
    for tile in tiles:
        dx, dy = tile["x"] - window[0], tile["y"] - window[1]
        for stroke in pages[tile["page"] - 1].strokes:
            if stroke.is_drawn_with(pen, dash):
                for (ax, ay), (bx, by) in stroke.ink():
                    yield (ax + dx, ay + dy)
                    yield (bx + dx, by + dy)


@pytest.mark.parametrize("stretch", [0, 0.01, 0.025, 0.04])
def test_the_waist_stretch_is_never_taken_off_twice(stretch: float) -> None:
    """Row 3: the band stays at W + e whatever the stretch, and both lengths are printed apart."""
    flat = FINISHED / (1 + stretch)
    pattern = drafted(f'length = "60 cm"\nwaist_stretch = {stretch}', "[lining]")
    words = ticket_words(pattern)
    assert words.count(f"flat waist seam {cm(flat)}, sewn to {cm(FINISHED)}") == 2
    band = piece(pattern, "band")
    closes = [notch.at for notch in band.notches if notch.words == "centre back"]
    assert closes == pytest.approx([0, FINISHED], abs=0.05)
    # Three centimetres lap over, and an allowance lies at each end.
    assert f"band cut {cm(FINISHED + 30 + 2 * 10)} × " in words


def test_a_waist_stretched_by_its_cloth_is_taped_to_its_full_length() -> None:
    """Row 3: "by cloth" drafts crepe 1.5 to 2.5 % smaller, half of its give; the tape does not."""
    skirt = 'length = "60 cm"\nwaist_stretch = "by cloth"\nwaist_finish = "facing"'
    pattern = drafted(skirt, '[cloth.skirt]\nkind = "wool crepe"')
    drawn = all_round(parts(pattern, "skirt"), "waist")
    assert FINISHED / 1.026 < drawn < FINISHED / 1.014
    words = ticket_words(pattern)
    assert f"flat waist seam {cm(drawn)}, sewn to {cm(FINISHED)}" in words
    assert f"tape the waist seam to {cm(FINISHED)}, which is the finished waist" in words


@pytest.mark.parametrize(
    ("finish", "words"),
    [
        ('waist_finish = "bias"', f"binding bias strip {cm(FINISHED + 20)} × "),
        ('band_shape = "contour"\ndrop = "5 cm"', f"{cm(720 + 60 + 30)} at the waist seam"),
        ('waist_finish = "bodice"\nbodice_waist = "74 cm"', "sewn to 74.0 cm"),
    ],
)
def test_no_finish_of_the_waist_is_cut_to_the_smaller_draft(finish: str, words: str) -> None:
    """Row 3: binding, shaped band and bodice all have the finished waist, not the drafted one."""
    assert words in ticket_words(drafted(f'length = "60 cm"\nwaist_stretch = 0.04\n{finish}'))


# --- 4: the fullness -------------------------------------------------------------------------


@pytest.mark.parametrize("panels", [4, 6, 8])
def test_fullness_is_never_counted_in_panels(panels: int) -> None:
    """Row 4: four half discs are two circles, and so are eight quarters; the words say both."""
    pattern = drafted(f'fullness = "double"\nlength = "60 cm"\npanels = {panels}')
    assert f"two full circles in {panels} panels of {720 / panels:g}°" in ticket_words(pattern)
    sweep = all_round(parts(pattern, "skirt"), "hem")
    assert sweep == pytest.approx(DRAFTED + 2 * math.tau * 600, abs=0.2)


@pytest.mark.parametrize(
    ("fullness", "words"),
    [
        ("half", "a half circle in 1 panel of 180°"),
        ("full", "one full circle in 2 panels of 180°"),
        ("one-and-a-half", "one and a half circles in 3 panels of 180°"),
        ("double", "two full circles in 4 panels of 180°"),
    ],
)
def test_half_discs_are_counted_as_halves(fullness: str, words: str) -> None:
    """Row 4: left to itself each panel is half a circle, and there are twice as many of them."""
    pattern = drafted(
        f'fullness = "{fullness}"\nlength = "60 cm"', '[cloth.skirt]\nwidth = "180 cm"'
    )
    assert words in ticket_words(pattern)


# --- 5: slips of measuring -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("right", "slipped", "named"),
    [
        ('waist = "72 cm"', 'waist = "72 mm"', 'right in cm: did you mean "72 cm"?'),
        ('waist = "72 cm"', 'waist = "28 cm"', 'right in inches: did you mean "28 in"?'),
        ('waist = "72 cm"', 'waist = "72 in"', 'right in cm: did you mean "72 cm"?'),
        ('waist = "72 cm"', 'waist = "720 cm"', 'right in mm: did you mean "720 mm"?'),
        ('hip = "96 cm"', 'hip = "38 cm"', 'right in inches: did you mean "38 in"?'),
        ('hip_depth = "20 cm"', 'hip_depth = "20 in"', 'right in cm: did you mean "20 cm"?'),
        ('floor_side = "106 cm"', 'floor_side = "41.5 cm"', 'did you mean "41.5 in"?'),
        ('step = "70 cm"', 'step = "140 cm"', "looks like a stride, which is two steps"),
    ],
)
def test_a_slip_of_the_unit_or_a_stride_is_caught_by_name(
    right: str, slipped: str, named: str
) -> None:
    """Row 5: a number in the wrong unit, and a stride for a step, are refused and named."""
    assert right in WEARER
    text = sheet('length = "60 cm"', wearer=WEARER.replace(right, slipped))
    with pytest.raises(SheetError) as caught:
        read_sheet(text)
    (line,) = caught.value.lines
    assert named in plain(line)
    assert slipped.split(" = ")[1].strip('"') in line


@pytest.mark.parametrize(
    ("right", "odd", "asked"),
    [
        ('step = "70 cm"', 'step = "90 cm"', "Your step is 90.0 cm; most adults have 50.0 to 80.0"),
        ('hip = "96 cm"', 'hip = "76 cm"', "hip is 4.0 cm more than the waist; most are 8.0 to"),
        ('height = "168 cm"', 'height = "140 cm"', "at a height of 140.0 cm it is mostly 79.8 to"),
    ],
)
def test_a_measure_that_could_be_but_seldom_is_gets_asked_about(
    right: str, odd: str, asked: str
) -> None:
    """Row 5: what lies inside the hard limits and outside the soft ones is asked, not refused."""
    assert right in WEARER
    pattern = drafted('length = "60 cm"', wearer=WEARER.replace(right, odd))
    told = " ".join(plain(f.what) for f in pattern.findings if f.code.startswith("measure-"))
    assert asked in told


def test_a_length_in_millimetres_for_centimetres_is_caught_by_name() -> None:
    """Row 5: the skirt's own lengths are asked about too."""
    with pytest.raises(SheetError) as caught:
        read_sheet(sheet('length = "62 mm"'))
    assert "Was it meant in cm?" in " ".join(caught.value.lines)


# --- 6, 7: the lengths -----------------------------------------------------------------------


def test_the_band_is_never_counted_into_the_length() -> None:
    """Row 6: 60 cm are drawn from the waist seam whatever the band's height, and said to be."""
    for band in ("2 cm", "5 cm"):
        pattern = drafted(f'length = "60 cm"\nband = "{band}"')
        (panel,) = parts(pattern, "skirt")
        assert tape.walked_length(panel.edges[0].path) == pytest.approx(600, abs=0.02)
        assert "length from the waist seam 60.0 cm" in ticket_words(pattern)


@pytest.mark.parametrize(
    "shape", ['cut = "circle"', 'cut = "gored"', 'cut = "gathered"', 'waist_finish = "facing"']
)
def test_the_depth_of_a_dropped_waist_is_deducted(shape: str) -> None:
    """Row 6: a seam 7 cm down leaves 53 of 60 cm to draw, and the ticket tells all three."""
    pattern = drafted(f'length = "60 cm"\ndrop = "7 cm"\n{shape}')
    panel = parts(pattern, "skirt")[0]
    assert tape.walked_length(panel.edges[0].path) == pytest.approx(530, abs=0.02)
    words = ticket_words(pattern)
    assert "waist seam lies 7.0 cm below the natural waist" in words
    assert "hangs 53.0 cm below that seam" in words
    assert "counted from the natural waist: together 60.0 cm" in words


def test_a_lining_under_a_dropped_waist_starts_at_the_same_seam() -> None:
    """Row 6: the lining is shorter than what hangs, and not than what was asked for."""
    pattern = drafted('length = "60 cm"\ndrop = "7 cm"', "[lining]")
    (panel,) = parts(pattern, "lining")
    assert tape.walked_length(panel.edges[0].path) == pytest.approx(530 - 30, abs=0.02)


LEVELLED = ['hem_above_floor = "48 cm"', 'level = "waist"\nlength = "58 cm"']


@pytest.mark.parametrize("skirt", LEVELLED)
@pytest.mark.parametrize("panels", [2, 3, 4, 6])
@pytest.mark.parametrize("wearer", [WEARER, UNEVEN], ids=["even sides", "uneven sides"])
@pytest.mark.parametrize("closure", ["centre back", "left side"])
def test_panels_of_a_levelled_draft_are_never_cut_alike(
    skirt: str, panels: int, wearer: str, closure: str
) -> None:
    """Row 7: panels that differ have names and notches apart, and none share one fold."""
    words = f'{skirt}\npanels = {panels}\nclosure = "{closure}"'
    pattern = drafted(words, '[cloth.skirt]\nfold = true\nwidth = "180 cm"', wearer=wearer)
    cut = parts(pattern, "skirt")
    assert len({one.name for one in cut}) == len(cut)
    assert sum(one.count for one in cut) == panels
    for one, other in combinations(cut, 2):
        assert _rounded(one) != _rounded(other)
    for one in cut:
        # A pair is a piece and its mirror image; a half on the fold is one panel by itself.
        assert (one.count, one.mirrored) in {(1, False), (2, True)}
        assert not one.half or one.count == 1
    if wearer == UNEVEN:
        assert not any(one.half and one.fold_way is not FoldWay.NONE for one in cut if panels > 2)
    _notched_apart(cut)


def _rounded(one: Piece) -> list[float]:
    return [round(tape.walked_length(edge.path), 2) for edge in one.edges]


def _notched_apart(cut: tuple[Piece, ...]) -> None:
    """Make sure that a seam's number stands on edges of one length, and each length has its own."""
    lengths: dict[str, set[float]] = {}
    for one in cut:
        for notch in one.notches:
            if notch.edge in (0, 2) and one.edges[notch.edge].kind is EdgeKind.SEAM:
                long = tape.walked_length(one.edges[notch.edge].path)
                lengths.setdefault(notch.seam, set()).add(round(long, 1))
    assert lengths
    for number, found in lengths.items():
        assert max(found) - min(found) < 0.15, f"seam {number}"


def test_every_place_of_the_body_gets_its_own_length() -> None:
    """Row 7: not one floor length all round: 48 cm above the floor is 56, 58 and 57 cm."""
    pattern = drafted('hem_above_floor = "48 cm"\npanels = 4')
    wanted = {
        "centre_front": FLOOR_FRONT - 480,
        "right_side_or_left_side": FLOOR_SIDE - 480,
        "centre_back": FLOOR_BACK - 480,
    }
    seen = set()
    for one in parts(pattern, "skirt"):
        for edge in one.edges:
            if edge.name in wanted:
                seen.add(edge.name)
                assert tape.walked_length(edge.path) == pytest.approx(wanted[edge.name], abs=0.05)
    assert seen == set(wanted)
    words = ticket_words(pattern)
    assert "56.0 cm at the front, 58.0 cm at the sides, 57.0 cm at the back" in words


# --- 8, 9: the hem ---------------------------------------------------------------------------

# Cloth, its drop at full bias on the reference skirt (W 720, a full circle, L 650), its hours.
HANGING = [
    ("taffeta", 3, "24"),
    ("cotton sateen", 7, "24"),
    ("wool crepe", 15, "48"),
    ("viscose", 28, "48|60|72"),
    ("georgette", 40, "72"),
]


def _hanging_weight(waist: float, hem: float) -> float:
    return hem**2 / 2 * math.log(hem / waist) - (hem**2 - waist**2) / 4


@pytest.mark.parametrize(("kind", "reference", "hours"), HANGING)
@pytest.mark.parametrize("shape", ["full", "half", "gored"])
def test_no_skirt_is_hemmed_before_it_has_hung(
    kind: str, reference: float, hours: str, shape: str
) -> None:
    """Row 8: the hours stand on the ticket, and the drop's own cloth is left below the hem."""
    of = 'cut = "gored"\nfullness = 0.5' if shape == "gored" else f'fullness = "{shape}"'
    pattern = drafted(
        f'length = "65 cm"\n{of}\nwaist_stretch = 0', f'[cloth.skirt]\nkind = "{kind}"'
    )
    circles = {"full": 1.0, "half": 0.5, "gored": 0.5}[shape]
    radius = FINISHED / (math.tau * circles)
    known = _hanging_weight(720 / math.tau, 720 / math.tau + 650)
    drop = reference * _hanging_weight(radius, radius + 650) / known
    if shape == "gored":  # eight narrow gores, their middles on the grain, never come near 45°
        drop *= math.sin(2 * math.pi * circles / 8) ** 2
    (panel,) = parts(pattern, "skirt")
    _, cut = reach(edge_named(panel, "hem").path, apex(panel))
    room = allowance_drawn(panel, edge_named(panel, "hem"))
    if drop < 1:
        assert room >= 3
        return
    assert any(f"Hang it {each} hours" in said(pattern, "bias-drop") for each in hours.split("|"))
    assert said(pattern, "bias-drop") in ticket_words(pattern)
    note = plain(" ".join(panel.notes))
    turned = 10 * float(note.split("below the hem: ")[1].split(" cm to turn")[0])
    assert room - turned >= drop - 0.05
    assert cut == pytest.approx(radius + 650, abs=0.05)
    assert "to spare for levelling" in page_words(pattern)


def test_a_flounce_of_soft_cloth_hangs_before_its_hem() -> None:
    """Row 8: the curve of a flounce drops as well as any other, and its hem waits too."""
    pattern = drafted(
        'length = "60 cm"\nflounce = { depth = "15 cm" }', '[cloth.skirt]\nkind = "georgette"'
    )
    assert "Hang it 72 hours" in said(pattern, "hang")


def test_net_and_knits_hang_though_they_have_no_such_bias() -> None:
    """Row 8: no drop is worked out for them, and the hours are told all the same."""
    pattern = drafted('length = "60 cm"', '[cloth.skirt]\nkind = "jersey"')
    assert "Hang it 24 hours" in said(pattern, "hang")


def _deepest(radius: float, ease: float, finish: str) -> float:
    """Return the deepest hem by hand: what is turned up lies on a shorter circle."""
    return ease * radius / (1 + ease / 2 if finish == "narrow" else 2 + ease)


@pytest.mark.parametrize(("kind", "ease"), [("cotton lawn", 0.03), ("taffeta", 0.015)])
@pytest.mark.parametrize("finish", ["narrow", "turned"])
@pytest.mark.parametrize("circles", [0.25, 0.5, 1, 2])
def test_a_turn_up_too_deep_for_its_curve_is_caught(
    kind: str, ease: float, finish: str, circles: float
) -> None:
    """Row 9: just over the limit is caught, with a facing and a smaller hem offered; just under
    it nothing is said."""
    limit = _deepest(DRAFTED / (math.tau * circles) + 600, ease, finish)
    cloth = f'[cloth.skirt]\nkind = "{kind}"\n[skirt.allowances]\nhem = '

    def hemmed(deep: float) -> str:
        return f'{cloth}"{deep:.2f} mm"'

    skirt = f'length = "60 cm"\nfullness = {circles}\nhem = "{finish}"'
    over, under = (drafted(skirt, hemmed(limit + by)) for by in (0.3, -0.3))
    words = said(over, "hem-too-deep")
    assert "roll the edge, or face it with a strip cut to the curve" in words
    assert f"{math.floor(limit / 0.5) * 0.5 / 10:.2f}" in words or cm(limit) in words
    assert words in ticket_words(over)
    assert "hem-too-deep" not in codes(under)


@pytest.mark.parametrize("finish", ["narrow", "turned", "rolled"])
@pytest.mark.parametrize("circles", [0.25, 0.5, 1, 4])
@pytest.mark.parametrize("long", [30, 60, 100])
def test_a_hem_left_to_the_draft_lies_flat_on_its_curve(
    finish: str, circles: float, long: int
) -> None:
    """Row 9: what the label says to turn is never deeper than the curve takes."""
    pattern = drafted(f'length = "{long} cm"\nfullness = {circles}\nhem = "{finish}"')
    assert "hem-too-deep" not in codes(pattern)
    if finish == "rolled":
        return
    panel = parts(pattern, "skirt")[0]
    # Without a word of spare on the label, all that lies below the hem is turned.
    _, spare, told = plain(" ".join(panel.notes)).partition("below the hem: ")
    room = allowance_drawn(panel, edge_named(panel, "hem"))
    turned = 10 * float(told.partition(" cm to turn")[0]) if spare else room
    limit = _deepest(DRAFTED / (math.tau * circles) + 10 * long, 0.03, finish)
    assert 0 < turned <= limit + 0.5


# --- 10: the ruffle's line -------------------------------------------------------------------


@pytest.mark.parametrize("circles", [0.25, 0.5, 1])
@pytest.mark.parametrize("deep", [12, 20])
def test_the_ruffle_is_never_cut_to_the_linings_hem(circles: float, deep: int) -> None:
    """Row 10: it is gathered to the circle it is sewn on; both numbers are printed and named."""
    more = f'[lining]\nfullness = {circles}\n[ruffle]\ndepth = "{deep} cm"\ngather_ratio = 2.5'
    pattern = drafted('length = "62 cm"\nfullness = 2', more)
    long = 620 - 30  # the lining, 3 cm shorter
    down = long - 10 - 10 * deep  # its lower edge 1 cm above the lining's hem
    line = DRAFTED + math.tau * circles * down
    hem = DRAFTED + math.tau * circles * long
    drawn = math.fsum(
        tape.walked_length(inner.path) * times(one)
        for one in parts(pattern, "lining")
        for inner in one.inner_lines
        if inner.kind is InnerKind.RUFFLE_LINE
    )
    assert drawn == pytest.approx(line, abs=0.1)
    strip = piece(pattern, "ruffle strip")
    joined = all_round([strip], "gathered")
    assert joined == pytest.approx(2.5 * line, abs=0.2)
    words = ticket_words(pattern)
    assert f"sewn {cm(down)} below the waist" in words
    assert f"its line measures {cm(line)} there, not the hem's {cm(hem)}" in words
    assert f"ruffle's line, {cm(line)} all round" in page_words(pattern)


def test_a_levelled_linings_line_is_measured_along_its_own_curve() -> None:
    """Row 10: as far above the hem everywhere, so no circle; the strips follow what is drawn."""
    pattern = drafted(
        'hem_above_floor = "48 cm"\npanels = 4', "[lining]\n[ruffle]\ngather_ratio = 2.5"
    )
    (panel,) = parts(pattern, "lining")
    (inner,) = (one for one in panel.inner_lines if one.kind is InnerKind.RUFFLE_LINE)
    hem = edge_named(panel, "hem").path
    up = {round(tape.gap(dot, hem), 1) for dot in tape.chain(inner.path, 5)}
    assert max(up) - min(up) <= 1.0
    line = tape.walked_length(inner.path)
    joined = all_round([piece(pattern, "ruffle strip")], "gathered")
    assert joined == pytest.approx(2.5 * line, abs=0.2)
    assert line < tape.walked_length(hem) - 100
