"""What is printed on a piece and in the cut list."""

from dataclasses import replace

import pytest

from drafting.pattern import draft
from drafting.piece import Edge, EdgeKind, FoldWay, Piece
from drafting.spec import (
    Cloth,
    Cloths,
    Lining,
    Publish,
    Ruffle,
    RuffleCloth,
    Skirt,
    WaistFinish,
    Wearer,
)
from drafting.units import Units
from render.words import (
    allowance_words,
    check_words,
    cut_words,
    edition_words,
    fold_words,
    label_words,
    wearer_words,
)
from tests.garments import CHORUS_TALL, garment, piece_named
from tests.render.cloth_shapes import rectangle


def panel(**changes: object) -> Piece:
    return replace(rectangle(500, 600, name="skirt panel"), **changes)  # type: ignore[arg-type]


def allowed(**widths: float) -> Piece:
    piece = panel()
    kinds = {"hem": EdgeKind.HEM}

    def edge(held: Edge) -> Edge:
        kind = kinds.get(held.name, EdgeKind.SEAM)
        return replace(held, allowance=widths[held.name], kind=kind)

    return replace(piece, edges=tuple(edge(held) for held in piece.edges))


CLOTHED = garment(
    cloths=Cloths(skirt=Cloth(kind="cotton sateen"), lining=Cloth(), ruffle=Cloth(kind="stiff net"))
)


def test_a_piece_says_how_many_to_cut_and_from_what() -> None:
    assert cut_words(panel(count=4), CLOTHED) == "cut 4 from skirt cloth (cotton sateen)"
    # A kind that the sheet leaves open is not made up.
    assert cut_words(panel(count=1, cloth="lining"), CLOTHED) == "cut 1 from lining cloth"
    assert (
        cut_words(panel(count=3, cloth="ruffle"), CLOTHED) == "cut 3 from ruffle cloth (stiff net)"
    )


def test_a_mirrored_pair_is_called_one() -> None:
    words = cut_words(panel(count=2, mirrored=True), garment())
    assert words == "cut 2 from skirt cloth, a mirrored pair"


@pytest.mark.parametrize(
    ("way", "words"),
    [
        (FoldWay.LENGTHWISE, "on a lengthwise fold, selvage laid to selvage"),
        (FoldWay.CROSSWISE, "on a crosswise fold, cut end laid to cut end"),
        (FoldWay.NONE, "whole from this half: no fold of the cloth can take it"),
    ],
)
def test_a_half_says_how_the_cloth_is_folded_for_it(way: FoldWay, words: str) -> None:
    one, two = (panel(count=count, half=True, fold_way=way) for count in (1, 2))
    assert cut_words(one, garment()) == f"cut 1 from skirt cloth, {words}"
    assert cut_words(two, garment()) == f"cut 2 from skirt cloth, each {words}"


def test_the_fold_is_told_apart_from_a_middle_that_no_cloth_folds_at() -> None:
    for way in (FoldWay.LENGTHWISE, FoldWay.CROSSWISE):
        folded = fold_words(panel(half=True, fold_way=way))
        assert "lay this edge on the fold" in folded[0]
        assert all("fold" in words and "turn" not in words for words in folded)
    chalked = fold_words(panel(half=True, fold_way=FoldWay.NONE))
    assert "chalk this half, turn the paper over" in chalked[0]
    assert all("middle" in words and "fold" not in words for words in chalked)


@pytest.mark.parametrize("way", FoldWay)
def test_shorter_wordings_stand_ready_for_a_short_fold(way: FoldWay) -> None:
    lengths = [len(words) for words in fold_words(panel(half=True, fold_way=way))]
    assert lengths == sorted(lengths, reverse=True)
    assert len(lengths) > 2
    assert lengths[-1] < 8


def plain(words: str) -> str:
    return words.replace("\u00a0", " ")


def test_allowances_are_named_by_their_edge() -> None:
    words = allowance_words(allowed(hem=12, side=15, waist=10), Units.CM)
    assert plain(words) == "included: hem 1.2 cm, seams 1.5 cm, waist 1.0 cm"
    inches = allowance_words(allowed(hem=12.7, side=15.875, waist=9.525), Units.INCH)
    assert plain(inches) == "included: hem ½ in, seams ⅝ in, waist ⅜ in"


def test_one_width_all_round_is_said_once() -> None:
    words = allowance_words(allowed(hem=10, side=10, waist=10), Units.CM)
    assert plain(words) == "included: 1.0 cm all round"


def test_an_edge_without_allowance_is_named_after_those_with_one() -> None:
    words = allowance_words(allowed(hem=0, side=15, waist=10), Units.CM)
    assert plain(words) == "included: seams 1.5 cm, waist 1.0 cm; none at the hem"


def test_a_half_has_no_allowance_at_its_fold_or_its_middle() -> None:
    half = replace(allowed(hem=12, side=15, waist=10), half=True)
    folded = allowance_words(replace(half, fold_way=FoldWay.CROSSWISE), Units.CM)
    assert folded.endswith("; none at the fold")
    assert allowance_words(half, Units.CM).endswith("; none at the middle")


def test_a_ruffle_strip_names_its_own_edges() -> None:
    """The lower edge is raw, the joins take 1 cm, the edge that is gathered 1.5 cm."""
    spec = garment(
        lining=Lining(fullness=0.5), ruffle=Ruffle(cloth=RuffleCloth.STIFF_NET, gather_ratio=2)
    )
    (strip,) = (piece for piece in draft(spec).pieces if piece.name == "ruffle strip")
    words = plain(allowance_words(strip, Units.CM))
    assert words == "included: joins 1.0 cm, gathered edge 1.5 cm; none at the lower edge"


def test_a_facing_has_none_at_its_neatened_edge() -> None:
    spec = garment(skirt=Skirt(length=580, waist_finish=WaistFinish.FACING))
    facing = piece_named(draft(spec).pieces, "facing")
    words = plain(allowance_words(facing, Units.CM))
    assert words == "included: seams 1.5 cm, waist 1.0 cm; none at the neatened edge"


@pytest.mark.parametrize("half", [True, False])
def test_the_lines_to_check_are_as_long_as_they_are_on_this_paper(half: bool) -> None:
    """Half a circle for 720: 72.0 cm of waist, or 36.0 of it on paper that shows one half."""
    spec = garment(
        skirt=Skirt(fullness=0.5, length=580, waist_ease=0, waist_stretch=0),
        cloths=Cloths(skirt=Cloth(width=1800, fold=half)),
    )
    pieces = draft(spec).pieces
    skirt, band = piece_named(pieces, "skirt panel"), piece_named(pieces, "band")
    waist = "36.0 cm" if half else "72.0 cm"
    assert plain(check_words(skirt, Units.CM)) == (
        f"stitching lines on this paper: waist {waist}, straight edge 58.0 cm"
    )
    # A band is given by its cutting measures.
    assert check_words(band, Units.CM) == ""


def test_who_it_is_for_is_the_label_the_size_or_both() -> None:
    def named(wearer: Wearer) -> str:
        return wearer_words(garment(wearer=wearer))

    assert named(CHORUS_TALL) == "Chorus, tall"
    assert named(replace(CHORUS_TALL, label="", size="P05")) == "size P05"
    assert named(replace(CHORUS_TALL, size="P05")) == "Chorus, tall, size P05"
    assert named(replace(CHORUS_TALL, label="")) == ""


def test_a_date_is_printed_only_if_the_sheet_gives_one() -> None:
    spec = garment()
    assert edition_words(spec) == ""
    assert edition_words(replace(spec, publish=Publish(edition="2"))) == "edition 2"
    both = replace(spec, publish=Publish(edition="2", date="2026-11-24"))
    assert edition_words(both) == "edition 2, 2026-11-24"


def test_a_label_tells_piece_count_allowances_wearer_edition_and_scale() -> None:
    spec = replace(garment(wearer=CHORUS_TALL), publish=Publish(edition="1", date="2026-11-24"))
    piece = panel(count=2, notes=("against the nap",))
    rows = label_words(piece, spec, number=1, of=4)
    assert rows[-1] == "right side of the cloth up, scale 1 : 1"
    assert all(rows)
    lines = plain(" / ".join(rows))
    for part in (
        "piece 1 of 4",
        "cut 2 from skirt cloth",
        "included",
        "Chorus skirt",
        "Chorus, tall",
        "edition 1, 2026-11-24",
        "against the nap",
        "waist 50.0 cm",
    ):
        assert part in lines
