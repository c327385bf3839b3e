"""How many garments a property draws: all of them when exploring, fewer at a landing.

A count. Imports nothing of the code under test.
"""

import os

EXPLORING = bool(os.environ.get("HEMSWEEP_EXPLORE"))
"""Whether each run draws new garments; at a landing everybody draws the same."""

LEAST = 8
"""However few a property draws when exploring, it draws as many as this at a landing."""


def drawn(many: int) -> int:
    """Return ``many`` when exploring and a sixth of them at a landing.

    For properties that are slow to hold: the same garments are drawn at every landing, so
    more of them cost time every day and find something once.
    """
    return many if EXPLORING else max(many // 6, min(many, LEAST))
