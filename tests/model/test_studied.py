"""Whatever the reader takes can be studied, and every rule has its say: no valid rig ends in an exception."""

from __future__ import annotations

import json
import math

from hypothesis import given

from rigcalc.errors import InputError
from rigcalc.model import read_rig, rig_from_data
from rigcalc.rules import findings
from rigcalc.study import study
from tests.model.building import STUDIED, damaged, rigs


@given(rigs())
@STUDIED
def test_a_built_rig_can_be_studied(data):
    result = study(rig_from_data(data))
    assert all(one.sentence for one in findings(result))
    assert math.isfinite(result.energy.daily_energy_wh)


@given(damaged())
@STUDIED
def test_a_damaged_rig_that_still_reads_can_be_studied(data):
    try:
        rig = read_rig(json.dumps(data))
    except InputError:
        return
    assert all(one.sentence for one in findings(study(rig)))
