"""What is written beside each symbol, from the study: designation, rating, size, and what is always live."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from rigcalc.model import Device, Load, Run
from rigcalc.model.network import BANK
from rigcalc.outputs.diagram.nodes import Node
from rigcalc.study import Study
from rigcalc.study.tree import power_stated, running_w
from rigcalc.units import significant


@dataclass
class Facts:
    """Words and marks for the parts of one study."""

    study: Study

    @cached_property
    def _parts(self) -> dict[str, dict[str, object]]:
        rig = self.study.rig
        kinds = ("buses", "blocks", "inverters", "converters", "loads")
        return {part.id: dict(part) for kind in kinds for part in getattr(rig, kind)}

    @cached_property
    def bank_designation(self) -> str:
        """-G1, or the next number that no part of the rig has."""
        taken = {part_id for _, part_id in self.study.rig.parts()}
        return next(f"-G{n}" for n in range(1, len(taken) + 2) if f"G{n}" not in taken)

    @cached_property
    def live(self) -> frozenset[str]:
        """Runs that stay live with the main switch open, without the run it is in; none where it is not stated."""
        switch = self.study.rig.main_switch_run
        return frozenset() if switch is None else self._reached(without=switch)

    def _reached(self, without: str | None = None) -> frozenset[str]:
        """Runs that the bank reaches, with one of them left out."""
        found: set[str] = set()
        waiting = [BANK]
        while waiting:
            for run in self._leaving.get(waiting.pop(), ()):
                if run.id != without:
                    found.add(run.id)
                    waiting.append(run.to_id)
        return frozenset(found)

    @cached_property
    def _connected(self) -> frozenset[str]:
        return self._reached()

    @cached_property
    def _leaving(self) -> dict[str, list[Run]]:
        found: dict[str, list[Run]] = {}
        for run in self.study.rig.runs:
            found.setdefault(run.from_id, []).append(run)
        return found

    @cached_property
    def _sizes(self) -> dict[str, str]:
        runs = self.study.network.runs
        return {one.run_id: one.choice.size if one.choice else "not chosen" for one in runs}

    @cached_property
    def _circuits(self) -> dict[str, tuple[float | None, str | None]]:
        return {one.circuit_id: (one.rating_a, one.device_class) for one in self.study.network.circuits}

    @cached_property
    def _devices(self) -> dict[str, list[Device]]:
        found: dict[str, list[Device]] = {}
        for device in sorted(self.study.rig.devices, key=lambda one: one.conductor, reverse=True):
            found.setdefault(device.run_id, []).append(device)
        return found

    def devices(self, run: Run) -> list[Device]:
        """Devices of a run, that of the positive conductor first."""
        return self._devices.get(run.id, [])

    def device_kind(self, device: Device) -> str:
        """The symbol for it."""
        chosen = self._circuits.get(device.id, (None, None))[1]
        return "breaker" if (device.device_class or chosen) == "breaker" else "fuse"

    def device_rating(self, device: Device) -> str:
        """Its rating as stated or chosen."""
        rating_a = device.rating_a if device.rating_a is not None else self._circuits.get(device.id, (None, None))[0]
        side = " in −" if device.conductor == "negative" else ""
        return ("not chosen" if rating_a is None else f"{rating_a:g} A") + side

    def size(self, run: Run) -> str:
        """The conductor of a run, and that of its return where it is another."""
        size = self._sizes.get(run.id, "not chosen").replace("mm2", "mm²")
        back = (run.return_conductor or "").replace("mm2", "mm²")
        return f"{size} / {back}" if back and back != size else size

    def name(self, node_id: str) -> str:
        """Name of a part as the rig has it."""
        return str(self._parts[node_id]["name"]) if node_id in self._parts else "Battery bank"

    def designation(self, node_id: str) -> str:
        """The rig's id with the sign of a product aspect before it."""
        return self.bank_designation if node_id == BANK else f"-{node_id}" if node_id else ""

    def rating(self, node: Node) -> str:
        """Power or current beside the symbol."""
        part = self._parts.get(node.id, {})
        if node.kind in ("inverter", "converter"):
            return _figure(part["rated_w"], "W")
        if node.kind == "block":
            return _figure(part["rating_a"], "A")
        if node.kind == "load":
            load = self._loads[node.id]
            return _figure(running_w(load) if power_stated(load) else None, "W")
        return ""

    @cached_property
    def _loads(self) -> dict[str, Load]:
        return {load.id: load for load in self.study.rig.loads}

    def mark(self, node: Node) -> str:
        """The symbol of a node."""
        if node.kind in ("inverter", "converter"):
            return node.kind
        if node.kind != "load":
            return "onward" if node.onward else "bar"
        use = self._parts[node.id]["circuit_use"]
        return "motor" if use == "pump" else "lamp" if use in ("lighting", "navigation_light") else "load"

    def bank_lines(self) -> list[str]:
        """The bank in words: voltage, capacity, kind of cell."""
        bank = self.study.rig.bank
        kind = {"flooded": "flooded", "agm": "AGM", "gel": "gel", "lifepo4": "LiFePO4"}[bank.chemistry]
        figures = f"{_short(bank.nominal_v)} V {_short(bank.capacity_ah)} Ah"
        return [self.bank_designation, figures, f"{kind} {bank.series} s {bank.parallel} p"]

    def live_word(self, run: Run) -> str:
        """Whether the run is live with the main switch open."""
        switch = self.study.rig.main_switch_run
        if run.id not in self._connected:
            return "not connected"
        if switch is None:
            return "not stated"
        return "to the switch" if run.id == switch else "always" if run.id in self.live else "switched"

    def live_node(self, node: Node) -> bool:
        """Whether a node is live with the main switch open."""
        if node.id == BANK:
            return self.study.rig.main_switch_run is not None
        return node.id in self._live_nodes

    @cached_property
    def _live_nodes(self) -> frozenset[str]:
        return frozenset(run.to_id for run in self.study.rig.runs if run.id in self.live)


def _figure(value: object, unit: str) -> str:
    return f"{_short(value)} {unit}" if isinstance(value, float) else f"{unit} not stated"


def _short(value: float) -> str:
    """Three digits, without zeros at the end that nobody typed."""
    words = significant(value)
    return words.rstrip("0").rstrip(".") if "." in words else words
