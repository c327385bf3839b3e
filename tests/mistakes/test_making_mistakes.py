"""Mistakes 11 to 20: strips, gathers, openings, linings, the lay, printing, labels, half scale."""

import io
import math
import re
from dataclasses import replace

import pikepdf
import pytest

from drafting.findings import Level, stops
from drafting.geometry import Line, Point
from drafting.pattern import Pattern, draft
from drafting.piece import Dot, EdgeKind, FoldWay, InnerKind, Piece, cutting_line, edge_named
from drafting.sheet import read_sheet
from drafting.spec import PaperName, RuffleCloth, Strips
from render.pdf import pdf_bytes
from render.proof import proof
from render.words import label_words
from tests import tape
from tests.examples import EXAMPLES, layout_of_example, pattern_of_example
from tests.mistakes.sheets import (
    CHILD,
    EASE,
    HIP,
    HIP_DEPTH,
    STEP,
    STRETCH,
    UNEVEN,
    WAIST,
    WEARER,
    all_round,
    allowance_drawn,
    box_on_grain,
    cm,
    codes,
    drafted,
    finding,
    on_paper,
    page_words,
    parts,
    piece,
    plain,
    printed_page_words,
    printed_ticket_words,
    said,
    sheet,
    ticket_words,
)

FINISHED = WAIST + EASE
DRAFTED = FINISHED / (1 + STRETCH)

# --- 11, 12, 13: strips and gathers ----------------------------------------------------------

# The ruffle table of the trade: cloth and what each end of a strip gives to its join.
JOINS = [("stiff net", 10), ("silk organza", 15), ("polyester organza", 10), ("soft tulle", 5)]


@pytest.mark.parametrize(("cloth", "join"), JOINS)
@pytest.mark.parametrize(("width", "selvage"), [(1120, 10), (1225, 10), (1400, 40), (1500, 25)])
def test_a_ruffle_is_never_one_strip_short(
    cloth: str, join: float, width: int, selvage: int
) -> None:
    """Row 11: selvages and joins are taken off before strips are counted, and none is spare."""
    bolt = f'[cloth.ruffle]\nwidth = "{width} mm"\nselvage = "{selvage} mm"\nshrink_width = 0'
    ruffle = f'[ruffle]\ncloth = "{cloth}"\ndepth = "20 cm"\ngather_ratio = 2.5'
    pattern = drafted('length = "62 cm"\nfullness = 2', f"[lining]\n{ruffle}\n{bolt}")
    line = DRAFTED + math.pi * (620 - 30 - 10 - 200)
    usable = width - 2 * selvage
    strip = piece(pattern, "ruffle strip")
    left, _, right, _ = tape.extent(tape.chain(cutting_line(strip)))
    assert right - left <= usable + 1e-6
    assert strip.count == math.ceil(2.5 * line / (usable - 2 * join))
    assert strip.count * (right - left - 2 * join) == pytest.approx(2.5 * line, abs=0.2)
    words = ticket_words(pattern)
    assert f"{strip.count} strips {cm(right - left)} × " in words
    # Trimmed alike to the ratio that was asked for: rounding up the strips changes nothing.
    assert f"joined to {cm(2.5 * line)} flat, gathered 2.5 to 1" in words


def test_an_open_ruffle_has_a_hem_at_each_end_and_one_join_less() -> None:
    """Row 11: too near the opening for a ring, its flat length is what is left when hemmed."""
    more = '[lining]\n[ruffle]\ndepth = "35 cm"\ngather_ratio = 2'
    pattern = drafted('length = "60 cm"\nfullness = 2', more)
    line = DRAFTED + math.pi * (600 - 30 - 10 - 350)
    assert "two ends hemmed beside the opening" in said(pattern, "ruffle-open")
    strip = piece(pattern, "ruffle strip")
    left, _, right, _ = tape.extent(tape.chain(cutting_line(strip)))
    sewn = strip.count * (right - left) - 2 * 10 * (strip.count - 1) - 2 * 10
    assert sewn == pytest.approx(2 * line, abs=0.2)
    assert "hem each end of the joined ruffle by 10 mm" in strip.notes


def test_whole_widths_tell_the_ratio_that_they_come_to() -> None:
    """Row 11: two widths of 138 cm, their seams off, gather 735 mm 3.67 to 1 and not 2.5."""
    pattern = drafted(
        'length = "60 cm"\ncut = "gathered"\ngather_ratio = 2.5\nfull_widths = true',
        "[cloth.skirt]\nshrink_width = 0",
    )
    flat = 2 * (1400 - 2 * 10 - 2 * 15)
    assert all_round(parts(pattern, "skirt"), "waist") == pytest.approx(flat, abs=0.1)
    assert f"2 straight lengths, gathered {flat / FINISHED:.3g} to 1" in ticket_words(pattern)


def _rows_drawn(one: Piece, edge: str) -> list[tuple[float, float]]:
    """Return how far each gathering row lies from the raw edge and from the seam line."""
    held = edge_named(one, edge)
    cut = tuple(
        segment
        for segment in cutting_line(one)
        if tape.gap(tape.dots(segment, 2)[1], held.path) < held.allowance + 0.01
    )
    found = []
    for inner in one.inner_lines:
        if inner.kind is InnerKind.GATHERING:
            dots = tape.chain(inner.path, 10)
            middle = tape.dots(inner.path[0], 2)[1]
            raw = tape.gap(middle, cut)
            assert all(
                abs(tape.gap(dot, held.path) - abs(raw - held.allowance)) < 0.05 for dot in dots
            )
            found.append((raw, held.allowance - raw))
    assert found
    return found


def _none_on_the_seam_and_one_in_the_allowance(rows: list[tuple[float, float]]) -> None:
    assert all(abs(above) >= 1.9 for _, above in rows)
    assert any(above > 0 for _, above in rows)
    assert all(raw >= 2.5 for raw, _ in rows), "a row this near the raw edge frays out"


@pytest.mark.parametrize("cloth", [each.value for each in RuffleCloth])
@pytest.mark.parametrize("short", [True, False])
@pytest.mark.parametrize("tiers", [1, 2])
def test_no_row_of_a_ruffle_lies_on_its_seam(cloth: str, short: bool, tiers: int) -> None:
    """Row 12: rows, or the cord, are printed from the raw edge, clear of the seam at 15 mm."""
    lining = "[lining]\nfullness = 0.25" if short else "[lining]\nfullness = 1"
    more = f'{lining}\n[ruffle]\ncloth = "{cloth}"\ntiers = {tiers}'
    pattern = drafted('length = "62 cm"\nfullness = 2', more)
    words = ticket_words(pattern)
    strips = [one for one in pattern.pieces if one.name.startswith("ruffle")]
    assert len(strips) == tiers
    for one in strips:
        rows = _rows_drawn(one, "gathered")
        _none_on_the_seam_and_one_in_the_allowance(rows)
        of_it = words.partition(f"  {one.name} ")[2].partition("Before you cut")[0]
        for raw, above in rows:
            assert raw + above == pytest.approx(15)
            assert f"{cm(raw)} from the raw edge" in of_it


@pytest.mark.parametrize("allowance", ["6 mm", "10 mm", "15 mm"])
@pytest.mark.parametrize("shape", ["fullness = 0.75\ngather_ratio = 1.5", 'cut = "gathered"'])
def test_no_row_of_a_gathered_waist_lies_on_its_seam(allowance: str, shape: str) -> None:
    """Row 12: one row in the allowance, one below the seam, both printed with their distance."""
    waist = f'[skirt.allowances]\nwaist = "{allowance}"'
    pattern = drafted(f'length = "60 cm"\n{shape}', waist)
    (panel,) = parts(pattern, "skirt")
    rows = _rows_drawn(panel, "waist")
    _none_on_the_seam_and_one_in_the_allowance(rows)
    words = ticket_words(pattern)
    for raw, _ in rows:
        told = cm(raw) if panel.rectangle else f"{raw:.0f} mm"
        assert f"gathering row, {told} from the raw edge" in words


def test_the_rows_of_tiers_are_told_from_the_raw_edge() -> None:
    """Row 12: the tiers of a skirt are gathered too, each by rows inside its allowance."""
    pattern = drafted('cut = "tiered"\nlength = "75 cm"')
    words = ticket_words(pattern)
    for order in (1, 2, 3):
        rows = _rows_drawn(piece(pattern, f"skirt tier {order}"), "gathered")
        _none_on_the_seam_and_one_in_the_allowance(rows)
        of_it = words.partition(f"  skirt tier {order} ")[2].partition("; cut")[2]
        assert all(f"{cm(raw)} from the raw edge" in of_it for raw, _ in rows)


@pytest.mark.parametrize("wearer", [WEARER, UNEVEN], ids=["even sides", "uneven sides"])
@pytest.mark.parametrize("panels", [2, 3, 4])
def test_quarters_of_the_ruffle_are_marked_by_arc_length(wearer: str, panels: int) -> None:
    """Row 13: walked round the lining, a mark stands at each quarter of the line, by its length."""
    more = f"[lining]\nfullness = 1\npanels = {panels}\n[ruffle]"
    pattern = drafted('hem_above_floor = "48 cm"\nfullness = 2', more, wearer=wearer)
    pieces = parts(pattern, "lining")
    if any(one.count > 1 for one in pieces):
        pieces = _round_the_body(pieces, panels)
    lines = [_ruffle_line(one) for one in pieces]
    whole = math.fsum(long for long, _ in lines)
    met, walked = [], 0.0
    for long, ticks in lines:
        met += [walked + tick for tick in ticks]
        walked += long
    for quarter in (k * whole / 4 for k in range(4)):
        assert any(abs(each - quarter) < 0.3 for each in met), f"no mark at {quarter:.1f}"
    assert all(min(abs(each - k * whole / 4) for k in range(5)) < 0.3 for each in met)
    _quarters_in_words(pattern, whole)


def _round_the_body(pieces: tuple[Piece, ...], panels: int) -> tuple[Piece, ...]:
    """Return the panels of a body with two like sides as they follow: out, and back mirrored."""
    pairs = [one for one in pieces if one.mirrored]
    middle = [one for one in pieces if one.count == 1]
    assert 2 * len(pairs) + len(middle) == panels
    back = [_flipped(one) for one in reversed(pairs)]
    return (*pairs, *middle, *back)


def _flipped(one: Piece) -> Piece:
    """Return a stand-in for the mirror image: its line is met from the other end."""
    long, ticks = _ruffle_line(one)
    (inner,) = (line for line in one.inner_lines if line.kind is InnerKind.RUFFLE_LINE)
    turned = replace(inner, ticks=tuple(sorted(long - tick for tick in ticks)))
    return replace(one, inner_lines=(turned,))


def _ruffle_line(one: Piece) -> tuple[float, tuple[float, ...]]:
    (inner,) = (line for line in one.inner_lines if line.kind is InnerKind.RUFFLE_LINE)
    return tape.walked_length(inner.path), inner.ticks


def _quarters_in_words(pattern: Pattern, line: float) -> None:
    flat = all_round([piece(pattern, "ruffle strip")], "gathered")
    words = f"each quarter of {cm(flat / 4)} is drawn up to {cm(line / 4)}"
    assert words in ticket_words(pattern)


def test_quarters_of_every_tier_are_told_on_both_edges() -> None:
    """Row 13: flat over the edge above, a quarter of each, for every tier of a skirt."""
    pattern = drafted('cut = "tiered"\nlength = "75 cm"\ntier_ratios = [2, 1.5]')
    above = all_round(parts(pattern, "skirt"), "hem")
    words = ticket_words(pattern)
    for ratio in (2, 1.5):
        told = f"each quarter of {cm(ratio * above / 4)} is drawn up to {cm(above / 4)}"
        assert told in words
        above *= ratio


@pytest.mark.parametrize(
    "skirt", ['level = "waist"\nlength = "58 cm"', 'hem_above_floor = "48 cm"']
)
@pytest.mark.parametrize("panels", [2, 3, 4])
def test_quarters_of_the_waist_are_marked_by_arc_length(skirt: str, panels: int) -> None:
    """Row 13: on skirt and band alike; by angle the side would come to lie wrong on the body."""
    pattern = drafted(f"{skirt}\npanels = {panels}", wearer=UNEVEN)
    pieces = parts(pattern, "skirt")
    assert [one.count for one in pieces] == [1] * panels
    met, walked = {}, 0.0
    for one in pieces:
        long = tape.walked_length(edge_named(one, "waist").path)
        for notch in one.notches:
            if notch.edge == 3:
                met[notch.words] = walked + long - notch.at
        for edge, at in ((one.edges[0], walked), (one.edges[2], walked + long)):
            if edge.words != "panel seam":
                met.setdefault(edge.words, at)
        walked += long
    assert met == pytest.approx(
        {"centre back": 0, "right side": walked / 4, "centre front": walked / 2,
         "left side": 3 * walked / 4}, abs=0.3
    )  # fmt: skip
    band = {notch.words: notch.at for notch in piece(pattern, "band").notches if notch.at < 700}
    assert band == pytest.approx(
        {"centre back": 0, "right side": FINISHED / 4, "centre front": FINISHED / 2,
         "left side": 3 * FINISHED / 4}, abs=0.05
    )  # fmt: skip


@pytest.mark.parametrize("panels", [1, 2, 4, 5, 6, 7])
@pytest.mark.parametrize("ratio", [2, 2.6, 3])
def test_a_join_of_the_ruffle_near_a_lining_seam_is_told(panels: int, ratio: float) -> None:
    """Row 13: turned round as well as it can be, a join under 4 cm from a seam is reported."""
    more = f'[lining]\npanels = {panels}\n[ruffle]\ndepth = "15 cm"\ngather_ratio = {ratio}'
    pattern = drafted('length = "62 cm"\nfullness = 2', more)
    strips = piece(pattern, "ruffle strip").count
    line = DRAFTED + math.pi * (620 - 30 - 10 - 150)
    seams = [k * line / panels for k in range(panels)]

    def nearest(shift: float) -> float:
        joins = [(shift + k * line / strips) % line for k in range(strips)]
        return min(min(abs(j - s), line - abs(j - s)) for j in joins for s in seams)

    best = max(nearest(k * line / strips / 2000) for k in range(2000))
    if best < 39:
        told = said(pattern, "join-near-seam")
        assert "comes within" in told
        assert abs(10 * float(told.split("within ")[1].split(" cm")[0]) - best) < 1.5
    elif best > 41:
        assert "join-near-seam" not in codes(pattern)


# --- 14, 15: the opening and the lining ------------------------------------------------------


def _string_round(radius: float, slit: float, circles: float) -> float:
    """Return the length of a string round a waist hole and the slit's end, pulled tight.

    The cloth is laid out flat. Seen from the straight line between the two ends, the string
    is the hull of the ends and of whatever rim of the hole stands out beyond that line.
    """
    sector = math.tau * circles
    straight = (radius + slit) * math.cos(sector / 2) if circles < 1 else -radius
    rim = [
        (radius * math.cos(sector * k / 4000), radius * math.sin(sector * k / 4000))
        for k in range(4001)
        if radius * math.cos(sector * k / 4000 - sector / 2) >= straight
    ]
    deep = radius + slit
    ends = [(deep, 0.0), (deep * math.cos(sector), deep * math.sin(sector))]
    hull = _hull([*rim, *ends])
    loop = math.fsum(math.dist(a, b) for a, b in zip(hull, [*hull[1:], hull[0]], strict=True))
    return loop - (math.dist(*ends) if circles < 1 else 0.0)


def _hull(dots: list[tuple[float, float]]) -> list[tuple[float, float]]:
    halves = []
    for row in (sorted(set(dots)), sorted(set(dots), reverse=True)):
        half: list[tuple[float, float]] = []
        for x, y in row:
            while len(half) > 1:
                (ax, ay), (bx, by) = half[-2:]
                if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                    break
                half.pop()
            half.append((x, y))
        halves += half[:-1]
    return halves


def _slit(one: Piece) -> float:
    """Return how far below the waist the end of the opening is marked, under the tape."""
    (dot, *_) = (dot for dot in one.dots if dot.words.startswith("opening ends"))
    ends = [end for edge in (one.edges[0], one.edges[2]) for end in _ends(edge.path[0], dot)]
    return min(ends)


def _ends(line: object, dot: Dot) -> list[float]:
    assert isinstance(line, Line)
    if tape.gap(dot.at, (line,)) > 0.01:
        return []
    return [math.dist(dot.at, line.start), math.dist(dot.at, line.end)]


# The trade sells zips by the centimetre in these lengths.
ZIPS = (15, 18, 20, 22, 25, 30, 35, 40, 50, 55, 60)


@pytest.mark.parametrize("circles", [0.25, 0.4, 0.5, 1])
@pytest.mark.parametrize("band", [20, 45])
def test_the_hip_goes_through_the_opening_and_the_zip_through_the_band(
    circles: float, band: int
) -> None:
    """Row 14: a taut string through the marked slit lets the hip and 4 cm pass in each layer."""
    skirt = f'length = "62 cm"\nfullness = {circles}\nband = "{band} mm"'
    pattern = drafted(skirt, "[lining]\nfullness = 0.5")
    slits = []
    for layer, share in (("skirt", circles), ("lining", 0.5)):
        slit = _slit(parts(pattern, layer)[0])
        radius = DRAFTED / (math.tau * share)
        assert _string_round(radius, slit + 0.1, share) >= HIP + 40
        # No longer than that, or than the 17 cm that the simple habit asks for.
        assert slit <= 171 or _string_round(radius, slit - 2, share) < HIP + 40
        slits.append(slit)
    need = max(slits) + band
    zip_long = next(10 * each for each in ZIPS if 10 * each >= need - 0.01)
    words = ticket_words(pattern)
    assert f"zip {cm(zip_long)} ({cm(max(slits))} and {cm(band)} of band" in words


def test_the_simple_rule_is_not_believed() -> None:
    """Row 14: half of what is missing would be 14 cm (E10); the string asks for 18.3."""
    pattern = drafted('length = "62 cm"\nwaist_ease = 0\nwaist_stretch = 0')
    assert _slit(parts(pattern, "skirt")[0]) == pytest.approx(183.1, abs=0.1)


def test_a_waist_without_an_opening_that_stops_the_hip_is_refused() -> None:
    """Row 14: a band with no closure, or too few gathers under elastic, lets nobody in."""
    shut = drafted('length = "62 cm"\nclosure = "none"')
    elastic = drafted('length = "62 cm"\nwaist_finish = "casing"\ngather_ratio = 1.2')
    for pattern in (shut, elastic):
        assert finding(pattern, "hip-does-not-pass").level is Level.STOP
    wide = drafted('length = "62 cm"\nfullness = 0.75\nwaist_finish = "casing"\ngather_ratio = 1.5')
    assert all_round(parts(wide, "skirt"), "waist") >= HIP + 40
    assert "hip-does-not-pass" not in codes(wide)


@pytest.mark.parametrize("shape", ["gather_ratio = 1.5\nfullness = 0.75", 'cut = "gathered"'])
def test_the_lining_is_never_gathered_like_the_skirt(shape: str) -> None:
    """Row 15: it is drawn to the finished waist, whatever gathers lie over it."""
    pattern = drafted(f'length = "60 cm"\n{shape}\nwaist_stretch = 0.01', "[lining]")
    assert all_round(parts(pattern, "lining"), "waist") == pytest.approx(DRAFTED, abs=0.1)
    assert all_round(parts(pattern, "skirt"), "waist") > 1.4 * DRAFTED


def _step_needs(long: float) -> float:
    """Return the sweep that one step takes at a hem, its leg's girth read between three tapes."""
    leg = 1060 - HIP_DEPTH
    (at, girth), (further, less) = (
        ((600, 380), (780, 350)) if long <= 780 else ((780, 350), (950, 250))
    )
    round_leg = girth + (less - girth) * (max(long, 600) - at) / (further - at)
    return 2 * STEP * (long - HIP_DEPTH) / leg + round_leg * HIP / 1000


@pytest.mark.parametrize("long", [750, 850, 950])
def test_a_lining_too_narrow_to_walk_in_is_caught(long: int) -> None:
    """Row 15: a narrow shaped lining without a vent is stopped, and told what a step needs."""
    narrow = '[lining]\ncut = "gored"\nshaped = true\nfullness = 0.05\nvent = 0'
    pattern = drafted(f'length = "{long} mm"', narrow)
    sweep = all_round(parts(pattern, "lining"), "hem")
    need = _step_needs(long - 30)
    assert sweep < need
    assert finding(pattern, "sweep-too-small").level is Level.STOP
    assert f"lining's sweep is {cm(sweep)}" in said(pattern, "sweep-too-small")
    assert f"needs about {cm(need)} there" in said(pattern, "sweep-too-small")


def test_a_narrow_lining_is_given_a_vent() -> None:
    """Row 15: left to itself it is open from above the knee, marked where the slit begins."""
    narrow = '[lining]\ncut = "gored"\nshaped = true\nfullness = 0.05'
    pattern = drafted('length = "75 cm"', narrow)
    knee = 583 - 60
    assert f"open for {cm(720 - knee)} up from the hem" in said(pattern, "vent")
    (gore,) = parts(pattern, "lining")
    assert any(dot.words.startswith("vent begins") for dot in gore.dots)


def test_linings_left_to_the_draft_walk() -> None:
    """Row 15: at every length the default lining has a tenth more than a step takes."""
    for long in (450, 600, 800, 1000):
        pattern = drafted(f'length = "{long} mm"', "[lining]")
        assert all_round(parts(pattern, "lining"), "hem") > 1.1 * _step_needs(long - 30)
        assert not codes(pattern) & {"sweep-too-small", "sweep-tight", "vent"}


@pytest.mark.parametrize(
    ("shorter", "above", "peeps"), [(30, 10, False), (20, 5, False), (20, 0, True), (15, 5, True)]
)
def test_a_ruffle_never_peeps_out_below_the_skirt(shorter: int, above: int, peeps: bool) -> None:
    """Row 15: what hangs below its lower edge is measured; less than 2.5 cm is told."""
    more = (
        f'[lining]\nshorter = "{shorter} mm"\n[ruffle]\ndepth = "20 cm"\nabove_hem = "{above} mm"'
    )
    pattern = drafted('length = "62 cm"\nfullness = 2', more)
    (lining,) = parts(pattern, "lining")
    (skirt,) = parts(pattern, "skirt")
    (line,) = (one for one in lining.inner_lines if one.kind is InnerKind.RUFFLE_LINE)
    start = tape.chain(line.path, 2)[0]
    down = math.dist(start, lining.edges[0].path[0].start)
    cover = tape.walked_length(skirt.edges[0].path) - down - 200
    assert cover == pytest.approx(shorter + above, abs=0.05)
    assert ("ruffle-peeps-out" in codes(pattern)) is peeps
    if peeps:
        assert f"hangs only {cm(cover)} below the ruffle" in said(pattern, "ruffle-peeps-out")


# --- 16, 17: the cloth -----------------------------------------------------------------------


@pytest.mark.parametrize("circles", [0.5, 1, 2])
@pytest.mark.parametrize("grain", ["edge", "centre"])
@pytest.mark.parametrize("width", [900, 1120, 1400])
@pytest.mark.parametrize("long", [600, 900])
def test_no_panel_is_wider_than_its_cloth(
    circles: float, grain: str, width: int, long: int
) -> None:
    """Row 16: every panel's box lies between the selvages, or the panel is split and told so."""
    skirt = f'length = "{long} mm"\nfullness = {circles}\ngrain = "{grain}"'
    pattern = drafted(skirt, f'[cloth.skirt]\nwidth = "{width} mm"\nshrink_width = 0')
    asked = math.ceil(2 * circles)
    (panel,) = parts(pattern, "skirt")
    _, across = box_on_grain(panel)
    assert not stops(pattern.findings)
    assert across <= width - 2 * 10 + 0.01
    assert ("panel-split" in codes(pattern)) is (panel.count > asked)
    if panel.count > asked:
        assert f"so it is cut in {panel.count}" in said(pattern, "panel-split")


def test_the_selvage_is_never_counted_as_cloth() -> None:
    """Row 16: half a circle that just fits the bolt is split once its selvages are off."""
    # Straight edge on the selvage: hem radius, its allowances and one seam lie across.
    bare, edged = (
        drafted(
            'length = "62 cm"',
            f'[cloth.skirt]\nwidth = "77 cm"\nselvage = "{selvage} mm"\nshrink_width = 0\n'
            '[skirt.allowances]\nhem = "12 mm"',
        )
        for selvage in (0, 10)
    )
    across = DRAFTED / math.tau + 620 + 12 + 15
    assert 770 - 20 < across < 770
    assert box_on_grain(parts(bare, "skirt")[0])[1] == pytest.approx(across, abs=1)
    assert parts(bare, "skirt")[0].count == 2
    assert parts(edged, "skirt")[0].count > 2


def test_a_skirt_that_no_cloth_takes_is_refused() -> None:
    """Row 16: a panel as long as this is wider than 30 cm however many it is cut in."""
    pattern = drafted('length = "100 cm"\nfullness = 4', '[cloth.skirt]\nwidth = "30 cm"')
    assert finding(pattern, "cloth-too-narrow").level is Level.STOP


@pytest.mark.parametrize("grain", ["edge", "centre"])
@pytest.mark.parametrize("panels", [2, 4])
@pytest.mark.parametrize("width", [1120, 1400, 1800])
def test_a_fold_that_the_cloth_cannot_make_is_never_asked_for(
    grain: str, panels: int, width: int
) -> None:
    """Row 16: the half fits half the cloth, or lies across it, or the paper says turn it over."""
    skirt = f'length = "60 cm"\ngrain = "{grain}"\npanels = {panels}'
    cloth = f'[cloth.skirt]\nfold = true\nwidth = "{width} mm"\nshrink_width = 0'
    pattern = drafted(skirt, cloth)
    (panel,) = parts(pattern, "skirt")
    assert panel.half
    usable = width - 20
    along, across = box_on_grain(panel)
    (fold,) = (edge.path[0] for edge in panel.edges if edge.kind is EdgeKind.FOLD)
    leaning = _angle_between((fold.start, fold.end), panel.grainline)
    words = ticket_words(pattern)
    if panel.fold_way is FoldWay.LENGTHWISE:
        assert leaning == pytest.approx(0, abs=1e-6)
        assert across / 2 <= usable / 2 + 0.01
        assert "on a lengthwise fold, selvage laid to selvage" in words
    elif panel.fold_way is FoldWay.CROSSWISE:
        assert leaning == pytest.approx(90, abs=1e-6)
        assert across <= usable + 0.01
        assert along > across
        assert "on a crosswise fold, cut end laid to cut end" in words
    else:
        assert "whole from this half: no fold of the cloth can take it" in words
        assert "turn the paper over" in page_words(pattern)
        assert "cannot be folded to take it" in said(pattern, "half-drawn")


def _angle_between(one: tuple[Point, Point], other: tuple[Point, Point]) -> float:
    """Return the angle between two lines, 0 to 90 degrees."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    along = (bx - ax) * (dx - cx) + (by - ay) * (dy - cy)
    return math.degrees(math.atan2(abs(across), abs(along)))


def test_a_one_way_cloth_is_read_and_yardage_is_never_taken_from_area() -> None:
    """Row 17: nap is a word of the sheet, and rows of boxes are told, not areas.

    Which way round each panel lies, and what a nap costs in cloth, wait for the lay plan; until
    then the key is kept and nothing that is printed hangs on it.
    """
    skirt = 'length = "60 cm"'
    napped = read_sheet(sheet(skirt, "[cloth.skirt]\none_way = true"))
    assert napped.cloths.skirt.one_way
    assert not read_sheet(sheet(skirt)).cloths.skirt.one_way
    pattern = draft(napped)
    (panel,) = parts(pattern, "skirt")
    along, across = box_on_grain(panel)
    usable = (1400 - 20) * (1 - napped.cloths.skirt.shrink_width)
    assert usable < 2 * across  # two half circles lie one after the other
    rows = 2 * along + _band_row(pattern)
    assert f"skirt {cm(rows)} of cloth 140.0 cm wide" in ticket_words(pattern)
    area = 2 * abs(tape.walked_area(cutting_line(panel)))
    assert rows > 1.3 * area / usable


def _band_row(pattern: Pattern) -> float:
    """Return what the band adds: it lies beside a panel if there is room, else after both."""
    along, across = box_on_grain(piece(pattern, "band"))
    room = 1380 * 0.98 - box_on_grain(parts(pattern, "skirt")[0])[1]
    return 0.0 if across <= room else along


# --- 18: printing ----------------------------------------------------------------------------


def _file(pattern: Pattern) -> bytes:
    return pdf_bytes(on_paper(pattern).document)


def _pressed(data: bytes, across: float, up: float) -> bytes:
    """Return a file whose drawings were scaled after it was written, as "fit" does."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            page.contents_add(f"q {across} 0 0 {up} 0 0 cm\n".encode(), prepend=True)
            page.contents_add(b"\nQ")
        out = io.BytesIO()
        pdf.save(out)
    return out.getvalue()


@pytest.mark.parametrize("units", ["cm", "in"])
def test_the_first_page_has_a_square_to_measure_both_ways(units: str) -> None:
    """Row 18: a square and two rules on page 1, both axes named, and what to do if they are off."""
    pattern = drafted('length = "60 cm"', top=f'units = "{units}"')
    first = on_paper(pattern).document.pages[0]
    words = plain(" ".join(text.text for text in first.drawing.texts))
    for part in (
        "100 mm each way",
        "across",
        "up",
        "at 100 % or “actual size”, never “fit”",
        "Measure the square across and up",
        "print at 100 × 100 ÷ what you measured: 98.5 mm asks for 101.5 %",
        "If across and up differ by more than 0.3 mm",
    ):
        assert part in words
    found = proof(_file(pattern))
    assert found.square == pytest.approx((100, 100), abs=0.01)
    assert min(found.rules) >= 180
    assert found.true_size
    assert not found.faults


@pytest.mark.parametrize(("across", "up"), [(0.96, 0.96), (0.99, 1), (1, 0.99), (1, 1.003)])
def test_a_file_printed_to_fit_is_caught_on_either_axis(across: float, up: float) -> None:
    """Row 18: one axis is enough: the proof measures the square across and up."""
    found = proof(_pressed(_file(drafted('length = "60 cm"')), across, up))
    assert any(f"{across:.2%} across and {up:.2%} up" in fault for fault in found.faults)


def test_pages_turned_to_fit_ask_printers_to_leave_their_size_alone() -> None:
    """Row 18: a file that lost that wish is told apart from ours."""
    data = _file(drafted('length = "60 cm"'))
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        del pdf.Root.ViewerPreferences
        out = io.BytesIO()
        pdf.save(out)
    assert any("leave its size alone" in fault for fault in proof(out.getvalue()).faults)


@pytest.mark.parametrize(
    ("skirt", "more"),
    [
        ('length = "62 cm"\nfullness = 2', '[lining]\n[ruffle]\ndepth = "20 cm"'),
        ('hem_above_floor = "48 cm"\npanels = 4', "[lining]"),
        ('cut = "tiered"\nlength = "75 cm"', ""),
    ],
)
def test_a_ticket_says_the_same_however_pieces_lie_on_its_pages(skirt: str, more: str) -> None:
    """What is read here of pieces side by side on A3 is what is printed on A4.

    Counts and names of pages differ, and the words between two names.
    """
    pattern = drafted(skirt, more)
    row, pages = (
        [word for word in words.split() if re.search("[a-z]{3}", word)]
        for words in (ticket_words(pattern), printed_ticket_words(on_paper(pattern)))
    )
    assert row == pages
    assert len(row) > 300


# --- 19: labels ------------------------------------------------------------------------------


def _drawn(name: str) -> Pattern:
    """Return an example with its strips on the pages too, so that every piece is printed."""
    spec = pattern_of_example(name).spec
    return draft(replace(spec, print=replace(spec.print, strips=Strips.DRAWN)))


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_label_leaves_out_count_cloth_allowance_or_wearer(name: str) -> None:
    """Row 19: every label says how often, of what, with what around it, for whom, how large.

    Each file holds one size, so no nest has to be told apart, by colour or otherwise.
    """
    pattern = _drawn(name)
    assert not stops(pattern.findings)
    spec, many = pattern.spec, len(pattern.pieces)
    who = spec.wearer.label or spec.wearer.size
    for order, one in enumerate(pattern.pieces, start=1):
        label = [plain(words) for words in label_words(one, spec, number=order, of=many)]
        cloth = one.cloth if one.cloth in ("interfacing", "binding") else f"{one.cloth} cloth"
        half = "half is shown, " if one.half else ""
        assert label[0].startswith(f"piece {order} of {many}: {half}cut {one.count} from {cloth}")
        assert ("mirrored pair" in label[0]) is one.mirrored
        assert "included" in label[1]
        assert any(line.startswith(f"{spec.title}, ") and who in line for line in label)
        assert label[-1].endswith("scale 1 : 2" if spec.scale < 1 else "scale 1 : 1")


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_piece_on_the_pages_has_its_label_whole(name: str) -> None:
    """Row 19: of each piece that is printed, one copy of its label at least is not cut short."""
    pattern = pattern_of_example(name)
    words, many = printed_page_words(layout_of_example(name)), len(pattern.pieces)
    for order, one in enumerate(pattern.pieces, start=1):
        if one.rectangle:
            continue  # listed with its cutting measures, and not printed
        copies = words.split(f"piece {order} of {many}: ")[1:]
        assert any("included" in copy.partition("scale 1 : ")[0] for copy in copies), one.name


def test_a_mirrored_pair_is_called_one_on_its_label() -> None:
    """Row 19: two panels with a closure between them are a pair, and the interfacing is told."""
    pattern = drafted('length = "45 cm"', '[print]\nstrips = "drawn"')
    words = printed_page_words(on_paper(pattern))
    assert "piece 1 of 3: cut 2 from skirt cloth, a mirrored pair" in words
    assert "piece 2 of 3: cut 1 from skirt cloth, and 1 from interfacing" in words
    assert "waist 1.0 cm" in words.partition("included: seams 1.5 cm, hem ")[2]
    assert "Pier skirt, Ticket seller" in words


@pytest.mark.parametrize("long", [45, 62])
def test_a_half_is_never_cut_as_a_whole(long: int) -> None:
    """Row 19: "half is shown" stands on the label of every half, whatever room its fold has."""
    folded = "[cloth.skirt]\nfold = true\n[cloth.lining]\nfold = true"
    pattern = drafted(f'length = "{long} cm"', f"[lining]\n{folded}")
    words = printed_page_words(on_paper(pattern))
    halves = [one for one in pattern.pieces if one.half]
    assert len(halves) == 2
    for order, _ in enumerate(halves, start=1):
        assert f"piece {order} of {len(pattern.pieces)}: half is shown, cut " in words
    assert "; none at the fold" in ticket_words(pattern)


def test_a_pattern_for_nobody_in_particular_names_the_waist_that_it_fits() -> None:
    """Row 19: with neither a label nor a size, the waist is on every piece and on the ticket."""
    nameless = WEARER.replace('label = "Ticket seller"', "")
    pattern = drafted('length = "45 cm"', wearer=nameless)
    assert "Pier skirt, for a waist of 72.0 cm" in page_words(pattern)
    assert "for a waist of 72.0 cm" in ticket_words(pattern)


# --- 20: half scale and cautions -------------------------------------------------------------

OPEN_ALLOWANCES = {"waist": 6.0, "side": 10.0, "hem": 6.0}
GIVEN = '[skirt.allowances]\nwaist = "1 cm"\nside = "1,5 cm"\nhem = "1 cm"'
GIVEN_ALLOWANCES = {"waist": 10.0, "side": 15.0, "hem": 10.0}


@pytest.mark.parametrize(
    ("given", "wanted"), [("", OPEN_ALLOWANCES), (GIVEN, GIVEN_ALLOWANCES)], ids=["open", "given"]
)
def test_a_half_scale_draft_halves_the_body_and_nothing_that_is_sewn(
    given: str, wanted: dict[str, float]
) -> None:
    """Row 20: seam lines are half as long; allowances are a sewer's, not half of them."""
    skirt = 'length = "60 cm"'
    full, half = (drafted(skirt, given, top=f'scale = "{scale}"') for scale in ("full", "half"))
    (large,), (small,) = parts(full, "skirt"), parts(half, "skirt")
    for one, other in zip(large.edges, small.edges, strict=True):
        long, short = tape.walked_length(one.path), tape.walked_length(other.path)
        assert short == pytest.approx(long / 2, abs=0.01)
    for at, name in ((0, "side"), (1, "hem"), (2, "side"), (3, "waist")):
        drawn = allowance_drawn(small, small.edges[at])
        assert wanted[name] - 0.01 <= drawn
        # A hem may have more, to spare for levelling, and the estimate of that is small.
        assert drawn <= wanted[name] + (3 if name == "hem" else 0.01)


def test_the_words_and_the_square_of_a_half_scale_draft_are_full_size() -> None:
    """Row 20: type, test square, page margins and overlap are the same as at full scale."""
    full, half = (
        drafted('length = "60 cm"', "[lining]\n[ruffle]", top=f'scale = "{scale}"')
        for scale in ("full", "half")
    )
    sizes = [
        {text.size for page in on_paper(one).document.pages for text in page.drawing.texts}
        for one in (full, half)
    ]
    assert min(sizes[0]) == min(sizes[1])
    assert {size for size in sizes[0] if size < 8} == {size for size in sizes[1] if size < 8}
    assert proof(_file(half)).square == pytest.approx((100, 100), abs=0.01)
    assert on_paper(half).sheets.grid == on_paper(full).sheets.grid
    words = ticket_words(half)
    assert "half scale, 1 : 2" in words
    assert "half-scale draft, 1 : 2, beside a full-scale square: print it at 100 %" in words


def test_every_label_of_a_half_scale_draft_says_so() -> None:
    """Row 20: 1 : 2 on each piece, strips and band with them, and 1 : 1 on none."""
    more = '[lining]\n[ruffle]\n[print]\nstrips = "drawn"'
    pattern = drafted('length = "60 cm"', more, top='scale = "half"')
    assert len(pattern.pieces) > 3
    assert page_words(pattern).count("scale 1 : 2") >= len(pattern.pieces)
    assert "scale 1 : 1" not in page_words(pattern)
    for order, one in enumerate(pattern.pieces, start=1):
        label = label_words(one, pattern.spec, number=order, of=len(pattern.pieces))
        assert label[-1].endswith("scale 1 : 2")


def test_a_half_scale_ruffle_keeps_its_rows_and_joins() -> None:
    """Row 20: gathering rows are sewn at full size, and strips see the whole cloth."""
    more = '[lining]\n[ruffle]\ncloth = "silk organza"\ndepth = "20 cm"'
    half = piece(drafted('length = "60 cm"', more, top='scale = "half"'), "ruffle strip")
    rows = _rows_drawn(half, "gathered")
    assert sorted(raw for raw, _ in rows) in ([8, 13], [pytest.approx(12)])
    assert allowance_drawn(half, edge_named(half, "gathered")) == pytest.approx(15)
    assert allowance_drawn(half, edge_named(half, "join")) == pytest.approx(15)


@pytest.mark.parametrize("scale", ["full", "half"])
@pytest.mark.parametrize("paper", [PaperName.A4, PaperName.LETTER])
def test_the_cautions_are_never_left_out(scale: str, paper: PaperName) -> None:
    """Row 20: fire, tools and local rules are printed on every ticket there is."""
    for skirt, more in (
        ('length = "60 cm"', ""),
        ('cut = "gathered"\nlength = "45 cm"', ""),
        ('cut = "gored"\nlength = "60 cm"', "[lining]\n[ruffle]"),
    ):
        words = ticket_words(drafted(skirt, more, top=f'scale = "{scale}"'), paper)
        assert "Fire: full skirts and light cloth catch easily" in words
        assert "stop, drop, roll" in words
        assert "close rotary cutters, cut away from yourself" in words
        assert "Local safety law, house rules and qualified advice come first" in words
        assert ("melt and stick to skin as they burn" in words) is ("ruffle" in more)


def test_cords_are_cautioned_on_children_and_stairs_under_long_hems() -> None:
    """Row 20: a child's skirt names cords and nightwear; a hem near the floor, that it trips."""
    child = ticket_words(drafted('length = "35 cm"', wearer=CHILD))
    assert "no cords or drawstrings, no dangling ends at waist or hem, no nightwear" in child
    long = ticket_words(drafted('length = "98 cm"'))
    assert "Long hems trip" in long
    assert "Long hems trip" not in ticket_words(drafted('length = "60 cm"'))


def test_a_bias_strip_is_listed_even_where_strips_are_drawn() -> None:
    sheet = '[wearer]\nsize = "P04"\n[skirt]\nhem = "bound"\n[print]\nstrips = "drawn"\n'
    pattern = draft(read_sheet(sheet))
    names = {piece.name for piece in pattern.pieces}
    drawn = {p.piece.name for p in on_paper(pattern).sheets.placements}
    assert names - drawn == {"hem binding"}
