"""What one key of a spec sheet may hold: a line of text, an address, an edition, a day."""

import datetime
import re
import unicodedata
from typing import Literal
from urllib.parse import urlsplit

from pydantic import BeforeValidator, ValidationInfo

from drafting.errors import quoted
from drafting.sheet_told import shown
from drafting.sheet_values import key_of, refusal, usable, wrong_kind

TITLE_LENGTH = 80
TEXT_LENGTH = 120
PAGE_LENGTH = 200

# Marks that turn the direction of what is written after them, also beyond their own text.
_TURNING = {*range(0x202A, 0x202F), *range(0x2066, 0x206A)}


def forbidden(character: str) -> bool:
    """Tell whether a character cannot be printed in a line of text."""
    return unicodedata.category(character) in ("Cc", "Cs", "Zl", "Zp") or ord(character) in _TURNING


def clean(text: str) -> str:
    """Return a text in one normal form, without the white space around it."""
    return unicodedata.normalize("NFC", text).strip()


def seen(text: str) -> bool:
    """Tell whether any character of a text leaves a mark."""
    return any(unicodedata.category(c) not in ("Cf", "Zs", "Mn", "Cn") for c in text)


def text_up_to(most: int, *, empty: Literal["fine", "refused"] = "fine") -> BeforeValidator:
    def read(value: object, info: ValidationInfo) -> str:
        key = key_of(info)
        if not isinstance(value, str):
            example = f'"{shown(value)}"' if isinstance(value, int | float) else '"…"'
            raise wrong_kind(key, value, "text in quotes", example)
        return _checked_text(value, key, most, empty)

    return BeforeValidator(read)


def _checked_text(value: str, key: str, most: int, empty: Literal["fine", "refused"]) -> str:
    text = clean(value)
    bad = next((c for c in text if forbidden(c)), None)
    if bad is not None:
        raise refusal(
            value, f"{key} holds a character that cannot be printed (code {ord(bad)}).",
            "Type the text again, in one line.",
        )  # fmt: skip
    if len(text) > most:
        raise refusal(value, f"{key} has {len(text)} characters.", f"It can have up to {most}.")
    if empty == "refused" and not seen(text):
        raise refusal(
            value, f"{key} is empty.", f'Write {key} = "Chorus skirt", or take the key out.'
        )
    return text


def read_edition(value: object, info: ValidationInfo) -> str:
    if isinstance(value, int | float) and not isinstance(value, bool) and usable(value):
        return shown(value)
    if not isinstance(value, str):
        raise wrong_kind(key_of(info), value, "text or a number", '"1"')
    return _checked_text(value, key_of(info), TEXT_LENGTH, "fine")


_PAGE_CHARACTERS = re.compile(r"[^\s\"<>\\^`{|}]+")


def read_page(value: object, info: ValidationInfo) -> str:
    key = key_of(info)
    if not isinstance(value, str):
        raise wrong_kind(key, value, "the address of a page", '"https://example.org/skirts"')
    text = _checked_text(value, key, PAGE_LENGTH, "fine")
    try:
        parts = urlsplit(text)
        host = parts.hostname
    except ValueError:
        host = None
    if not text or (
        host and parts.scheme in ("http", "https") and _PAGE_CHARACTERS.fullmatch(text)
    ):
        return text
    raise refusal(
        value, f"{key} is {quoted(value)}, which is not the address of a page.",
        'Write it in full, such as "https://example.org/skirts".',
    )  # fmt: skip


def read_date(value: object, info: ValidationInfo) -> str:
    key = key_of(info)
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value.strip(), re.ASCII):
        try:
            return datetime.date.fromisoformat(value.strip()).isoformat()
        except ValueError:
            pass
    if isinstance(value, str):
        raise refusal(
            value, f"{key} is {quoted(value)}, which is not a day.",
            f'Write year, month, day: {key} = "2026-11-24".',
        )  # fmt: skip
    raise wrong_kind(key, value, "a day", '"2026-11-24"')
