"""What every part of a rig shares: strict frozen fields, bounded numbers, and the text a person typed.

A dimensioned field holds a float in the unit its name ends with. Where a person typed it in another unit, the
text stays beside it in ``typed`` ({"length_out_m": "6 ft"}); a pair that disagrees is refused.
"""

from __future__ import annotations

import datetime
import math
from typing import Annotated, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints, model_validator
from pydantic_core import PydanticCustomError

from rigcalc.errors import InputError
from rigcalc.units import parse, suffix_of

#: Control characters, line and paragraph separators, and marks that turn the direction of writing.
_UNSEEN = r"\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069"
_ID = r"^[A-Za-z0-9][A-Za-z0-9._+-]{0,31}$"
_NAME = rf"^[^{_UNSEEN}]*[^\s{_UNSEEN}][^{_UNSEEN}]*$"
_NOTE = r"^[^\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]*$"
_DATE = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
#: What a text must look like, in words for a message.
PATTERN_WORDS = {
    _ID: "1 to 32 letters, digits, dots, dashes, plus signs or underscores, a letter or digit first",
    _NAME: "one line of text without control characters",
    _NOTE: "text without control characters",
    _DATE: "a date such as 2025-06-30",
}


def _day_of_calendar(text: str) -> str:
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        raise InputError("date", text, PATTERN_WORDS[_DATE]) from None
    return text


Id = Annotated[str, StringConstraints(pattern=_ID)]
Name = Annotated[str, StringConstraints(min_length=1, max_length=80, pattern=_NAME)]
Note = Annotated[str, StringConstraints(max_length=2000, pattern=_NOTE)]
Date = Annotated[str, StringConstraints(pattern=_DATE), AfterValidator(_day_of_calendar)]
TypedText = Annotated[str, StringConstraints(min_length=1, max_length=40, pattern=_NAME)]


def _no_dust(value: float) -> float:
    """Nothing in a rig is smaller than this and not 0; quotients of such numbers end beyond all numbers."""
    if 0 < abs(value) < _DUST:
        raise PydanticCustomError("dust", "0, or at least 0.000000001")
    return value


_DUST = 1e-9
_Plain = AfterValidator(_no_dust)
Fraction = Annotated[float, Field(ge=0.001, le=1, allow_inf_nan=False)]
Watts = Annotated[float, Field(ge=0, le=100_000, allow_inf_nan=False), _Plain]
RatedWatts = Annotated[float, Field(ge=0.01, le=100_000, allow_inf_nan=False)]
Amps = Annotated[float, Field(ge=0, le=100_000, allow_inf_nan=False), _Plain]
RatedAmps = Annotated[float, Field(ge=0.01, le=100_000, allow_inf_nan=False)]
Volts = Annotated[float, Field(ge=0.1, le=1000, allow_inf_nan=False)]
WattHours = Annotated[float, Field(ge=0, le=10_000_000, allow_inf_nan=False), _Plain]
AmpHours = Annotated[float, Field(ge=0.01, le=100_000, allow_inf_nan=False)]
Hours = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False), _Plain]
Seconds = Annotated[float, Field(ge=0, le=86_400, allow_inf_nan=False), _Plain]
Metres = Annotated[float, Field(ge=0, le=1000, allow_inf_nan=False), _Plain]
Celsius = Annotated[float, Field(ge=-60, le=250, allow_inf_nan=False)]
Ohms = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False), _Plain]
Percent = Annotated[float, Field(ge=0.01, le=100, allow_inf_nan=False)]
Count = Annotated[float, Field(ge=0, le=100_000, allow_inf_nan=False), _Plain]


class Entry(BaseModel):
    """One part of a rig: unknown keys are refused, nothing is coerced, nothing changes after reading."""

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid", defer_build=True, ser_json_inf_nan="constants")

    typed: dict[str, TypedText] = Field(
        default={}, max_length=64, description="Text as typed, by field, where it was not in SI units"
    )

    @model_validator(mode="after")
    def _typed_agrees(self) -> Self:
        for field, text in self.typed.items():
            suffix = suffix_of(field)
            if suffix is None or field not in type(self).model_fields:
                raise InputError("Key in typed", field, "the name of a field with a unit")
            value = getattr(self, field)
            if value is None or not math.isclose(parse(text, suffix, field), value, rel_tol=1e-6, abs_tol=1e-9):
                raise InputError(f"{field} typed as {text!r}", value, "the same quantity in the text and the value")
        return self
