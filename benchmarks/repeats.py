"""How often readers of one design ask for the same draft, on paper: python benchmarks/repeats.py

A sum, not a measurement: measures are taken to be spread as below, which is a guess, and are
rounded as a server would round them. Printed are how many keys there can be, how many of them
so many readers are expected to ask for, and how often one finds the draft made already.
"""

import math
from itertools import product

WAIST = (780.0, 120.0, 500.0, 1300.0)
HIP_MORE = (240.0, 60.0, -50.0, 450.0)
"""Mean, standard deviation, least and most in mm: of waists, and of how much more a hip is."""

LENGTHS = (400.0, 1100.0)
POPULAR = {500.0: 2, 550.0: 3, 600.0: 5, 620.0: 4, 650.0: 5, 700.0: 4, 750.0: 2, 1000.0: 1}
"""Lengths that readers choose, by weight; of the rest each centimetre is chosen as often."""

OTHERS = 0.15
"""The share of readers who choose another length."""

PAPERS = (0.75, 0.25)
LANGUAGES = (0.7, 0.2, 0.1)
"""Shares of two papers and of three languages."""

READERS = (1_000, 10_000, 100_000, 1_000_000)


def bell(spread: tuple[float, float, float, float], step: float) -> list[float]:
    """Return the share of each rounded measure between its least and its most."""
    mean, deviation, low, high = spread
    count = round((high - low) / step) + 1
    weights = [math.exp(-(((low + step * at - mean) / deviation) ** 2) / 2) for at in range(count)]
    return [weight / math.fsum(weights) for weight in weights]


def lengths(step: float) -> list[float]:
    """Return the share of each rounded length."""
    low, high = LENGTHS
    count = round((high - low) / step) + 1
    shares = [OTHERS / count] * count
    for length, weight in POPULAR.items():
        at = round((length - low) / step)
        shares[at] += (1 - OTHERS) * weight / sum(POPULAR.values())
    return shares


def expected(shares: list[float], readers: int) -> float:
    """Return how many different keys so many readers are expected to ask for."""
    return math.fsum(-math.expm1(readers * math.log1p(-share)) for share in shares)


def main() -> None:
    """Print keys and repeats for some ways of rounding."""
    for waist, hip, length in ((5.0, 10.0, 10.0), (5.0, 100.0, 10.0), (10.0, 20.0, 20.0)):
        by = [bell(WAIST, waist), bell(HIP_MORE, hip), lengths(length)]
        body = [a * b * c for a, b, c in product(*by)]
        shares = [a * b for a, b in product(body, (p * w for p, w in product(PAPERS, LANGUAGES)))]
        counts = " x ".join(str(len(each)) for each in by)
        print(f"waist to {waist:g} mm, hip to {hip:g}, length to {length:g}: {counts}"
              f" = {len(body):,} bodies, {len(shares):,} keys")  # fmt: skip
        for readers in READERS:
            keys = expected(shares, readers)
            print(f"  {readers:>9,} readers: {keys:>9,.0f} keys, {1 - keys / readers:.0%} repeat")


if __name__ == "__main__":
    main()
