"""Battery card: what stands at the bank for whoever opens its lid, the cautions included."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rigcalc import CAUTION
from rigcalc.model.network import BANK
from rigcalc.outputs.schedules.frame import BY_HAND, frame, known, natural, stated, system_of
from rigcalc.outputs.schedules.lookup import CHEMISTRY, always_live, class_text, names, rating
from rigcalc.study import Study
from rigcalc.tables.cautions import cautions
from rigcalc.units import customary

if TYPE_CHECKING:
    import pandas as pd

_Line = tuple[object, ...]


def battery_card(study: Study, units: str | None = None) -> pd.DataFrame:
    """The bank's figures, links, fuses and cautions, a line each.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        Empty values are written in by hand; a caution's source stands beside it.
    """
    rows = [*_bank(study, system_of(study, units)), *_leaving(study), *_WRITTEN, *_cautions()]
    return frame(study, units, ("What", "Value", "Unit", "Source or note"), rows)


def _bank(study: Study, system: str) -> Iterator[_Line]:
    bank = study.rig.bank
    units_in = f"{bank.series} in series" + (f", {bank.parallel} strings in parallel" if bank.parallel > 1 else "")
    yield "Chemistry", CHEMISTRY[bank.chemistry], "", "replace only by the same type, all units at once"
    yield (
        "Links",
        units_in,
        "",
        f"in a string + of one unit to − of the next; {bank.series * bank.parallel} units in all",
    )
    yield "Nominal voltage", bank.nominal_v, "V", ""
    yield "Rated capacity of the bank", bank.capacity_ah, "Ah", f"over {bank.rated_h:g} h"
    yield "Rated capacity of one unit", bank.unit_capacity_ah, "Ah", f"over {bank.rated_h:g} h"
    yield "Highest charging voltage", bank.highest_charge_v, "V", "of the whole bank"
    yield "Counts as empty at", bank.lowest_working_v, "V", "of the whole bank, under load"
    yield "Discharged to at most", 100 * bank.depth_of_discharge, "%", "of its capacity"
    temperature = customary(bank.temperature_c, "c", system)
    yield "Cell temperature designed for", temperature, "°F" if system == "us" else "°C", ""
    yield "Continuous limit of one unit", stated(bank.unit_discharge_max_a), "A", ""
    worst = max((one.prospective_a for one in study.network.circuits if one.prospective_a is not None), default=None)
    yield "Largest short-circuit current at a device", known(worst), "A", study.network.fault.status
    yield "Lasts without charging", known(study.autonomy.autonomy_d), "d", "on the design day"


def _leaving(study: Study) -> Iterator[_Line]:
    """What leaves the bank, and what protects it."""
    rig, label = study.rig, names(study.rig)
    guard = {one.run_id: one for one in study.network.circuits if one.conductor == "positive"}
    for run in sorted((run for run in rig.runs if run.from_id == BANK), key=lambda run: natural(run.id)):
        one = guard.get(run.id)
        fuse = f"{one.circuit_id}, {class_text(one.device_class)}" if one else "no device in it"
        yield f"Fuse of {run.id} to {label[run.to_id]}", rating(one) if one else "", "A" if one else "", fuse
    yield "Main switch in run", stated(rig.main_switch_run), "", ""
    live = always_live(rig)
    yield "Live with the main switch off", known(None if live is None else _listed(live)), "", "runs"
    yield "Bond to the chassis", stated(rig.chassis_bond), "", ""


def _listed(runs: frozenset[str]) -> str:
    return ", ".join(sorted(runs, key=natural)) or "none"


_WRITTEN: tuple[_Line, ...] = (
    ("Place of the main switch", BY_HAND, "", "mark it where it is out of sight"),
    ("Date fitted", BY_HAND, "", ""),
    ("Photo or drawing of the links, + marked", BY_HAND, "", ""),
    ("More than one source can keep the wiring live", BY_HAND, "", "list each source and how it is switched off"),
)


def _cautions() -> Iterator[_Line]:
    for topic in ("battery", "fuel", "ventilation", "protection"):
        for row in cautions(topic):
            mark = f", {row.status}" if row.from_memory else ""
            yield f"Caution, {topic}", row.fact, "", f"{row.source} {row.locator}{mark}"
    yield "Caution", CAUTION, "", ""
