"""Measures of the hand that no draft changes: how the trade pins, trims and stitches.

Millimetres and minutes; each with its reason. Every number of the booklet that is no figure of
the draft stands here. Imports units alone.
"""

from drafting.units import Mm

PINS: tuple[Mm, Mm] = (20.0, 25.0)
"""From pin to pin along gathers: closer and they are slow, wider and the gathers slide."""

TAILS: Mm = 100.0
"""Thread left at each end of a gathering row, to wind round a pin and pull by."""

LONG_STITCH: Mm = 4.0
"""Stitch of a gathering row (3.5 to 5): longer ones gather coarsely, shorter ones break."""

SEAM_STITCH: Mm = 2.5
"""Stitch of a seam, and of gathers sewn down."""

ZIGZAG: tuple[Mm, Mm] = (3.0, 4.0)
"""Width and length of the zigzag over a cord: wide enough that no stitch pierces it."""

CORD_ABOVE: Mm = 3.0
"""From the cord to the seam line, inside the allowance."""

SECOND_ROW: Mm = 3.0
"""A second stitching, this far inside the allowance, holds gathers when the first gives."""

TRIM_TO: Mm = 8.0
"""What is left of a gathered allowance: enough to zigzag, thin enough to lie flat."""

STAY_ABOVE: Mm = 2.0
"""From staystitching to the seam line, inside the allowance, so that it never shows."""

CLIPS: tuple[Mm, Mm] = (10.0, 15.0)
"""From clip to clip along a curved waist allowance."""

CLIP_SHORT: Mm = 2.0
"""A clip ends this far from the staystitching."""

CUT_TOO_DEEP: Mm = 3.0
"""How far scissors stray at a curved edge; what it does to a waist is worth knowing first."""

SQUARE: Mm = 500.0
"""A chalk square of this size, measured before and after the wash, gives the real shrinkage."""

NOTCH_DEEP: Mm = 4.0
"""A notch is a cut of this depth, well inside the narrowest allowance."""

GRAIN_OFF: Mm = 2.0
"""Both ends of a grain arrow lie equally far from the selvage, to this."""

SEAM_OFF: Mm = 3.0
"""Two edges to be joined may differ by this; more is a slip of the scissors."""

WAIST_OFF: Mm = 5.0
"""The waist seam all round may differ from its figure by this."""

LEVEL_OFF: Mm = 5.0
"""A level hem lies at one height to this, and a ruffle from the hem above which it ends."""

SLIDE: Mm = 10.0
"""A flat length joined from many strips may differ by this."""

LEVEL_MARKS = 8
"""Places round a skirt where its height over the floor is measured."""

SAMPLE: Mm = 100.0
"""A length of gathered seam that is counted back into its flat length."""

STEAM_OFF: Mm = 30.0
"""The iron's distance over net that is steamed: touched, it melts."""

TAPE: Mm = 15.0
"""Width of the tape that covers a raw gathered edge laid above its line."""

STRETCH_STOPS: Mm = 3.0
"""A hem has stopped growing when two readings differ by no more than this."""

READ_AGAIN = 12
"""Hours between two readings of a hanging hem."""

NEEDLE_NET = "70–80"
NEEDLE_FINE = "60–70"
NEEDLE_COTTON = "70–80"
NEEDLE_HEAVY = "80–90"
"""Sizes of machine needles by cloth, as the packets are marked."""

UNDERSTITCH: Mm = 2.0
"""From the seam line to the understitching on a facing."""

LINING_CLEAR: Mm = 10.0
"""The lining is folded back so far from the teeth of a zip, or it is caught in them."""

HOOK_BACK: Mm = 5.0
"""A hook sits so far in from the end of the overlap, so that no end of the band sticks out."""

THREADING_GAP: Mm = 30.0
"""Of a casing's end seam, left open to thread the elastic."""

STOP_EVERY: tuple[Mm, Mm] = (80.0, 100.0)
"""Between two stops with the needle down, to even out the gathers ahead."""

SAMPLE_OFF = 10
"""Per cent that a counted sample of gathers may differ from its ratio."""

LINE_OFF = 1
"""Per cent that a chalked line, or a hem, may differ from its length on the pattern."""

FRENCH_SECOND: Mm = 6.0
"""Of a French seam: from its fold to the stitching line. Wider ones stand off, narrower ones show
whiskers of the first pass. That pass lies this far outside the stitching line."""

FRENCH_TRIM: Mm = 4.0
"""Left of a French seam's raw edges before it is turned: less than the second pass takes."""

ZIP_TOP: Mm = 5.0
"""A zip under a facing or a binding has its top stop so far under the waist seam, clear of it."""

ZIP_CUT: Mm = 20.0
"""A zip shortened from below is cut so far under its new bar of stitches."""

LEAST_GROWTH: Mm = 3.0
"""A hem that grows by less is not worth hanging for."""

QUARTER_OFF: Mm = 5.0
"""A quarter of a gathered edge may differ from the others by this."""
