"""Whether cloth that is there is enough, and what it gives if it is not."""

import re
from dataclasses import replace
from functools import cache

import pytest

import drafting.pattern
from drafting.cloth.buying import purchase
from drafting.cloth.enough import MOST_REDRAFTS, changes_for, enough, fits, most
from drafting.cloth.laying import laid_plan
from drafting.cloth.widths import with_cloth
from drafting.effort import Effort
from drafting.findings import Finding, Level, stops
from drafting.half_scale import halved
from drafting.pattern import Pattern, draft
from drafting.spec import (
    Cloth,
    Cloths,
    CutKind,
    Grain,
    Lining,
    Owned,
    Ruffle,
    Skirt,
    Spec,
    WaistFinish,
)
from drafting.units import Units
from tests.garments import PAGE_BOY, chorus_skirt, garment

E9 = garment(
    skirt=Skirt(length=650, waist_ease=0, waist_stretch=0.0),
    lining=Lining(fullness=0.5),
    ruffle=Ruffle(depth=200, gather_ratio=2.2),
)


def having(spec: Spec, cloth: str, have: float) -> Spec:
    return with_cloth(spec, cloth, replace(getattr(spec.cloths, cloth), have=have))


def told(spec: Spec, cloth: str) -> tuple[Finding, ...]:
    pattern = draft(spec)
    lay = laid_plan(pattern, cloth, Effort.QUICK)
    return enough(pattern, lay, purchase(lay, spec.units))


def needed(spec: Spec, cloth: str) -> float:
    return purchase(laid_plan(draft(spec), cloth, Effort.QUICK), spec.units).needed


def offers(spec: Spec, cloth: str) -> list[Spec | None]:
    return [most(change, cloth) for change in changes_for(draft(spec), cloth)]


def test_of_cloth_that_is_to_be_bought_nothing_is_said() -> None:
    assert told(E9, "ruffle") == ()


def test_enough_cloth_is_told_with_what_is_left_over_before_rounding() -> None:
    # Example 9: 860 and 50 for squaring.
    (found,) = told(having(E9, "ruffle", 1200), "ruffle")
    assert (found.level, found.code) == (Level.NOTE, "cloth-enough")
    assert "29.0\u00a0cm is left over" in found.what
    assert told(having(E9, "ruffle", 910), "ruffle")[0].code == "cloth-enough"


def test_a_ruffle_that_is_short_by_hand() -> None:
    # 910 needed. Four strips of 15 + D and 50 in 700: D = 147.5, so 145. Three strips of 215
    # and 50 is 695; on 1380 they give 3 x 1360 = 4080 of 2008.1: 2.03, so 2.
    (found,) = told(having(E9, "ruffle", 700), "ruffle")
    assert (found.level, found.code) == (Level.CAUTION, "cloth-short")
    assert "91.0\u00a0cm" in found.what
    assert "21.0\u00a0cm too little" in found.what
    assert "a ruffle 14.5\u00a0cm deep" in found.do
    assert "gathered 2 to 1" in found.do
    assert "1.0\u00a0m in one length" in found.do


def test_a_ruffle_is_not_offered_less_gathered_than_its_cloth_takes() -> None:
    # Four strips of 15 + D and 50 in 520: D = 102.5, so 100, just half of 200. Two strips of
    # 215 and 50 is 480, but gives 2720 of 2008.1: 1.35, and net does not stand up below 2.
    depth, ratio = offers(having(E9, "ruffle", 520), "ruffle")
    assert depth is not None and depth.ruffle is not None
    assert depth.ruffle.depth == pytest.approx(100)
    assert ratio is None
    # A centimetre less, and it would be less than half as deep.
    assert offers(having(E9, "ruffle", 505), "ruffle") == [None, None]


def test_where_nothing_sensible_fits_it_is_said_plainly() -> None:
    (found,) = told(having(E9, "ruffle", 200), "ruffle")
    assert found.do == (
        "No shallower and no less full ruffle comes out of it either: buy 1.0\u00a0m in one length."
    )
    (found,) = told(having(E9, "skirt", 300), "skirt")
    assert found.do.startswith("No shorter and no less full skirt")


CASES = {
    "circle": (garment(), "skirt", 1900),
    "chorus": (chorus_skirt(), "skirt", 2000),
    "gathered": (
        garment(skirt=Skirt(cut=CutKind.GATHERED, length=580, gather_ratio=2.6)),
        "skirt",
        1250,
    ),
    "gored": (garment(skirt=Skirt(cut=CutKind.GORED, length=580, fullness=0.4)), "skirt", 1000),
    "tiers": (garment(skirt=Skirt(cut=CutKind.TIERED, length=580)), "skirt", 1600),
    "levelled": (garment(skirt=Skirt(length=580, hem_above_floor=450)), "skirt", 1900),
    "lining": (chorus_skirt(), "lining", 1600),
    "ruffle": (chorus_skirt(), "ruffle", 800),
    "child": (
        garment(
            wearer=PAGE_BOY,
            skirt=Skirt(length=360, gather_ratio=1.4, waist_finish=WaistFinish.CASING),
        ),
        "skirt",
        900,
    ),
    "half scale": (halved(chorus_skirt()), "lining", 850),
    "inches": (replace(chorus_skirt(), units=Units.INCH), "skirt", 2000),
    "one way": (
        with_cloth(garment(), "skirt", Cloth(one_way=True, fold=True)),
        "skirt",
        1900,
    ),
    "owned": (
        garment(
            skirt=Skirt(length=630, owned=Owned(waist=730, length=630, sweep=4300)),
            lining=Lining(fullness=0.5),
        ),
        "lining",
        1500,
    ),
}


@cache
def searched(case: str) -> tuple[tuple[Spec | None, int], ...]:
    """Return each offer of a case, with how often it was drafted to find it."""
    spec, cloth, have = CASES[case]
    pattern = draft(having(spec, cloth, have))
    drafted: list[Spec] = []

    def counted(spec: Spec) -> Pattern:
        drafted.append(spec)
        return draft(spec)

    found = []
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(drafting.pattern, "draft", counted)
        for change in changes_for(pattern, cloth):
            drafted.clear()
            offer = most(change, cloth)
            found.append((offer, len(drafted)))
    return tuple(found)


@pytest.mark.parametrize("case", CASES)
def test_what_is_offered_can_be_drafted_and_cut_from_what_is_there(case: str) -> None:
    spec, cloth, have = CASES[case]
    short = having(spec, cloth, have)
    assert needed(short, cloth) > have + 0.5
    found = [offer for offer, _ in searched(case) if offer is not None]
    assert found
    for offer in found:
        pattern = draft(offer)
        assert not stops(pattern.findings)
        lay = laid_plan(pattern, cloth, Effort.QUICK)
        assert not lay.missing
        assert purchase(lay, spec.units).needed <= have + 0.5
        # One value was changed, and no other.
        assert (offer.wearer, offer.cloths, offer.scale) == (
            short.wearer,
            short.cloths,
            short.scale,
        )
    (finding,) = told(short, cloth)
    assert finding.code == "cloth-short"
    assert finding.do.startswith("It is enough for a ")


def test_lengths_on_offer_are_half_centimetres_or_quarter_inches_and_ratios_twentieths() -> None:
    shorter, narrower = offers(having(chorus_skirt(), "skirt", 2000), "skirt")
    assert shorter is not None and narrower is not None
    assert shorter.skirt.length / 5 == pytest.approx(round(shorter.skirt.length / 5))
    assert shorter.skirt.length < 620
    assert shorter.skirt.fullness == 1
    assert narrower.skirt.fullness / 0.05 == pytest.approx(round(narrower.skirt.fullness / 0.05))
    assert 0.5 <= narrower.skirt.fullness < 1
    assert narrower.skirt.length == 620
    inches = replace(chorus_skirt(), units=Units.INCH)
    shorter, _ = offers(having(inches, "skirt", 2000), "skirt")
    assert shorter is not None
    assert shorter.skirt.length / 6.35 == pytest.approx(round(shorter.skirt.length / 6.35))


def test_half_a_centimetre_more_than_is_offered_would_not_fit() -> None:
    short = having(garment(), "skirt", 1900)
    shorter = offers(short, "skirt")[0]
    assert shorter is not None
    longer = replace(shorter, skirt=replace(shorter.skirt, length=shorter.skirt.length + 5))
    assert fits(shorter, "skirt")
    assert not fits(longer, "skirt")
    assert needed(longer, "skirt") > 1900.5


def test_a_level_hem_is_raised_above_the_floor() -> None:
    short = having(garment(skirt=Skirt(length=580, hem_above_floor=452)), "skirt", 1900)
    raised = offers(short, "skirt")[0]
    assert raised is not None and raised.skirt.hem_above_floor is not None
    assert raised.skirt.hem_above_floor > 452
    assert raised.skirt.hem_above_floor % 5 == pytest.approx(0)
    assert "above the floor" in told(short, "skirt")[0].do


def test_a_lining_is_offered_shorter_and_less_full() -> None:
    shorter, narrower = offers(having(chorus_skirt(), "lining", 1600), "lining")
    assert shorter is not None and shorter.lining is not None
    assert narrower is not None and narrower.lining is not None
    assert shorter.lining.shorter > 30
    assert narrower.lining.fullness < 0.5
    assert narrower.lining.shorter == 30


def test_on_a_half_scale_form_what_to_write_on_the_sheet_is_told_too() -> None:
    (found,) = told(having(halved(chorus_skirt()), "lining", 850), "lining")
    pair = re.search(r"a lining ([\d.]+)\u00a0cm \(([\d.]+)\u00a0cm on the sheet\)", found.do)
    assert pair is not None
    assert float(pair[2]) == pytest.approx(2 * float(pair[1]), abs=0.11)


def test_interfacing_is_told_short_and_nothing_else() -> None:
    (found,) = told(having(chorus_skirt(), "interfacing", 60), "interfacing")
    assert found.code == "cloth-short"
    assert found.do == "Buy 0.2\u00a0m in one length."


def test_of_cloth_that_a_panel_does_not_fit_the_lay_speaks() -> None:
    spec = having(garment(), "skirt", 1000)
    pattern = draft(spec)
    lay = laid_plan(pattern, "skirt", Effort.QUICK)
    missing = replace(lay, missing=lay.shapes[:1])
    assert enough(pattern, missing, purchase(missing, spec.units)) == ()


def test_a_stop_on_the_way_does_not_end_the_search() -> None:
    # Half as long, the lining has no place for its ruffle and the draft stops; in between
    # it does not.
    spec = having(chorus_skirt(), "skirt", 2000)
    least = next(changes_for(draft(spec), "skirt"))
    deep = replace(spec, ruffle=Ruffle(depth=300, gather_ratio=2.6))
    change = next(changes_for(draft(deep), "skirt"))
    assert stops(draft(change.changed(least.steps)).findings)
    assert most(change, "skirt") is not None


def test_a_draft_that_stops_fits_no_cloth_however_long() -> None:
    # No ruffle of 70 cm has its place on a lining of 62.
    plenty = having(E9, "skirt", 50_000)
    assert fits(plenty, "skirt")
    assert not fits(replace(plenty, ruffle=Ruffle(depth=700, gather_ratio=2.2)), "skirt")


@pytest.mark.parametrize("case", CASES)
def test_no_search_drafts_more_often_than_its_cap(case: str) -> None:
    assert searched(case)
    for _, redrafts in searched(case):
        assert 1 <= redrafts <= MOST_REDRAFTS


def test_folded_cloth_that_is_short_may_do_when_it_is_opened() -> None:
    spec = garment(
        skirt=Skirt(length=620, panels=4, grain=Grain.CENTRE),
        cloths=Cloths(skirt=Cloth(width=2800, fold=True, have=2000)),
    )
    pattern = draft(spec)
    lay = laid_plan(pattern, "skirt", Effort.QUICK)
    (found,) = enough(pattern, lay, purchase(lay, Units.CM))
    assert found.code == "cloth-short"
    assert found.do.startswith("Open it: laid in a single layer it is enough.")
    # And so it is: the very same pieces on the same cloth, open.
    open_cloth = replace(spec.cloths.skirt, fold=False)
    opened = draft(replace(spec, cloths=replace(spec.cloths, skirt=open_cloth)))
    plan = laid_plan(opened, "skirt", Effort.QUICK)
    assert purchase(plan, Units.CM).needed <= 2000
