"""Limits of bodies, cross checks and what is filled in; figures from the trade reference, 1.2."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.errors import Fault
from drafting.findings import Finding, Level
from drafting.half_scale import Scale
from drafting.measure_checks import measure_faults, measure_findings
from drafting.measurements import FLOOR_LENGTHS, NAMES, Given
from drafting.missing_measures import estimate_findings, whole_body
from drafting.sizes import size_named
from drafting.spec import Figure
from drafting.units import Units

ADULT, CHILD = Figure.ADULT, Figure.CHILD

# usual from, usual to, refused below, refused above: mm.
LIMITS = {
    ADULT: {
        "waist": (560, 1250, 450, 1800),
        "hip": (780, 1450, 650, 2000),
        "hip_depth": (170, 240, 120, 300),
        "waist_to_knee": (500, 660, 420, 760),
        **dict.fromkeys(FLOOR_LENGTHS, (920, 1180, 780, 1350)),
        "heel": (0, 100, 0, 180),
        "step": (500, 800, 350, 1000),
    },
    CHILD: {
        "waist": (460, 720, 400, 950),
        "hip": (480, 920, 430, 1150),
        "hip_depth": (90, 190, 70, 220),
        "waist_to_knee": (240, 540, 180, 620),
        **dict.fromkeys(FLOOR_LENGTHS, (440, 1000, 380, 1100)),
        "heel": (0, 40, 0, 60),
        "step": (250, 650, 200, 750),
    },
}
EVERY_LIMIT = [
    (figure, name, *row) for figure, rows in LIMITS.items() for name, row in rows.items()
]


def body(**lengths: float) -> dict[str, Given]:
    return {name: Given(value=mm, text=f"{mm:g} mm") for name, mm in lengths.items()}


def faults(
    known: dict[str, Given], figure: Figure = ADULT, units: Units = Units.CM
) -> tuple[Fault, ...]:
    return measure_faults(known, figure=figure, units=units)


def findings(
    known: dict[str, Given], figure: Figure = ADULT, accept: tuple[str, ...] = ()
) -> tuple[Finding, ...]:
    return measure_findings(known, figure=figure, units=Units.CM, accept=accept)


def plain(text: str) -> str:
    return text.replace("\u00a0", " ")


# --- one measure ---------------------------------------------------------------------------


@pytest.mark.parametrize(("figure", "name", "soft_low", "soft_high", "low", "high"), EVERY_LIMIT)
def test_a_measure_no_body_has_is_refused(
    figure: Figure, name: str, soft_low: float, soft_high: float, low: float, high: float
) -> None:
    beyond = [value for value in (low - 1, high + 1) if value >= 0]
    for value in (*beyond, float("nan"), float("inf")):
        assert [fault.key for fault in faults(body(**{name: value}), figure)] == [name]
    for value in (low, high, soft_low, soft_high):
        assert faults(body(**{name: value}), figure) == ()


@pytest.mark.parametrize(("figure", "name", "soft_low", "soft_high", "low", "high"), EVERY_LIMIT)
def test_a_rare_measure_is_asked_about_until_it_is_accepted(
    figure: Figure, name: str, soft_low: float, soft_high: float, low: float, high: float
) -> None:
    for value in (soft_low, soft_high):
        assert findings(body(**{name: value}), figure) == ()
    for value in (soft_low - 1, soft_high + 1):
        if value < 0:
            continue
        asked = findings(body(**{name: value}), figure)
        assert [(one.level, one.code) for one in asked] == [(Level.CAUTION, "measure-unusual")]
        assert findings(body(**{name: value}), figure, accept=(name,)) == ()


def test_the_question_tells_the_measure_the_usual_range_and_the_way_out() -> None:
    (asked,) = findings(body(hip=1500))
    assert plain(asked.what) == "Your hip is 150.0 cm; most adults have 78.0 to 145.0 cm."
    assert asked.do == 'Measure again; if it is right, add "hip" to accept under [wearer].'


def test_limits_are_told_in_the_units_of_the_sheet() -> None:
    known = {"waist": Given(value=10 * 25.4, text="10 in")}
    (fault,) = faults(known, units=Units.INCH)
    assert fault.what == "waist is 10 in."
    assert "17¾ in to 70⅞ in" in plain(fault.allowed)


def test_measures_of_a_named_size_are_not_questioned() -> None:
    known = {"waist": Given(value=5000.0)}
    assert faults(known) == ()
    assert findings(known) == ()


@pytest.mark.parametrize(
    ("name", "value", "text", "meant"),
    [
        ("waist", 74, "74 mm", '"74 cm"'),
        ("waist", 290, "29 cm", '"29 in"'),
        ("waist", 7400, "740 cm", '"740 mm"'),
        ("waist", 74 * 25.4, "74 in", '"74 cm"'),
        ("hip", 101 * 25.4, "101 inches", '"101 cm"'),
        ("hip_depth", 80, "8 cm", '"8 in"'),
        ("waist_to_knee", 230, "23 cm", '"23 in"'),
        ("waist", 290, "29", '"29 in"'),
        ("waist", 286, "28 ½ cm", '"28 ½ in"'),
        ("heel", 400, "40 cm", '"40 mm"'),
    ],
)
def test_the_wrong_unit_is_named(name: str, value: float, text: str, meant: str) -> None:
    (fault,) = faults({name: Given(value=value, text=text)})
    assert f"did you mean {meant}?" in fault.allowed
    assert fault.given == text


@pytest.mark.parametrize("text", ["1 ft 2 in", "300 mm 4"])
def test_no_unit_is_guessed_for_a_text_in_two_parts(text: str) -> None:
    (fault,) = faults({"waist": Given(value=355.6, text=text)})
    assert "did you mean" not in fault.allowed


def test_a_stride_given_for_a_step_is_named() -> None:
    (fault,) = faults(body(step=1400))
    assert "stride, which is two steps" in fault.allowed
    (slow,) = faults(body(step=200))
    assert "stride" not in slow.allowed


def test_a_rare_measure_that_may_be_inches_says_so() -> None:
    (asked,) = findings({"waist": Given(value=460.0, text="46 cm")})
    assert 'write "46 in" if you meant that' in asked.do


# --- two measures --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("known", "key"),
    [
        (body(hip_depth=210, waist_to_knee=200), "waist_to_knee"),
        (body(waist_to_knee=600, floor_side=590), "floor_side"),
        (body(waist_to_knee=600, floor_left=590), "floor_left"),
        (body(hip=450, waist=571), "hip"),
        (body(hip=1000, waist=600), "hip"),
        (body(floor_front=700, floor_side=730, floor_back=761), "floor_back"),
        (body(floor_left=700, floor_right=770), "floor_right"),
    ],
)
def test_measures_that_contradict_each_other_are_refused(known: dict[str, Given], key: str) -> None:
    told = faults(known, CHILD)
    assert [fault.key for fault in told] == [key]
    assert told[0].allowed


@pytest.mark.parametrize(
    "known",
    [
        body(waist_to_knee=181, hip_depth=180),
        body(hip=450, waist=570),
        body(hip=950, waist=600),
        body(floor_front=700, floor_back=760),
    ],
)
def test_measures_just_possible_together_are_not_refused(known: dict[str, Given]) -> None:
    assert faults(known, CHILD) == ()


def test_adult_hip_and_waist_may_be_150_apart_one_way_and_600_the_other() -> None:
    assert faults(body(hip=850, waist=1000)) == faults(body(hip=1300, waist=700)) == ()
    assert len(faults(body(hip=849, waist=1000))) == 1
    assert len(faults(body(hip=1301, waist=700))) == 1


def test_a_measure_that_is_refused_is_not_compared_as_well() -> None:
    assert [fault.key for fault in faults(body(hip=74, waist=740))] == ["hip"]


def test_a_written_waist_is_compared_with_the_hip_of_the_size() -> None:
    known = {"hip": Given(value=1000.0), **body(waist=1200)}
    (fault,) = faults(known)
    assert fault.key == "waist"


@pytest.mark.parametrize(
    ("known", "code", "accept"),
    [
        (body(hip=900, waist=901), "measure-odd", "hip"),
        (body(hip=900, waist=821), "measure-odd", "hip"),
        (body(hip=1101, waist=700), "measure-odd", "waist"),
        (body(floor_front=1000, floor_back=1041), "measure-odd", "floor_back"),
        (body(height=1700, floor_side=968), "measure-odd", "floor_side"),
        (body(height=1700, floor_side=1139), "measure-odd", "height"),
        (body(height=1700, waist_to_knee=509), "measure-odd", "waist_to_knee"),
        (body(height=1650, waist_to_knee=644), "measure-odd", "waist_to_knee"),
    ],
)
def test_measures_odd_together_are_asked_about(
    known: dict[str, Given], code: str, accept: str
) -> None:
    asked = findings(known)
    assert [(one.level, one.code) for one in asked] == [(Level.CAUTION, code)]
    assert findings(known, accept=(accept,)) == ()


@pytest.mark.parametrize(
    "known",
    [
        body(hip=900, waist=820),
        body(hip=1100, waist=700),
        body(floor_front=1000, floor_back=1040),
        body(height=1700, floor_side=970),
        body(height=1700, floor_side=1138),
        body(height=1700, waist_to_knee=511),
        body(height=1650, waist_to_knee=643),
        body(floor_side=1000),
        body(height=1700),
        {"height": Given(value=1700.0), "floor_side": Given(value=930.0)},
    ],
)
def test_usual_measures_are_let_be(known: dict[str, Given]) -> None:
    assert findings(known) == ()


def test_a_hip_less_than_the_waist_is_told_with_both() -> None:
    (asked,) = findings(body(hip=800, waist=900))
    assert plain(asked.what) == "The hip (80.0 cm) is less than the waist (90.0 cm)."


# --- a half-scale form ---------------------------------------------------------------------

# Limits of the form itself, from the trade reference, 1.2; its sheet writes twice as much.
FORM_LIMITS = {
    "waist": (250, 700),
    "hip": (330, 850),
    "hip_depth": (80, 125),
    "waist_to_knee": (240, 340),
    **dict.fromkeys(FLOOR_LENGTHS, (460, 600)),
    "heel": (0, 60),
}


@pytest.mark.parametrize("figure", Figure)
@pytest.mark.parametrize("name", FORM_LIMITS)
def test_a_half_scale_form_has_limits_of_its_own_told_at_full_size(
    name: str, figure: Figure
) -> None:
    low, high = FORM_LIMITS[name]
    for value in (2 * low, 2 * high):
        known = body(**{name: value})
        assert measure_faults(known, figure=figure, units=Units.CM, scale=Scale.HALF) == ()
        assert (
            measure_findings(known, figure=figure, units=Units.CM, accept=(), scale=Scale.HALF)
            == ()
        )
    for value in (2 * low - 1, 2 * high + 1):
        if value >= 0:
            known = body(**{name: value})
            (fault,) = measure_faults(known, figure=figure, units=Units.CM, scale=Scale.HALF)
            assert fault.key == name
            assert "Written at full size" in fault.allowed
            assert f"{high / 5:.1f}" in fault.allowed


def test_a_measure_taken_on_the_form_itself_is_told_to_be_doubled() -> None:
    (fault,) = measure_faults(body(waist=370), figure=ADULT, units=Units.CM, scale=Scale.HALF)
    assert plain(fault.allowed).endswith("If that was measured on the form, write 74.0 cm.")
    (adult,) = faults(body(waist=370))
    assert "on the form" not in adult.allowed


@pytest.mark.parametrize(
    ("known", "said"),
    [
        (body(hip=1000, waist=941), "6.0 cm to 44.0 cm more"),
        (body(hip=1000, waist=559), "6.0 cm to 44.0 cm more"),
        (body(floor_front=1000, floor_back=1051), "differ by 5.0 cm"),
    ],
)
def test_a_half_scale_form_has_no_odd_shape(known: dict[str, Given], said: str) -> None:
    (fault,) = measure_faults(known, figure=ADULT, units=Units.CM, scale=Scale.HALF)
    assert said in plain(fault.allowed)


# --- what was not measured -----------------------------------------------------------------


def test_an_adults_missing_measures_come_from_the_table_by_waist() -> None:
    filled = whole_body({"waist": 720.0}, figure=ADULT)
    assert filled["hip"] == pytest.approx(980)
    assert (filled["height"], filled["step"], filled["heel"]) == (1680, 700, 0)


def test_a_measure_of_your_own_wins_over_the_size() -> None:
    filled = whole_body({"hip": 1010.0}, figure=ADULT, size=size_named("P05"))
    assert (filled["waist"], filled["hip"], filled["waist_to_knee"]) == (740, 1010, 584)


def test_a_known_height_gives_the_step_and_the_lengths() -> None:
    filled = whole_body({"waist": 740.0, "height": 1760.0}, figure=ADULT)
    assert filled["step"] == pytest.approx(739.2)
    assert filled["waist_to_knee"] == pytest.approx(612)


def test_a_childs_height_and_step_are_estimated_from_the_waist() -> None:
    filled = whole_body({"waist": 595.0}, figure=CHILD)
    assert filled["height"] == pytest.approx(1340)
    assert filled["step"] == pytest.approx(562.8)


def test_left_and_right_make_the_side() -> None:
    filled = whole_body({"waist": 740.0, "floor_left": 1050.0, "floor_right": 1060.0}, figure=ADULT)
    assert filled["floor_side"] == 1055


def test_nothing_can_be_filled_in_without_a_waist_or_a_size() -> None:
    with pytest.raises(KeyError):
        whole_body({"hip": 1000.0}, figure=ADULT)


def told(written: dict[str, float], figure: Figure = ADULT) -> tuple[Finding, ...]:
    return estimate_findings(written, figure=figure, size=None, units=Units.CM)


@pytest.mark.parametrize(
    ("waist", "where"),
    [
        (720.0, "between P04 and P05"),
        (739.9999999, "size P05"),
        (540.0, "below P01, its smallest"),
        (1240.0, "above P12, its largest"),
    ],
)
def test_the_note_tells_what_was_read_from_where(waist: float, where: str) -> None:
    (note,) = told({"waist": waist})
    assert (note.level, note.code) == (Level.NOTE, "measure-estimated")
    assert note.what.startswith(
        "Hip, hip depth, waist to knee and the lengths from waist to floor were not measured;"
    )
    assert where in note.what


def test_one_missing_measure_is_told_alone() -> None:
    measures = whole_body({"waist": 720.0}, figure=ADULT)
    del measures["hip_depth"]
    (note,) = told(measures)
    assert note.what.startswith("Hip depth was not measured; it is read from")


def test_a_childs_estimate_is_a_caution() -> None:
    (caution,) = told({"waist": 595.0, "height": 1340.0}, CHILD)
    assert (caution.level, caution.code) == (Level.CAUTION, "measure-estimated")
    assert "a height of 134.0 cm" in plain(caution.what)


def test_nothing_is_noted_when_all_was_measured_or_a_size_was_asked_for() -> None:
    assert told(whole_body({"waist": 720.0}, figure=ADULT)) == ()
    size = size_named("P05")
    assert estimate_findings({}, figure=ADULT, size=size, units=Units.CM) == ()


@given(
    lengths=st.dictionaries(st.sampled_from(list(NAMES)), st.floats(0, 3000)),
    figure=st.sampled_from(Figure),
    units=st.sampled_from(Units),
)
def test_any_body_is_judged_without_a_stumble(
    lengths: dict[str, float], figure: Figure, units: Units
) -> None:
    known = body(**lengths)
    refused = {fault.key for fault in measure_faults(known, figure=figure, units=units)}
    assert refused <= set(lengths)
    asked = measure_findings(known, figure=figure, units=units, accept=tuple(NAMES))
    assert asked == ()
