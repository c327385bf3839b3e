"""The draft as a whole: whoever is measured and whatever is chosen."""

import json
import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from drafting.cloth import box_on_cloth, usable_width
from drafting.figures import as_json
from drafting.findings import Level, stops
from drafting.geometry import Arc, Segment
from drafting.pattern import Pattern, draft
from drafting.piece import (
    FoldWay,
    InnerKind,
    Piece,
    cutting_area,
    cutting_line,
    edge_named,
    stitching_line,
)
from drafting.sheet import load
from drafting.spec import (
    Allowances,
    Closure,
    Cloth,
    Cloths,
    Figure,
    Grain,
    HemFinish,
    Lining,
    Ruffle,
    RuffleCloth,
    Skirt,
    Spec,
    WaistFinish,
    Wearer,
)
from drafting.truing import Side
from drafting.units import Units
from tests import tape
from tests.drawn import drawn
from tests.garments import PAGE_BOY, SOUBRETTE, chorus_skirt, garment, piece_named

GOLDEN = Path(__file__).parent.parent / "golden"

wearers = st.builds(
    lambda waist, more, depth, floor, heel, step, figure: Wearer(
        figure=figure,
        waist=waist,
        hip=max(waist + more, 330),
        hip_depth=depth,
        waist_to_knee=0.55 * floor,
        floor_front=floor,
        floor_side=floor + 15,
        floor_back=floor + 5,
        height=1.6 * floor,
        heel=heel,
        step=step,
    ),
    st.floats(250, 1800),
    st.floats(-350, 600),
    st.floats(70, 300),
    st.floats(380, 1350),
    st.floats(0, 180),
    st.floats(200, 1000),
    st.sampled_from(Figure),
)
allowances = st.builds(
    Allowances,
    waist=st.floats(3, 40),
    side=st.floats(3, 50),
    hem=st.one_of(st.none(), st.floats(0, 100)),
)
skirts = st.builds(
    Skirt,
    fullness=st.one_of(st.floats(0.2, 4), st.sampled_from((0.25, 0.5, 0.75, 1.0, 2.0))),
    length=st.floats(100, 1600),
    panels=st.one_of(st.none(), st.integers(1, 24)),
    waist_ease=st.floats(0, 100),
    waist_stretch=st.floats(0, 0.1),
    gather_ratio=st.one_of(st.just(1.0), st.floats(1, 3)),
    grain=st.sampled_from(Grain),
    closure=st.sampled_from(Closure),
    waist_finish=st.sampled_from(WaistFinish),
    band=st.floats(10, 150),
    facing=st.floats(30, 100),
    elastic=st.floats(6, 100),
    hem=st.sampled_from(HemFinish),
    allowances=st.one_of(st.just(Allowances()), allowances),
)
linings = st.builds(
    Lining,
    fullness=st.floats(0.2, 4),
    shorter=st.one_of(st.just(30.0), st.floats(0, 300)),
    panels=st.one_of(st.none(), st.integers(1, 24)),
)
ruffles = st.builds(
    Ruffle,
    cloth=st.sampled_from(RuffleCloth),
    depth=st.one_of(st.none(), st.floats(20, 900)),
    gather_ratio=st.floats(1, 6),
    above_hem=st.floats(0, 100),
    doubled=st.booleans(),
)
cloths = st.builds(
    Cloth,
    kind=st.sampled_from(("", "cotton sateen", "silk crepe", "georgette")),
    width=st.one_of(st.floats(900, 3000), st.floats(100, 6000)),
    selvage=st.floats(0, 100),
    shrink_length=st.floats(0, 0.25),
    shrink_width=st.floats(0, 0.25),
    fold=st.booleans(),
)
# Whatever a sheet lets through.
specs = st.builds(
    garment,
    wearer=wearers,
    skirt=skirts,
    lining=st.one_of(st.none(), linings),
    ruffle=st.one_of(st.none(), ruffles),
    cloths=st.builds(Cloths, skirt=cloths, lining=cloths, ruffle=cloths),
    units=st.sampled_from(Units),
)
# Skirts that mostly can be cut, so that what is drawn is looked at.
likely = st.builds(
    garment,
    wearer=st.builds(
        lambda waist, more: replace(SOUBRETTE, waist=waist, hip=waist + more),
        st.floats(560, 1250),
        st.floats(80, 300),
    ),
    skirt=st.builds(
        Skirt,
        fullness=st.floats(0.3, 1.5),
        length=st.floats(450, 900),
        panels=st.one_of(st.none(), st.integers(2, 9)),
        waist_ease=st.floats(0, 30),
        waist_stretch=st.floats(0, 0.04),
        gather_ratio=st.one_of(st.just(1.0), st.floats(1, 1.6)),
        grain=st.sampled_from(Grain),
        closure=st.sampled_from(Closure),
        waist_finish=st.sampled_from(WaistFinish),
        hem=st.sampled_from(HemFinish),
    ),
    lining=st.one_of(
        st.none(), st.builds(Lining, fullness=st.floats(0.3, 1), shorter=st.floats(20, 50))
    ),
    ruffle=st.one_of(
        st.none(),
        st.builds(
            Ruffle,
            cloth=st.sampled_from(RuffleCloth),
            depth=st.one_of(st.none(), st.floats(120, 350)),
            gather_ratio=st.floats(1.5, 3),
            doubled=st.booleans(),
        ),
    ),
    cloths=st.builds(
        Cloths,
        **{
            part: st.builds(Cloth, width=st.floats(900, 3000), fold=st.booleans())
            for part in ("skirt", "lining", "ruffle")
        },
    ),
)
many = settings(
    max_examples=drawn(120),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.large_base_example],
)


def sewn_length(sides: tuple[Side, ...], pieces: dict[str, Piece]) -> float:
    return sum(side.times * sewn_once(side, pieces) for side in sides)


def sewn_once(side: Side, pieces: dict[str, Piece]) -> float:
    piece = pieces[side.piece]
    for line in piece.inner_lines:
        if line.kind == side.edge:
            return tape.walked_length(line.path)
    edge = piece.edges[side.edge] if isinstance(side.edge, int) else edge_named(piece, side.edge)
    return tape.walked_length(edge.path)


NARROW_NET = Cloths(ruffle=Cloth(width=100, selvage=39.99))


@many
@given(specs)
@example(garment(skirt=Skirt(length=200), lining=Lining(fullness=1, shorter=300)))
@example(garment(skirt=Skirt(fullness=1, panels=1, length=500), units=Units.INCH))
@example(
    garment(
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(gather_ratio=6, depth=200),
        cloths=Cloths(ruffle=Cloth(width=100, selvage=50)),
    )
)
@example(garment(lining=Lining(fullness=0.5), ruffle=Ruffle(gather_ratio=6), cloths=NARROW_NET))
@example(garment(lining=Lining(fullness=4), ruffle=Ruffle(gather_ratio=2, depth=900)))
@example(
    garment(
        skirt=Skirt(length=480, closure=Closure.NONE),
        lining=Lining(fullness=1),
        ruffle=Ruffle(gather_ratio=2, depth=518, cloth=RuffleCloth.COTTON_ORGANDY),
    )
)
def test_any_body_and_any_choice_give_a_pattern_or_a_stop_and_never_an_accident(
    spec: Spec,
) -> None:
    pattern = draft(spec)
    assert pattern.pieces or stops(pattern.findings)
    levels = [finding.level for finding in pattern.findings]
    assert levels == sorted(levels, key=[Level.STOP, Level.CAUTION, Level.NOTE].index)
    json.dumps(as_json(pattern.figures, pattern.findings), allow_nan=False)
    for finding in pattern.findings:
        assert finding.what.endswith(".") and finding.do
        assert "nan" not in finding.what and "inf " not in finding.what


@many
@given(likely)
def test_every_seam_that_is_sewn_agrees_to_a_tenth_of_a_millimetre(spec: Spec) -> None:
    pattern = draft(spec)
    pieces = {piece.name: piece for piece in pattern.pieces}
    for seam in pattern.seams:
        one, other = sewn_length(seam.first, pieces), sewn_length(seam.second, pieces)
        assert one == pytest.approx(seam.gather * other + seam.ease, abs=0.1), seam.name


@many
@given(likely)
def test_the_drawn_waist_measures_the_waistline_all_round_on_every_layer(spec: Spec) -> None:
    pattern = draft(spec)
    skirt = spec.skirt
    finished = spec.wearer.waist + skirt.waist_ease
    assert skirt.waist_stretch is not None
    flat = finished * skirt.gather_ratio / (1 + skirt.waist_stretch)
    lined = (
        flat if skirt.waist_finish is WaistFinish.CASING else finished / (1 + skirt.waist_stretch)
    )
    for piece in pattern.pieces:
        if piece.name in ("skirt panel", "lining panel"):
            times = piece.count * (2 if piece.half else 1)
            around = times * tape.walked_length(edge_named(piece, "waist").path)
            wanted = flat if piece.name == "skirt panel" else lined
            assert around == pytest.approx(wanted, abs=0.1), piece.name


@many
@given(specs)
def test_outlines_are_closed_and_hold_cloth(spec: Spec) -> None:
    for piece in draft(spec).pieces:
        for line in (stitching_line(piece), cutting_line(piece)):
            for one, other in zip(line, (*line[1:], line[0]), strict=True):
                assert math.dist(one.end, other.start) < 1e-5, piece.name
        assert tape.walked_area(stitching_line(piece), 400) > 0, piece.name
        if not stops(draft(spec).findings):
            inside, cut = tape.walked_area(stitching_line(piece), 400), cutting_area(piece)
            # A stay of interfacing ends at the stitching, all others have cloth outside it.
            assert cut == pytest.approx(inside) if piece.name == "opening stay" else cut > inside


@many
@given(likely)
def test_ruffle_quarters_are_marked_by_arc_length(spec: Spec) -> None:
    pattern = draft(spec)
    figures = pattern.figures
    lining = next((p for p in pattern.pieces if p.name == "lining panel"), None)
    if figures.ruffle is None or lining is None or not lining.inner_lines:
        return
    if any(piece.name == "lining panel corner" for piece in pattern.pieces):
        return  # a part of the line may lie on the corner; test_pieced adds them up
    (line,) = lining.inner_lines
    copies = lining.count * (2 if lining.half else 1)
    around = copies * tape.walked_length(line.path)
    assert around == pytest.approx(4 * figures.ruffle.line_quarter, abs=0.1)
    whole = around / lining.count
    closure = spec.skirt.closure
    if spec.skirt.waist_finish is WaistFinish.CASING:
        closure = Closure.NONE
    sided = closure is Closure.LEFT_SIDE or (closure is Closure.NONE and lining.count % 2 == 0)
    start = 3 * around / 4 if sided else 0.0
    for quarter in range(4):
        along = (quarter * figures.ruffle.line_quarter - start) % whole
        if min(along, whole - along) < 0.1:
            continue  # a lining seam marks it
        if lining.half:
            along = min(along, whole - along)
        assert min(abs(tick - along) for tick in line.ticks) < 0.1


@many
@given(specs)
def test_no_panel_is_wider_than_its_cloth_unless_a_stop_says_so(spec: Spec) -> None:
    pattern = draft(spec)
    if "cloth-too-narrow" in {f.code for f in stops(pattern.findings)}:
        return
    for piece in pattern.pieces:
        if piece.rectangle or piece.name == "facing":
            continue
        cloth = spec.cloths.skirt if piece.cloth == "skirt" else spec.cloths.lining
        assert box_on_cloth(piece).height <= usable_width(cloth) + 1e-6, piece.name


@many
@given(specs)
def test_rows_take_at_least_the_cloth_that_is_cut(spec: Spec) -> None:
    pattern = draft(spec)
    for name, cloth in pattern.figures.cloth.items():
        mine = [piece for piece in pattern.pieces if piece.cloth == name]
        cut = math.fsum(
            tape.walked_area(cutting_line(p), 200) * p.count * (2 if p.half else 1) for p in mine
        )
        widest = max(cloth.usable, *(box_on_cloth(p).height for p in mine), 1e-9)
        assert cloth.rows_length * widest >= cut * (1 - 1e-3)


@many
@given(specs)
def test_the_same_spec_gives_the_same_pattern(spec: Spec) -> None:
    assert draft(spec) == draft(replace(spec))


def test_a_draft_that_cannot_be_drawn_is_stopped_and_has_no_pieces() -> None:
    tiny = Skirt(fullness=4, length=500, panels=8, allowances=Allowances(waist=40))
    pattern = draft(garment(skirt=tiny))
    assert pattern.pieces == () and pattern.seams == () and pattern.figures.truing == ()
    assert {"cannot-be-drawn", "waist-radius-too-small"} <= {
        f.code for f in stops(pattern.findings)
    }


@pytest.mark.parametrize("fold", [True, False])
def test_a_half_lists_the_seam_of_its_edge_with_its_own_mirror_image(fold: bool) -> None:
    cloth = Cloth(width=1800, fold=fold)
    lined = garment(
        lining=Lining(fullness=0.5),
        ruffle=Ruffle(gather_ratio=2.0, depth=200),
        cloths=Cloths(skirt=cloth, lining=cloth),
    )
    seams = draft(lined).seams
    assert [seam.number for seam in seams] == ["1", "2", "2", "3", "4"]
    for number, name in (("1", "skirt panel"), ("3", "lining panel")):
        (seam,) = (seam for seam in seams if seam.number == number)
        (first,), (second,) = seam.first, seam.second
        assert (first.piece, second.piece) == (name, name)
        # A half has one straight edge for both sides of its seam; a whole has two.
        assert (first.edge == second.edge) is fold
        assert {first.edge, second.edge} == ({0} if fold else {0, 2})
    # Whatever is sewn to the waist has its number on the paper too.
    for piece in draft(lined).pieces:
        waist = {n.seam for n in piece.notches if piece.edges[n.edge].name == "waist"}
        assert waist <= {"2"}
        assert piece.name in ("ruffle strip", "opening stay") or waist


def test_a_piece_knows_how_its_cloth_is_folded() -> None:
    def ways(skirt: Skirt, *, fold: bool = True) -> dict[str, FoldWay]:
        cloths = Cloths(skirt=Cloth(width=1800, fold=fold))
        pieces = draft(garment(skirt=skirt, cloths=cloths)).pieces
        return {piece.name: piece.fold_way for piece in pieces if not piece.rectangle}

    faced = Skirt(length=580, waist_finish=WaistFinish.FACING)
    both = {"skirt panel": FoldWay.CROSSWISE, "facing": FoldWay.CROSSWISE}
    assert ways(faced) == both
    assert ways(faced, fold=False) == dict.fromkeys(both, FoldWay.NONE)
    centred = ways(Skirt(length=580, panels=4, grain=Grain.CENTRE))
    assert centred["skirt panel"] is FoldWay.LENGTHWISE
    # A quarter with its edge on the grain has its middle on the bias.
    assert ways(Skirt(length=580, panels=4))["skirt panel"] is FoldWay.NONE


def test_a_waist_that_is_gathered_is_drawn_with_its_two_rows_and_one_on_elastic_is_not() -> None:
    def rows(skirt: Skirt) -> list[float]:
        """Return how far each gathering row lies outside the waist seam, all along."""
        panel = piece_named(draft(garment(skirt=skirt)).pieces, "skirt panel")
        (waist,) = edge_named(panel, "waist").path
        assert isinstance(waist, Arc)
        found = []
        for line in panel.inner_lines:
            if line.kind is not InnerKind.GATHERING:
                continue
            (row,) = line.path
            assert isinstance(row, Arc)
            assert math.dist(row.centre, waist.centre) < 1e-9
            found.append(waist.radius - row.radius)
        return found

    gathered = Skirt(length=580, gather_ratio=1.5)
    # One row on each side of the seam: 7 and 14 from a raw edge that lies 10 outside it.
    assert rows(gathered) == pytest.approx([3, -4])
    assert rows(Skirt(length=580)) == []
    assert rows(replace(gathered, waist_finish=WaistFinish.CASING)) == []


def test_what_was_noticed_in_the_sheet_is_kept() -> None:
    said = draft(garment(skirt=Skirt(length=1300))).findings[0]
    assert said.level is Level.STOP
    assert said in draft(garment(findings=(said,))).findings


def understudy() -> Spec:
    """A half circle drawn to a fold, faced, with three lining panels and an organdy ruffle."""
    return garment(
        skirt=Skirt(
            fullness=0.5,
            length=600,
            waist_finish=WaistFinish.FACING,
            closure=Closure.LEFT_SIDE,
            hem=HemFinish.TURNED,
            allowances=Allowances(waist=10, side=20, hem=15),
        ),
        lining=Lining(fullness=0.4, shorter=35, panels=3),
        ruffle=Ruffle(cloth=RuffleCloth.COTTON_ORGANDY, depth=180, gather_ratio=2.0, doubled=True),
        cloths=Cloths(skirt=Cloth(width=1800, fold=True)),
    )


def page_boy() -> Spec:
    """A child's pull-on three-quarter circle in three panels, gathered on to elastic."""
    return garment(
        wearer=PAGE_BOY,
        skirt=Skirt(
            fullness=0.75,
            panels=3,
            length=350,
            waist_ease=20,
            gather_ratio=1.4,
            grain=Grain.CENTRE,
            waist_finish=WaistFinish.CASING,
            hem=HemFinish.ROLLED,
            allowances=Allowances(hem=4),
        ),
    )


def stroke(segment: Segment) -> str:
    def at(value: float) -> str:
        return f"{round(value, 2) + 0.0:10.2f}"

    (ax, ay), (bx, by) = segment.start, segment.end
    ends = f"{at(ax)}{at(ay)}  ->{at(bx)}{at(by)}"
    if not isinstance(segment, Arc):
        return f"  line {ends}"
    way = "left" if segment.finish > segment.begin else "right"
    (cx, cy) = segment.centre
    return f"  arc  {ends}  radius{at(segment.radius)} about{at(cx)}{at(cy)} turning {way}"


def strokes(pattern: Pattern) -> str:
    lines: list[str] = []
    for piece in pattern.pieces:
        lines.append(f"{piece.name}, cut {piece.count}")
        lines += [" cutting line", *map(stroke, cutting_line(piece))]
        for edge in piece.edges:
            lines += [f" stitching line, {edge.name}", *map(stroke, edge.path)]
        for inner in piece.inner_lines:
            lines += [f" {inner.kind.value}", *map(stroke, inner.path)]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    ("name", "spec"),
    [
        ("chorus-skirt", chorus_skirt()),
        ("understudy-half-circle", understudy()),
        ("page-boy-pull-on", page_boy()),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_the_strokes_of_a_garment_are_those_of_its_golden_file(
    name: str, spec: Spec, update_golden: bool
) -> None:
    pattern = draft(spec)
    assert not stops(pattern.findings)
    drawn, file = strokes(pattern), GOLDEN / f"{name}.txt"
    kept = file.read_text(encoding="utf-8") if file.exists() else ""
    if update_golden and drawn != kept:
        file.write_text(drawn, encoding="utf-8", newline="\n")
        pytest.skip(f"{file.name} was rewritten: read the diff")
    assert drawn == kept


# Examples of the other cuts: gores with godets, a flounce under a shaped band, tiers on a yoke.
SHEETS = ("twirl-skirt", "bandstand-skirt", "wave-petticoat")


@pytest.mark.parametrize("name", SHEETS)
def test_the_strokes_of_an_example_are_those_of_its_golden_file(
    name: str, update_golden: bool
) -> None:
    sheet = Path(__file__).parent.parent.parent / "measurements_examples" / f"{name}.toml"
    test_the_strokes_of_a_garment_are_those_of_its_golden_file(name, load(sheet), update_golden)
