"""Speed, in one run with a peer: ``pytest tests/benchmarks --benchmark-only``.

The limits are the project's own targets on two shared cores; each result carries its ratio to the peer, a fixed
piece of plain Python, so that machines can be compared.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time

import pytest

from rigcalc.errors import InputError
from rigcalc.model import read_rig, rig_from_data
from rigcalc.rules import findings
from rigcalc.study import study
from tests.rigs import EXAMPLES, example_data, largest_data, thirty_circuits

LARGEST = max(EXAMPLES.glob("*.json"), key=lambda path: len(json.loads(path.read_text())["runs"])).stem


def peer() -> int:
    """A tenth of a million additions."""
    total = 0
    for i in range(100_000):
        total += i
    return total


def peer_s() -> float:
    """Best of twenty."""
    times = []
    for _ in range(20):
        start = time.perf_counter()
        peer()
        times.append(time.perf_counter() - start)
    return min(times)


def held(benchmark, limit_s: float) -> None:
    """Note the ratio to the peer and hold the limit."""
    benchmark.extra_info["ratio_to_peer"] = round(benchmark.stats["min"] / peer_s(), 2)
    benchmark.extra_info["limit_s"] = limit_s
    assert benchmark.stats["min"] <= limit_s


def test_study_of_the_largest_rig(benchmark):
    rig = rig_from_data(example_data(LARGEST))
    benchmark(study, rig)
    held(benchmark, 0.020)


def test_findings_of_the_largest_rig(benchmark):
    result = study(rig_from_data(example_data(LARGEST)))
    benchmark(findings, result)
    held(benchmark, 0.005)


def test_findings_of_thirty_circuits(benchmark):
    result = study(thirty_circuits())
    benchmark(findings, result)
    held(benchmark, 0.005)


def test_reading_the_largest_rig(benchmark):
    text = (EXAMPLES / f"{LARGEST}.json").read_text()
    benchmark(read_rig, text)
    held(benchmark, 0.010)


def test_reading_as_many_parts_as_a_rig_may_have(benchmark):
    text = json.dumps(largest_data())
    benchmark.pedantic(read_rig, args=(text,), rounds=5)
    held(benchmark, 1.0)


def test_refusing_junk(benchmark):
    row = "[" + "0," * 900 + "0],"
    text = '{"format": "rigcalc-rig", "version": 1, "loads": [' + row * 900 + "0]}"

    def refuse() -> None:
        with pytest.raises(InputError):
            read_rig(text)

    benchmark.pedantic(refuse, rounds=5)
    held(benchmark, 1.0)


@pytest.mark.parametrize(
    ("arguments", "limit_s"),
    [(["-c", "import rigcalc"], 0.05), (["-m", "rigcalc", "study", str(EXAMPLES / f"{LARGEST}.json")], 0.6)],
    ids=["import rigcalc", "rigcalc study"],
)
def test_a_process(benchmark, arguments, limit_s):
    """Wall time of a process, less that of an empty one for the import."""

    def run(args: list[str]) -> None:
        subprocess.run([sys.executable, *args], check=True, capture_output=True)

    empty = []
    for _ in range(5):
        start = time.perf_counter()
        run(["-c", "pass"])
        empty.append(time.perf_counter() - start)
    benchmark.pedantic(run, args=(arguments,), rounds=5, warmup_rounds=1)
    base_s = min(empty) if arguments[0] == "-c" else 0.0
    benchmark.extra_info["ratio_to_peer"] = round(benchmark.stats["min"] / min(empty), 2)
    assert benchmark.stats["min"] - base_s <= limit_s
