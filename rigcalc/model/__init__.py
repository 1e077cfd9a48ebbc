"""The rig as data: frozen, strict, every dimensioned key with its unit. `file` reads and writes it."""

from rigcalc.model.bank import Bank, RatePoint
from rigcalc.model.base import Entry, TypedText
from rigcalc.model.file import read_rig, rig_from_data, schema, write_rig
from rigcalc.model.loads import ColdBox, Converter, DayUse, Inverter, Load, Reading
from rigcalc.model.network import Block, Bus, Device, Run
from rigcalc.model.rig import Acceptance, DayType, Rig

__all__ = [
    "Acceptance",
    "Bank",
    "Block",
    "Bus",
    "ColdBox",
    "Converter",
    "DayType",
    "DayUse",
    "Device",
    "Entry",
    "Inverter",
    "Load",
    "RatePoint",
    "Reading",
    "Rig",
    "Run",
    "TypedText",
    "read_rig",
    "rig_from_data",
    "schema",
    "write_rig",
]
