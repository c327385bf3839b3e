"""Tables of a pack: what is sold by the metre here is sold by the yard there, never too little."""

from dataclasses import replace

import pytest

from drafting.effort import Effort
from drafting.units import Units
from render.laying import Laying
from render.publish.tables import bought_words
from tests.examples import pattern_of_example


@pytest.mark.parametrize(
    ("needed", "metric", "imperial"),
    [
        # A yard is 914.4 mm, and shops cut it in eighths; a metre in tenths.
        (930.0, "1.0 m (1⅛ yd)", "1⅛ yd (1.0 m)"),
        (1030.0, "1.1 m (1¼ yd)", "1¼ yd (1.1 m)"),
        (914.4, "1.0 m (1 yd)", "1 yd (1.0 m)"),
    ],
)
def test_cloth_is_rounded_up_in_both_units(needed: float, metric: str, imperial: str) -> None:
    shopping = Laying(pattern_of_example("young-chorus-skirt"), Effort.QUICK).made(print).shopping
    one = replace(shopping.purchases[0], washed=needed, shrinking=0.0, repeats=0.0, squaring=0.0)
    assert bought_words(one, Units.CM).replace("\u00a0", " ") == metric
    assert bought_words(one, Units.INCH).replace("\u00a0", " ") == imperial
