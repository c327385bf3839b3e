"""The letters of all formulas: what each stands for, and how its numbers are counted.

Imports language alone.
"""

import re
from enum import StrEnum

from drafting.language import said_later, say


class Kind(StrEnum):
    """What a number counts. Lengths and areas are in millimetres, metres in metres."""

    LENGTH = "length"
    METRES = "metres"
    AREA = "area"
    ANGLE = "angle"
    NUMBER = "number"
    COUNT = "count"


_L, _M, _A, _D, _N, _C = (
    Kind.LENGTH, Kind.METRES, Kind.AREA, Kind.ANGLE, Kind.NUMBER, Kind.COUNT,
)  # fmt: skip

LETTERS: dict[str, tuple[Kind, str]] = {
    # the body, and what was asked for
    "W": (_L, said_later("waist of the body")),
    "H": (_L, said_later("hip of the body")),
    "d0": (_L, said_later("hip depth, from the natural waist")),
    "d": (_L, said_later("hip depth, from the waist seam")),
    "D": (_L, said_later("how far the waist seam lies below the natural waist")),
    "e": (_L, said_later("ease at the waist")),
    "eD": (_L, said_later("ease at a dropped waist seam")),
    "eH": (_L, said_later("room at the hip line")),
    "eP": (_L, said_later("room for the hip to pass the opening")),
    "K": (_L, said_later("waist to floor, barefoot")),
    "Ks": (_L, said_later("waist to floor at the side, in the shoes")),
    "Kn": (_L, said_later("waist to knee")),
    "shoe": (_N, said_later("share of the heel by which the body rises")),
    "heel": (_L, said_later("height of the heel")),
    "u": (_L, said_later("height of the hem above the floor")),
    "p": (_L, said_later("one step, heel to heel")),
    "L0": (_L, said_later("length that was asked for")),
    # the waist seam
    "Wm": (_L, said_later("waist seam as it was measured")),
    "f": (_L, said_later("finished waist seam")),
    "T": (_L, said_later("upper edge of the band")),
    "G": (_N, said_later("gather ratio at the waist")),
    "G0": (_N, said_later("gather ratio that was asked for")),
    "s": (_N, said_later("share by which the cut waist edge stretches")),
    "give": (_N, said_later("share by which an edge of this cloth stretches at full bias")),
    "A1": (_D, said_later("angle from the grain to the panel's first edge")),
    "A2": (_D, said_later("angle from the grain to the panel's last edge")),
    "c": (_L, said_later("flat waist seam")),
    # a layer
    "F": (_N, said_later("fullness, in circles")),
    "F0": (_N, said_later("least fullness that a yoke or shaped gores are given")),
    "Fh": (_N, said_later("fullness of the cone above the hip, in circles")),
    "n": (_C, said_later("number of panels")),
    "n0": (_C, said_later("number of panels that was asked for")),
    "A": (_D, said_later("how far each side of a gore leans out below the hip")),
    "B": (_D, said_later("how far each side of a gore leans out at the waist")),
    "r": (_L, said_later("radius of the waist seam")),
    "R": (_L, said_later("radius of the hem")),
    "Rl": (_L, said_later("radius of the line that the ruffle is sewn to")),
    "L": (_L, said_later("length, from the waist seam to the hem")),
    "P": (_L, said_later("length of the panels themselves")),
    "Lo": (_L, said_later("length of the skirt at this place of the body")),
    "Lmax": (_L, said_later("greatest length anywhere round the body")),
    "Lmin": (_L, said_later("least length anywhere round the body")),
    "Lside": (_L, said_later("length on one side, and on the other")),
    "S": (_L, said_later("sweep")),
    "Sg": (_L, said_later("what the godets add to the sweep")),
    "E": (_L, said_later("lower edge of the panels")),
    "h": (_L, said_later("girth straight across the gores at hip depth")),
    "v": (_L, said_later("turn below the hip, in which a side comes to its flare")),
    "x": (_L, said_later("half the width of a gore")),
    "Rk": (_L, said_later("radius of the hem or of a line along it, at one place after another")),
    "gk": (_L, said_later("how fast it grows there, for each radian of the cloth")),
    "Lk": (_L, said_later("length at one place of the body after another")),
    "qk": (_N, said_later("share of the seam there that goes round the hem's centre")),
    # hems
    "q": (_N, said_later("share of a turned edge that this cloth lets be eased away")),
    "b0": (_L, said_later("drop of a reference skirt in this cloth")),
    "Q0": (_A, said_later("pull of that reference skirt under its own weight")),
    "b": (_L, said_later("drop of the hem at full bias")),
    "m": (_N, said_later("greatest share of the full bias that a panel's hem reaches")),
    "a": (_D, said_later("angle from the grain")),
    "limit": (_L, said_later("deepest hem that lies flat")),
    "usual": (_L, said_later("usual allowance of this hem")),
    "mm": (_L, said_later("a millimetre, to which spare cloth is rounded up")),
    "least": (_L, said_later("least allowance that can be turned")),
    "to": (_L, said_later("half a millimetre, to which the allowance is rounded down")),
    "half": (_L, said_later("allowance of a half-scale draft")),
    "spare": (_L, said_later("what is added for joining the ends")),
    "joint": (_L, said_later("what each further joint takes")),
    "U": (_L, said_later("width of the cloth between its selvages")),
    # openings
    "z": (_L, said_later("slit whose taut loop lets the hip through")),
    "rz": (_L, said_later("radius of the waist for the taut loop")),
    "z0": (_L, said_later("shortest slit that habit allows")),
    "past": (_L, said_later("how far below the hip a slit may reach by habit")),
    "open": (_L, said_later("opening below the waist seam")),
    "above": (_L, said_later("part of the zip that runs above the waist seam")),
    "Z": (_L, said_later("lengths in which zips are sold")),
    "clear": (_L, said_later("least seam between the opening and the vent")),
    "vent": (_L, said_later("length of vent that was asked for")),
    "knee": (_L, said_later("how far above the knee a vent begins")),
    "leg": (_L, said_later("girth of one leg at the hem")),
    # strips, bands, facings
    "w": (_L, said_later("allowance of the waist seam")),
    "j": (_L, said_later("allowance of a join")),
    "end": (_L, said_later("hem or turning at each end")),
    "lap": (_L, said_later("overlap of the band")),
    "hb": (_L, said_later("finished height of the band")),
    "El": (_L, said_later("width of the elastic")),
    "room": (_L, said_later("room for the elastic in its casing")),
    "share": (_N, said_later("share of the girth that the elastic is cut to")),
    "take": (_L, said_later("elastic that its own join takes")),
    "lean": (_L, said_later("least difference between the edges of a shaped band")),
    "rt": (_L, said_later("radius of the upper edge of a shaped band")),
    "df": (_L, said_later("depth of the facing")),
    # lining and ruffle
    "short": (_L, said_later("how much shorter the lining is")),
    "floor": (_L, said_later("shortest lining that is drafted")),
    "dr": (_L, said_later("depth of the ruffle")),
    "dr0": (_L, said_later("usual depth of a ruffle")),
    "up": (_L, said_later("from the ruffle's lower edge down to the lining's hem")),
    "y": (_L, said_later("line of the ruffle, below the waist seam")),
    "C": (_L, said_later("edge or line that is sewn to")),
    "g": (_N, said_later("gather ratio of the ruffle or the tier")),
    "flat": (_L, said_later("flat length before gathering")),
    "M": (_M, said_later("everything that is gathered, flat")),
    "N": (_C, said_later("number of strips or rings")),
    "top": (_L, said_later("allowance of the gathered edge")),
    "low": (_L, said_later("allowance of the lower edge")),
    "sect": (_M, said_later("longest stretch that is drawn up at once")),
    "k": (_C, said_later("number of sections")),
    "rows": (_C, said_later("number of gathering rows")),
    "rate": (_N, said_later("thread for each length of row")),
    "cord": (_M, said_later("cord that the two ends of a section take")),
    "gaps": (_C, said_later("places where joins or lining seams could lie, evenly round the line")),
    # tiers, flounces, godets
    "Y": (_L, said_later("depth of the yoke")),
    "Nt": (_C, said_later("number of tiers")),
    "V": (_L, said_later("depth of all tiers together")),
    "X": (_N, said_later("depth of a tier over the depth of the one above it")),
    "order": (_C, said_later("place of the tier, counted from 0 at the top")),
    "Dt": (_L, said_later("depth of the tier")),
    "df0": (_L, said_later("depth of the flounce")),
    "ratio": (_N, said_later("outer edge of the flounce over its inner edge")),
    "ri": (_L, said_later("inner radius of the flounce")),
    "ro": (_L, said_later("outer radius of the flounce")),
    "slit": (_D, said_later("least angle left open in a ring, so that its edges can be cut")),
    "Dg": (_L, said_later("depth of a godet")),
    "Ag": (_D, said_later("angle of a godet")),
    "tip": (_L, said_later("what its point is blunted by")),
    # cloth
    "lay": (_L, said_later("length of the lay, in washed cloth")),
    "wash": (_N, said_later("share that the first wash takes")),
    "reps": (_C, said_later("panels one behind another, on a cloth with a pattern")),
    "rep": (_L, said_later("repeat of the pattern")),
    "sq": (_N, said_later("share added for squaring the ends")),
    "sq0": (_L, said_later("least that is added for squaring the ends")),
    "need": (_L, said_later("cloth that is needed")),
    "hair": (_L, said_later("too little to count")),
    "unit": (_L, said_later("what a shop cuts a length to")),
}  # fmt: skip
"""What each letter stands for. One with a number behind it that is not here is one of several."""

_NUMBERED = re.compile(r"([A-Za-z]+?)\d+")


def base(letter: str) -> str:
    """Return the letter whose meaning it has: of "R3" that is "Rk", of "flat2" it is "flat"."""
    if letter in LETTERS:
        return letter
    match = _NUMBERED.fullmatch(letter)
    assert match is not None, letter
    return match[1] + "k" if match[1] + "k" in LETTERS else match[1]


def kind_of(letter: str) -> Kind:
    """Return what a letter's number counts."""
    return LETTERS[base(letter)][0]


def meaning(letter: str) -> str:
    """Return what a letter stands for, in the language spoken."""
    return say(LETTERS[base(letter)][1])
