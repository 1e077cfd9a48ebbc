"""Which protective device a circuit gets: class, rating, and the window the rating must fall in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigcalc.formulas.fault import (
    bank_resistance_ohm,
    lead_unit_resistance_ohm,
    lithium_unit_resistance_ohm,
    resistance_from_short_circuit_ohm,
)
from rigcalc.formulas.overcurrent import least_rating_a, next_rating_a, opening_time_s, rerating_fraction
from rigcalc.model import Bank, Device, Rig
from rigcalc.study.results import Working
from rigcalc.tables.battery import battery_figure
from rigcalc.tables.overcurrent import (
    battery_aic,
    device_class,
    device_limit,
    gates,
    interrupting,
    ratings,
    rerating,
)

#: Tried in this order where nobody stated a class: their interrupting ratings were read, not recalled.
CHOSEN_CLASSES = ("blade", "high_current_blade", "current_limiting")
#: ABYC E-11 as quoted: above 2200 CCA or 500 Ah the maker's short-circuit current, else 20 kA.
LARGEST_CRANKING_A, LARGEST_BANK_AH, LARGE_BANK_A = 2200.0, 500.0, 20_000.0
RATED_UP_TO_C = 40.0  # memory: breakers are rated at 40 °C, fuses at 25 °C where a little heat costs a few percent
CONTINUOUS_SHARE = 0.8  # 1 / 1.25, common practice, no source


@dataclass(frozen=True, slots=True)
class Protection:
    """A device as stated or chosen, with the lower edge of its window."""

    class_id: str
    class_stated: bool
    share: float
    rerating: float
    rerating_read: bool  # False: what heat takes of this class there is in no read source
    least_a: float
    rating_a: float | None
    rating_stated: bool
    rating_status: str
    voltage_rating_v: float | None
    interrupting_a: float | None
    interrupting_status: str
    holder_a: float | None


_Known = tuple[float, str, str, str]  # ohms of one unit, numbers, source, status


def fault_resistance_ohm(rig: Rig) -> tuple[float, Working]:
    """The bank's resistance for the largest fault: the least the maker's figures leave, else the safe side. [Ω]"""
    bank = rig.bank
    known = [*_stated(bank), *(() if bank.unit_short_circuit_a else (_recalled(bank),))]
    unit_ohm, numbers, source, status = min(known)
    whole = bank_resistance_ohm(unit_ohm, bank.series, bank.parallel)
    numbers += f", {bank.series} in series, {bank.parallel} in parallel"
    return whole, Working("Bank resistance for faults", "R_min", numbers, f"{1000 * whole:.2f} mΩ", source, "", status)


def _stated(bank: Bank) -> Iterator[_Known]:
    """What the maker says of one unit; where both figures are stated, the one of the larger fault counts."""
    if bank.unit_short_circuit_a:
        unit_v = bank.highest_charge_v / bank.series
        unit_ohm = resistance_from_short_circuit_ohm(unit_v, bank.unit_short_circuit_a)
        numbers = f"{unit_v:g} V / {bank.unit_short_circuit_a:g} A a unit"
        yield unit_ohm, numbers, "maker's short-circuit current, as stated in the rig", "primary"
    if bank.unit_resistance_ohm is not None:
        numbers = f"{1000 * bank.unit_resistance_ohm:g} mΩ a unit"
        yield bank.unit_resistance_ohm, numbers, "maker's resistance, as stated in the rig", "primary"


def _recalled(bank: Bank) -> _Known:
    """The safe side from memory, for a bank whose short-circuit current nobody stated."""
    figure = battery_figure(bank.chemistry, "fault_resistance_ohm_ah_per_12v")
    assert figure is not None  # a row of the table for each chemistry
    if bank.chemistry == "lifepo4":
        cell_ohm = figure.value / 4 / 100
        unit_ohm = lithium_unit_resistance_ohm(bank.unit_capacity_ah, bank.cells_per_unit, cell_ohm)
        numbers = f"{bank.cells_per_unit} cells of {1000 * cell_ohm:g} mΩ at 100 Ah, {bank.unit_capacity_ah:g} Ah"
    else:
        unit_ohm = lead_unit_resistance_ohm(bank.unit_capacity_ah, bank.nominal_v / bank.series, figure.value)
        numbers = f"{figure.value:g} Ω·Ah / {bank.unit_capacity_ah:g} Ah for each 12 V"
    return unit_ohm, numbers, "common practice, no source", "memory"


def breaker_floor_a(rig: Rig, is_main: bool) -> float:
    """Interrupting current asked of a lead bank by its cranking amperes; 0 where it does not apply. [A]"""
    if rig.bank.cranking_a is None or rig.bank.chemistry == "lifepo4":
        return 0.0
    if rig.bank.cranking_a > LARGEST_CRANKING_A or rig.bank.capacity_ah > LARGEST_BANK_AH:
        stated = rig.bank.unit_short_circuit_a
        return LARGE_BANK_A if stated is None else stated * rig.bank.parallel
    row = battery_aic(rig.system_v, rig.bank.cranking_a)
    return 0.0 if row is None else row.main_a if is_main else row.branch_a


def protection(
    device: Device, way_class: str | None, continuous_a: float, prospective_a: float | None, rig: Rig, system_v: float
) -> Protection:
    """The device as far as it is stated, completed by the first class whose ratings fit."""
    stated = device.device_class or way_class
    if stated is not None:
        return _of_class(device, stated, True, continuous_a, rig, system_v)
    for class_id in CHOSEN_CLASSES:
        one = _of_class(device, class_id, False, continuous_a, rig, system_v)
        breaks = prospective_a is None or (one.interrupting_a or 0.0) >= prospective_a
        if (
            one.rating_a is not None
            and one.voltage_rating_v is not None
            and one.voltage_rating_v >= system_v
            and breaks
        ):
            return one
    return one


def _of_class(
    device: Device, class_id: str, stated: bool, continuous_a: float, rig: Rig, system_v: float
) -> Protection:
    kind = device_class(class_id)
    share = min(CONTINUOUS_SHARE, kind.continuous_share or CONTINUOUS_SHARE)
    factor, factor_read = _rerating(class_id, rig.ambient_hot_c if device.ambient_c is None else device.ambient_c)
    least_a = least_rating_a(continuous_a, share, factor)
    series = ratings(class_id)
    rating_a = device.rating_a
    if rating_a is None:
        rating_a = next_rating_a([row.rating_a for row in series], least_a)
    row = next((one for one in series if one.rating_a == rating_a), None)
    broken = interrupting(class_id, system_v)
    limit = device_limit(class_id, "max_dc_v")
    return Protection(
        class_id=class_id,
        class_stated=stated,
        share=share,
        rerating=factor,
        rerating_read=factor_read,
        least_a=least_a,
        rating_a=rating_a,
        rating_stated=device.rating_a is not None,
        rating_status="stated in the rig" if device.rating_a is not None else row.status if row else "memory",
        voltage_rating_v=device.voltage_rating_v or (limit.value if limit else None),
        interrupting_a=device.interrupting_a or (broken.interrupting_a if broken else None),
        interrupting_status="stated in the rig" if device.interrupting_a else broken.status if broken else "not known",
        holder_a=device.holder_rating_a or kind.holder_limit_a,
    )


def _rerating(class_id: str, ambient_c: float) -> tuple[float, bool]:
    """Share of the rating left in heat, and whether it was read; blades use the read high-current blades."""
    rows = rerating("high_current_blade" if class_id == "blade" else class_id)
    if not rows:
        return 1.0, ambient_c <= RATED_UP_TO_C
    if ambient_c > rows[-1].ambient_c:
        return rows[-1].fraction, False
    return rerating_fraction([(row.ambient_c, row.fraction) for row in rows], ambient_c), True


def start_opens(class_id: str, rating_a: float, starts: list[tuple[float, float]]) -> bool | None:
    """Whether any start (current, seconds) lasts as long as the fuse may take to open; None where not known."""
    rows = [(row.pct_of_rating, row.t_min_s, row.t_max_s) for row in gates(class_id, rating_a)]
    if not rows or not starts:
        return None
    gates_s = sorted((pct / 100, least_s) for pct, least_s, _ in rows if least_s is not None)
    lowest, (highest, last_s) = gates_s[0][0], gates_s[-1]
    known = True
    for current_a, seconds in starts:
        least_s, _ = opening_time_s(rows, current_a / rating_a)
        if current_a / rating_a > highest and seconds >= last_s:
            return True  # beyond the last gate it opens sooner still
        if least_s is not None and seconds >= least_s:
            return True
        known &= least_s is not None or current_a / rating_a <= lowest
    return False if known else None
