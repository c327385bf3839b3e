"""Every picture of a booklet, drawn once, each where its step looks for it.

Imports the pictures.
"""

from dataclasses import dataclass

from drafting.pattern import Pattern
from render.pictures.arcs import arcs_picture
from render.pictures.french_seam import french_seam_picture
from render.pictures.gathering_rows import cord_picture, rows_picture
from render.pictures.hem_finish import hem_finish
from render.pictures.hem_section import hem_section
from render.pictures.levelling import levelling_picture
from render.pictures.opening import opening_picture
from render.pictures.picture import Picture
from render.pictures.pieces import pieces_picture
from render.pictures.quarters import quarters_picture, waist_quarters_picture
from render.pictures.ruffle_laid import laid_pictures
from render.pictures.sample import sample_strip
from render.pictures.sketch import front_and_back
from render.pictures.taping import taping_picture
from render.pictures.waist_finish import waist_finish


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The pictures of one garment; None, or none of them, where it has nothing to show."""

    sketch: Picture | None
    pieces: Picture | None
    taping: Picture | None
    arcs: Picture | None
    seam: Picture | None
    opening: Picture | None
    waist_quarters: Picture | None
    gathering: tuple[Picture, ...]
    quarters: tuple[Picture, ...]
    laid: tuple[Picture, ...]
    waist: tuple[Picture, ...]
    levelling: Picture | None
    hem: tuple[Picture, ...]
    section: Picture | None
    sample: Picture | None


def shown(pattern: Pattern) -> Shown:
    """Return every picture of a garment, its words in the language spoken."""
    papers = pattern.spec.print.papers
    return Shown(
        sketch=front_and_back(pattern),
        pieces=pieces_picture(pattern),
        taping=taping_picture(pattern, papers[0]) if papers else None,
        arcs=arcs_picture(pattern),
        seam=french_seam_picture(pattern),
        opening=opening_picture(pattern),
        waist_quarters=waist_quarters_picture(pattern),
        gathering=_there(cord_picture(pattern), rows_picture(pattern)),
        quarters=_there(quarters_picture(pattern)),
        laid=laid_pictures(pattern),
        waist=_there(waist_finish(pattern)),
        levelling=levelling_picture(pattern),
        hem=_there(hem_finish(pattern)),
        section=hem_section(pattern),
        sample=sample_strip(pattern),
    )


def _there(*pictures: Picture | None) -> tuple[Picture, ...]:
    return tuple(picture for picture in pictures if picture is not None)
