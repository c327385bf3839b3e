"""What is printed on a piece and in the cut list."""

from dataclasses import replace

from drafting.piece import Edge, EdgeKind, Piece
from drafting.spec import Publish, Wearer
from drafting.units import Units
from render.words import (
    allowance_words,
    cut_words,
    edition_words,
    fold_words,
    label_words,
    wearer_words,
)
from tests.garments import CHORUS_TALL, garment
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


def test_a_piece_says_how_many_to_cut_and_from_what() -> None:
    assert cut_words(panel(count=4)) == "cut 4 from skirt cloth"
    assert cut_words(panel(count=1, cloth="lining")) == "cut 1 from lining cloth"
    assert cut_words(panel(count=3, cloth="ruffle")) == "cut 3 from ruffle cloth"


def test_a_mirrored_pair_is_called_one() -> None:
    assert cut_words(panel(count=2, mirrored=True)) == "cut 2 from skirt cloth, a mirrored pair"


def test_a_half_says_whether_the_cloth_takes_its_fold() -> None:
    assert cut_words(panel(count=1, half=True)) == "cut 1 from skirt cloth, on a fold"
    assert cut_words(panel(count=2, half=True)) == "cut 2 from skirt cloth, each on a fold"
    whole = cut_words(panel(count=2, half=True, foldable=False))
    assert whole == "cut 2 from skirt cloth, each whole from this half"


def test_the_fold_is_told_apart_from_a_middle_that_no_cloth_folds_at() -> None:
    assert "fold" in fold_words(panel(half=True))
    assert "turn the paper over" in fold_words(panel(half=True, foldable=False))


def test_allowances_are_named_by_their_edge() -> None:
    words = allowance_words(allowed(hem=12, side=15, waist=10), Units.CM).replace("\u00a0", " ")
    assert words == "included: hem 1.2 cm, seams 1.5 cm, waist 1.0 cm"
    inches = allowance_words(allowed(hem=12.7, side=15.875, waist=9.525), Units.INCH)
    assert inches.replace("\u00a0", " ") == "included: hem ½ in, seams ⅝ in, waist ⅜ in"


def test_one_width_all_round_is_said_once() -> None:
    words = allowance_words(allowed(hem=10, side=10, waist=10), Units.CM).replace("\u00a0", " ")
    assert words == "1.0 cm included all round"


def test_an_edge_without_allowance_says_none() -> None:
    assert "hem none" in allowance_words(allowed(hem=0, side=15, waist=10), Units.CM)


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
    lines = " / ".join(label_words(piece, spec, number=1, of=4))
    for part in (
        "piece 1 of 4",
        "cut 2 from skirt cloth",
        "included",
        "Chorus skirt",
        "Chorus, tall",
        "edition 1, 2026-11-24",
        "full scale",
        "against the nap",
    ):
        assert part in lines
