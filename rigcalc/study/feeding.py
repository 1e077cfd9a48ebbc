"""From the appliance to the battery: adapter, converter, and inverters with all they feed on one day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigcalc.formulas.energy import DAY_H, energy_before_wh, running_energy_wh
from rigcalc.formulas.inverter import LossCurve, daily_losses_wh, dc_power_w
from rigcalc.model import Inverter, Load, Rig
from rigcalc.study.day import BATTERY, SOCKET, LoadDay
from rigcalc.study.tree import curve_of

Part = tuple[float, float]  # AC power [W] and hours a day at it [h]


@dataclass(frozen=True, slots=True)
class Feeder:
    """An inverter with its loss curve; None where one efficiency is typed."""

    inverter: Inverter
    curve: LossCurve | None

    @property
    def idle_w(self) -> float | None:
        """Idle draw, typed or of the curve; None where not stated. [W]"""
        return self.curve.k0 * self.inverter.rated_w if self.curve else self.inverter.idle_w

    def above_idle_w(self, ac_w: float) -> float:
        """DC power for an AC power, idle left out. [W]"""
        if self.curve is None:
            return energy_before_wh(ac_w, self.inverter.efficiency or 1.0)
        rated_w = self.inverter.rated_w
        return dc_power_w(ac_w, rated_w, self.curve) - dc_power_w(0.0, rated_w, self.curve)

    def factor(self, parts: Sequence[Part], on_h: float) -> float:
        """DC energy over AC energy of the loads together, idle left out. [-]"""
        if self.curve is None:
            return energy_before_wh(1.0, self.inverter.efficiency or 1.0)
        longest_h = max((hours for _, hours in parts), default=0.0)
        _, losses = daily_losses_wh(parts, self.inverter.rated_w, max(on_h, longest_h), self.curve)
        ac_wh = sum(power_w * hours for power_w, hours in parts)
        return 1 + (sum(losses) / ac_wh if ac_wh else self.curve.k1)

    def idle_wh(self, parts: Sequence[Part], on_h: float) -> float:
        """Idle energy: all hours on, or with one efficiency, which has idle inside, the unloaded hours. [Wh]"""
        loaded_h = 0.0 if self.curve else max((hours for power_w, hours in parts if power_w), default=0.0)
        return running_energy_wh(self.idle_w or 0.0, max(0.0, on_h - loaded_h))


def feeders(rig: Rig) -> dict[str, Feeder]:
    """The rig's inverters by id."""
    return {one.id: Feeder(one, curve_of(one)) for one in rig.inverters}


def read_behind(rig: Rig, load: Load, day: LoadDay, by_id: dict[str, Feeder]) -> float:
    """Energy where it was known over energy at the appliance, an inverter's idle draw left out. [-]"""
    adapter = load.adapter_efficiency or 1.0
    if day.point == SOCKET:
        return energy_before_wh(1.0, adapter)
    if day.point != BATTERY or load.feed == "direct":
        return 1.0
    if load.feed == "converter":
        return energy_before_wh(1.0, converter_efficiency(rig, load.fed_by))
    ac_w = (day.running_w or day.energy_wh / DAY_H) / adapter
    return energy_before_wh(by_id[load.fed_by or ""].factor(((ac_w, 1.0),), 1.0), adapter)


def converter_efficiency(rig: Rig, converter_id: str | None) -> float:
    """The converter's own efficiency. [-]"""
    return next(one.efficiency for one in rig.converters if one.id == converter_id)


def ac_part(load: Load, day: LoadDay, ac_wh: float, on_h: float, adapter: float | None = None) -> Part:
    """AC power and hours that carry the load's day: its running power where stated, else its mean while on."""
    ac_w = day.running_w / (adapter or load.adapter_efficiency or 1.0)
    if day.running_h is not None:
        return ac_w, day.running_h
    if ac_w and ac_wh / ac_w <= DAY_H:
        return ac_w, ac_wh / ac_w
    hours = on_h or DAY_H
    return ac_wh / hours, hours
