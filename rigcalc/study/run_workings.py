"""The workings of a run and of a circuit: symbols, the numbers put in, the result, the source."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.model import Device
from rigcalc.study.ampacity import capacity, judges
from rigcalc.study.conductors import loop_ohm
from rigcalc.study.network_results import SizeCheck
from rigcalc.study.overcurrent import Protection
from rigcalc.study.results import Working
from rigcalc.study.settle import Design, Pick
from rigcalc.units import significant

_FORMS = {
    "circular_mil": ("ΔU = K · I · L / CM, K = 10.75 Ω·cmil/ft", "46 CFR 183.340(p); ABYC E-11 11.14.2.6", "secondary"),
    "table_8": ("ΔU = I · r_75 · (L_out + L_back)", "NFPA 70 Chapter 9 Table 8; IEC 60228 for mm²", "secondary"),
    "iec_annex_g": ("ΔU = ρ₁ · I · (L_out + L_back) / S, ρ₁ = 0.0225", "IEC 60364-5-52 Annex G", "secondary"),
    "iso": ("ΔU = 0.0164 · I · L / S", "ISO 10133", "secondary"),
}


def factor_workings(design: Design, pick: Pick) -> tuple[Working, ...]:
    """Table value and each factor on it, for the rule set that decides the run."""
    heard = judges(design.rules, pick.size.series)
    if not heard:
        return ()
    return capacity(pick.size, pick.demand.around, heard[0], pick.demand.current_a > 100).factors


def run_workings(design: Design, pick: Pick) -> tuple[Working, ...]:
    """Current, ampacity, drop by the rule and drop at working temperature."""
    found = [_current(design, pick)]
    if pick.check is not None:
        found += [*_ampacity(design, pick, pick.check), _rule_drop(design, pick, pick.check), _drop(pick, pick.check)]
        found.append(_whole_way(design, pick, pick.check))
    return tuple(found)


def _ampacity(design: Design, pick: Pick, one: SizeCheck) -> Iterator[Working]:
    if one.ampacity_a is not None and one.table_a is not None:
        factors = " · ".join(w.result for w in factor_workings(design, pick)[1:])
        numbers = f"{one.table_a:g} A · {factors}"
        yield Working("Ampacity", "I_z = I_table · f_a · f_g", numbers, f"{one.ampacity_a:.3g} A")


def _rule_drop(design: Design, pick: Pick, one: SizeCheck) -> Working:
    run, demand = pick.demand.run, pick.demand
    equation, source, status = _FORMS[design.rules.drop_form if not design.rules.members else "table_8"]
    lengths = f"({run.length_out_m:g} m + {run.length_back_m or 0:g} m)"
    numbers = f"{significant(demand.current_a)} A, {lengths}, {one.size}"
    result = f"{significant(one.rule_drop_v)} V, {one.rule_drop_percent:.1f} % of {demand.nominal_v:g} V"
    return Working(f"Voltage drop of {run.id} by the rule", equation, numbers, result, source, "", status)


def _drop(pick: Pick, one: SizeCheck) -> Working:
    ohm = loop_ohm(pick.demand.run, pick.size, pick.temperature_c)
    what = f"Voltage drop of {pick.demand.run.id} at {pick.temperature_c:.0f} °C"
    equation = "ΔU = I · R(T), R(T) = R₂₀ · (234.5 + T) / 254.5"
    numbers = f"{significant(pick.demand.current_a)} A · {significant(1000 * ohm)} mΩ"
    size = pick.size
    return Working(what, equation, numbers, f"{significant(one.drop_v)} V", size.source, size.locator, size.status)


def _whole_way(design: Design, pick: Pick, one: SizeCheck) -> Working:
    demand, limit = pick.demand, design.limits[pick.demand.run.id]
    way = f"{demand.before.rule_percent:.1f} % before + {one.rule_drop_percent:.1f} %"
    allowed = "none read" if demand.limit_percent is None else f"limit {demand.limit_percent:.3g} %"
    result = f"{one.way_drop_percent:.1f} %, {allowed}"
    return Working("Drop over the whole way", "sum from the source", way, result, limit.source, "", limit.status)


def _current(design: Design, pick: Pick) -> Working:
    run = pick.demand.run
    leaves = design.tree.below[run.id]
    end_v = design.end_v[run.id]
    if len(leaves) == 1 and leaves[0].id == run.to_id:
        numbers = f"{significant(leaves[0].power_w)} W / {significant(end_v)} V"
        equation = "I = P / V at the device, battery at its lowest"
    else:
        numbers = " + ".join(_leaf_current(design, leaf.id, leaf.power_w) for leaf in leaves) or "no load"
        equation = "I = sum of what may run together"
    return Working(f"Design current of {run.id}", equation, numbers, f"{significant(design.current_a[run.id])} A")


def _leaf_current(design: Design, leaf_id: str, power_w: float) -> str:
    return f"{significant(power_w / design.end_v[design.tree.feeding[leaf_id].id])} ({leaf_id})"


def circuit_workings(
    design: Design, device: Device, kept: Protection, most_a: float | None, because: str
) -> tuple[Working, ...]:
    """Both edges of the fuse window and the prospective short-circuit current."""
    least = Working(
        "Least rating",
        "I_n ≥ I / (share · f_T)",
        f"{significant(design.current_a[device.run_id])} A / ({kept.share:g} · {kept.rerating:.3g})",
        f"{significant(kept.least_a)} A",
        "common practice, no source",
        "1.25 times the continuous load; 0.75 of the rating in blade holders",
        "memory",
    )
    most = Working(
        "Largest rating", "least of conductor, device, holder", because, f"{most_a:.3g} A" if most_a else "none"
    )
    found = [least, most]
    short_a = design.prospective_a.get(device.id)
    if short_a is not None:
        found.append(design.fault[1])
        found.append(
            Working(
                "Prospective short-circuit current",
                "I_sc = V_full / (R_min + R_loop at 20 °C)",
                f"{design.rig.bank.highest_charge_v:g} V",
                f"{significant(short_a)} A",
                design.fault[1].source,
                "",
                design.fault[1].status,
            )
        )
    return tuple(found)
