"""Reads advances out of a TrueType file, straight from its tables (OpenType 1.9)."""

import struct
from functools import cache
from pathlib import Path

import fontpkg_fira_sans

FILES = Path(fontpkg_fira_sans.__file__).parent / "files"


@cache
def advances(name: str) -> dict[int, float]:
    """Return the advance of every letter of a font, in shares of its type height."""
    data = (FILES / name).read_bytes()
    (count,) = struct.unpack_from(">H", data, 4)
    tables = {}
    for k in range(count):
        tag, _, offset, _ = struct.unpack_from(">4sIII", data, 12 + 16 * k)
        tables[tag.decode()] = offset
    (em,) = struct.unpack_from(">H", data, tables["head"] + 18)
    (metrics,) = struct.unpack_from(">H", data, tables["hhea"] + 34)

    def advance(glyph: int) -> float:
        at = tables["hmtx"] + 4 * min(glyph, metrics - 1)
        (wide,) = struct.unpack_from(">H", data, at)
        return float(wide) / float(em)

    return {code: advance(glyph) for code, glyph in _glyphs(data, tables["cmap"]).items()}


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    (count,) = struct.unpack_from(">H", data, cmap + 2)
    for k in range(count):
        platform, encoding, offset = struct.unpack_from(">HHI", data, cmap + 4 + 8 * k)
        if (platform, encoding) == (3, 1):
            return _format_4(data, cmap + offset)
    raise AssertionError("the font has no table of the Basic Multilingual Plane")


def _format_4(data: bytes, at: int) -> dict[int, int]:
    form, _, _, doubled = struct.unpack_from(">HHHH", data, at)
    assert form == 4
    count = doubled // 2
    ends = struct.unpack_from(f">{count}H", data, at + 14)
    starts_at = at + 16 + doubled
    starts = struct.unpack_from(f">{count}H", data, starts_at)
    deltas = struct.unpack_from(f">{count}h", data, starts_at + doubled)
    ranges_at = starts_at + 2 * doubled
    ranges = struct.unpack_from(f">{count}H", data, ranges_at)
    found = {}
    for k in range(count):
        for code in range(starts[k], ends[k] + 1):
            if code == 0xFFFF:
                continue
            glyph = code
            if ranges[k]:
                where = ranges_at + 2 * k + ranges[k] + 2 * (code - starts[k])
                (glyph,) = struct.unpack_from(">H", data, where)
                if not glyph:
                    continue
            glyph = (glyph + deltas[k]) & 0xFFFF
            if glyph:
                found[code] = glyph
    return found
