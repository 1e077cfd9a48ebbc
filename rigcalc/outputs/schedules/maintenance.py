"""Maintenance blank: what to look at and how often, the first reading beside the new ones."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rigcalc.outputs.schedules.frame import BY_HAND, frame, known
from rigcalc.study import Study

if TYPE_CHECKING:
    import pandas as pd

_HEADS = (
    "How often", "What", "Predicted", "Unit", "First reading", "Reading 1", "Date 1", "Reading 2", "Date 2",
    "Reading 3", "Date 3", "Remarks",
)  # fmt: skip
_LOOKED_AT = (
    ("monthly", "Bilge, battery space and vents: dry, clean, open"),
    ("monthly", "Alarms sound when tested; their dates have not passed"),
    ("season", "Terminals: tight by the maker's torque, covers in place"),
    ("season", "Fuse holders and blocks: no browning, no loose grip"),
    ("season", "Cables: supports, chafe, warmth marks"),
    ("season", "Solar panels, where fitted: clean, not shaded, fixings tight"),
)
_DROP_RUNS = 3


def maintenance(study: Study, units: str | None = None) -> pd.DataFrame:
    """What to check by month, season and year, with room for the first and three later readings.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        The three runs whose predicted drop is largest stand in it; the first reading comes from commissioning.
    """
    lines = [*((often, what, "", "") for often, what in _LOOKED_AT), *_readings(study), *_yearly(study)]
    return frame(study, units, _HEADS, [[*line, *[BY_HAND] * 8] for line in lines])


def _readings(study: Study) -> Iterator[tuple[object, ...]]:
    if study.rig.bank.chemistry == "flooded":
        yield "monthly", "Electrolyte level of each cell", "", ""
    drops = [(one.choice.drop_v, one) for one in study.network.runs if one.choice and one.solved and not one.unknown]
    for drop_v, one in sorted(drops, key=lambda pair: -pair[0])[:_DROP_RUNS]:
        current_a = one.choice.current_a if one.choice else 0.0
        yield "season", f"Drop of {one.run_id}, {one.name}, at {current_a:.3g} A", drop_v, "V"
    yield "season", "Standing current, everything off", "", "A"


def _yearly(study: Study) -> Iterator[tuple[object, ...]]:
    found = study.autonomy
    yield (
        "year",
        "Capacity test: charge given until the battery counts as empty",
        known(found.capacity_at_rate_ah),
        "Ah",
    )
    yield "year", "Days the bank lasts on a usual day", known(found.autonomy_d), "d"
    yield "year", "Each device opens by hand or test button, and its rating is that of the fuse schedule", "", ""
    yield "year", "Bond to the chassis and earth straps: tight, clean", "", ""
    yield "winter", "Stored: state of charge, what stays connected, days until empty", "", ""
