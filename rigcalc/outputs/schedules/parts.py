"""Parts list: what to buy and how many, in generic words; makes and prices are the builder's."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rigcalc.model.network import BANK
from rigcalc.outputs.schedules.cuts import SLACK_M, Cut, cuts
from rigcalc.outputs.schedules.frame import BY_HAND, NOT_STATED, frame, natural
from rigcalc.outputs.schedules.lookup import CHEMISTRY, NOT_CHOSEN, class_text, rating, source_voltage_v
from rigcalc.study import Study
from rigcalc.tables.cautions import cautions

if TYPE_CHECKING:
    import pandas as pd

_HEADS = (
    "Group", "What it must be", "Quantity", "Unit", "Length [m]", "Used as", "Bought, yes or no", "Cost",
    "Remarks",
)  # fmt: skip
_Line = tuple[str, str, object, str, object, str, str]  # group, what, quantity, unit, length, used as, remarks
_TO_FIT = "size, stud hole and torque by the maker of the terminal"


def parts_list(study: Study, units: str | None = None, slack_m: float = SLACK_M) -> pd.DataFrame:
    """Everything that is bought for the wiring, with the references that use it.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    slack_m : float
        Added at each end of a cut; a builder's value. [m]

    Returns
    -------
    pandas.DataFrame
        A row a kind of part; bought and cost are written in by hand, and so is a quantity that no rig can hold.
    """
    found = cuts(study, slack_m)
    lines = [*_equipment(study), *_devices(study), *_distribution(study), *_cables(found), *_ends(found)]
    rows = [[*line[:6], BY_HAND, BY_HAND, line[6]] for line in [*lines, *_consumables(study, found)]]
    return frame(study, units, _HEADS, rows)


def _equipment(study: Study) -> Iterator[_Line]:
    rig, bank = study.rig, study.rig.bank
    unit_v = bank.nominal_v / bank.series
    unit = f"{unit_v:g} V nominal, {bank.unit_capacity_ah:g} Ah over {bank.rated_h:g} h"
    what = f"Battery, {CHEMISTRY[bank.chemistry]}, {unit}"
    yield "Equipment", what, bank.series * bank.parallel, "pieces", "", BANK, "all of one type and age"
    for one in rig.inverters:
        text = f"Inverter, {rig.system_v} V DC input, {one.rated_w:g} W"
        yield "Equipment", text, 1, "pieces", "", one.id, one.name
    for converter in rig.converters:
        rated = f"{converter.rated_w:g} W" if converter.rated_w is not None else f"rating {NOT_STATED}"
        text = f"DC converter, {rig.system_v} V to {converter.output_v:g} V, {rated}"
        yield "Equipment", text, 1, "pieces", "", converter.id, converter.name
    if rig.main_switch_run is not None:
        current_a = {run.run_id: run.design_current_a for run in study.network.runs}[rig.main_switch_run]
        text = f"Battery isolating switch, DC, at least {current_a:.3g} A and {bank.highest_charge_v:g} V"
        yield "Equipment", text, 1, "pieces", "", rig.main_switch_run, "continuous rating"


def _devices(study: Study) -> Iterator[_Line]:
    """Devices that are alike on one line, then holders for them."""
    holder = {one.id: one.holder_rating_a for one in study.rig.devices}
    alike: dict[str, list[str]] = {}
    holders: dict[str, list[str]] = {}
    for one in study.network.circuits:
        kind = class_text(one.device_class)
        rated = f"{one.rating_a:g} A" if one.rating_a is not None else f"rating {rating(one)}"
        volts = f"at least {source_voltage_v(study, one.run_id):g} V DC"
        breaks = f"able to interrupt {one.prospective_a:.0f} A" if one.prospective_a is not None else _NO_FAULT
        alike.setdefault(f"{kind}: {rated}, {volts}, {breaks}", []).append(one.circuit_id)
        if one.device_class != "breaker":
            own = holder[one.circuit_id]
            size = f"{own:g} A" if own is not None else f"at least {rated}"
            holders.setdefault(f"Holder or block way for {kind}: {size}", []).append(one.circuit_id)
    for group, found in (("Protection", alike), ("Holders", holders)):
        for what, refs in sorted(found.items(), key=lambda pair: natural(pair[0])):
            yield group, what, len(refs), "pieces", "", ", ".join(sorted(refs, key=natural)), ""
    yield "Protection", "Spare fuses, of each rating", BY_HAND, "pieces", "", "", "builder's choice"


_NO_FAULT = "short-circuit current not known"


def _distribution(study: Study) -> Iterator[_Line]:
    rig = study.rig
    for bus in rig.buses:
        joined = sum(bus.id in (run.from_id, run.to_id) for run in rig.runs)
        text = f"Bus bar or post, connections: {joined}"
        yield "Distribution", text, 1, "pieces", "", bus.id, bus.name
    for block in rig.blocks:
        ways = sum(run.from_id == block.id for run in rig.runs)
        rated = f"{block.rating_a:g} A" if block.rating_a is not None else f"rating {NOT_STATED}"
        takes = f", takes: {class_text(block.branch_class)}" if block.branch_class else ""
        text = f"Distribution block, ways in use: {ways}, {rated}{takes}"
        yield "Distribution", text, 1, "pieces", "", block.id, block.name


def _by_size(found: tuple[Cut, ...]) -> dict[str, list[Cut]]:
    sizes: dict[str, list[Cut]] = {}
    for cut in sorted(found, key=lambda cut: natural(cut.size)):
        sizes.setdefault(cut.size, []).append(cut)
    return sizes


def _cables(found: tuple[Cut, ...]) -> Iterator[_Line]:
    for size, one in _by_size(found).items():
        what = f"Copper conductor, fine-stranded, {size}" if size != NOT_CHOSEN else "Conductor, size not chosen"
        total_m = sum(cut.length_m for cut in one)
        yield (
            "Cable",
            what,
            len(one),
            "cuts",
            total_m,
            ", ".join(cut.wire for cut in one),
            "slack included; see cut list",
        )


def _ends(found: tuple[Cut, ...]) -> Iterator[_Line]:
    for name, one in _by_size(found).items():
        size = name if name != NOT_CHOSEN else "the size still to be chosen"
        used = ", ".join(dict.fromkeys(cut.run_id for cut in one))
        yield "Ends", f"Lug or ferrule for {size}", 2 * len(one), "pieces", "", used, _TO_FIT
        yield "Ends", f"Adhesive-lined heat-shrink for {size}", 2 * len(one), "pieces", "", used, "length by the lug"


def _consumables(study: Study, found: tuple[Cut, ...]) -> Iterator[_Line]:
    support = next(row for row in cautions("wiring") if row.id == "support")
    yield (
        "Consumables",
        "Wire labels, wrap-around",
        2 * len(found),
        "pieces",
        "",
        "",
        "one for each end; see wire labels",
    )
    yield "Consumables", "Clips", BY_HAND, "pieces", "", "", f"{support.fact} {support.source} {support.locator}"
    yield "Consumables", "Grommets, one for each bulkhead crossing", BY_HAND, "pieces", "", "", ""
    yield "Consumables", "Covers for live terminals", BY_HAND, "pieces", "", "", ""
    yield "Consumables", "Sleeving or conduit", BY_HAND, "pieces", "", "", ""
