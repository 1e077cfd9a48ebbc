"""The command as a person runs it: output, exit codes, and errors without a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from rigcalc.__main__ import main
from tests.rigs import EXAMPLES, small_data

ROOT = EXAMPLES.parents[1]
VAN = str(EXAMPLES / "book-van.json")


def test_study_prints_a_readable_page(capsys):
    assert main(["study", VAN]) == 0
    out = capsys.readouterr().out
    assert "Daily energy" in out
    assert "Autonomy" in out
    assert "Fuse" in out


def test_study_json_is_the_documented_result(capsys):
    assert main(["study", VAN, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["format"] == "rigcalc-study"
    assert {"daily_energy_wh", "autonomy_d", "runs", "circuits", "findings"} <= data.keys()


def test_remedies_are_looked_for_when_asked(capsys):
    path = str(EXAMPLES / "canal-workboat.json")
    assert main(["study", path, "--json"]) == 0
    assert not any("remedy" in one for one in json.loads(capsys.readouterr().out)["findings"])
    assert main(["study", path, "--json", "--remedies"]) == 0
    by_rule = {one["rule"]: one["remedy"] for one in json.loads(capsys.readouterr().out)["findings"]}
    assert by_rule["W03"].startswith("Use 8 AWG for W5: the drop falls from 3.8 % to ")
    assert by_rule["P08"] is None  # a fact not stated has no remedy but to state it
    assert main(["check", path, "--remedies"]) == 0
    assert "\n             Use 8 AWG for W5" in capsys.readouterr().out


def test_check_exits_1_on_a_stop_and_0_without(tmp_path, capsys):
    assert main(["check", VAN]) == 0
    data = small_data()
    data["devices"] = []
    (tmp_path / "bare.json").write_text(json.dumps(data))
    assert main(["check", str(tmp_path / "bare.json")]) == 1
    assert "■ stop" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"{}", "format is empty"),
        (b"not json", "not JSON"),
        (b"\xff\xfe\x00", "not text in UTF-8"),
        (b'{"format": "rigcalc-rig", "version": 2}', "version is 2"),
    ],
)
def test_bad_files_end_in_one_sentence_and_exit_2(tmp_path, capsys, content, words):
    path = tmp_path / "bad.json"
    path.write_bytes(content)
    assert main(["study", str(path)]) == 2
    captured = capsys.readouterr()
    assert words in captured.err
    assert captured.out == ""
    assert "Traceback" not in captured.err


def test_a_missing_file_is_named(capsys):
    assert main(["study", "no-such-rig.json"]) == 2
    assert "no-such-rig.json" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("name", "starts", "files"),
    [("a.pdf", b"%PDF-", 1), ("a.xlsx", b"PK", 1), ("a.csv", b"Wire,", 1), ("a.svg", b"<", 2)],
)
def test_a_report_is_written_by_its_ending(tmp_path, capsys, name, starts, files):
    assert main(["report", VAN, "-o", str(tmp_path / name)]) == 0
    written = sorted(tmp_path.iterdir())
    assert capsys.readouterr().out.split() == [str(path) for path in written]
    assert len(written) == files
    assert all(path.read_bytes().startswith(starts) for path in written)


def test_an_ending_or_schedule_that_does_not_exist_is_said(tmp_path, capsys):
    assert main(["report", VAN, "-o", str(tmp_path / "a.doc")]) == 2
    assert "Ending of the file is '.doc'; expected .pdf, .xlsx, .svg, .csv." in capsys.readouterr().err
    assert main(["report", VAN, "-o", str(tmp_path / "a.csv"), "--schedule", "none"]) == 2
    assert "wire_schedule" in capsys.readouterr().err


def test_the_schema_is_the_one_checked_in(capsys):
    assert main(["schema"]) == 0
    assert capsys.readouterr().out == (ROOT / "rigcalc" / "model" / "rig.schema.json").read_text(encoding="utf-8")


def test_help_tells_of_the_commands_and_the_cautions():
    env = os.environ | {"COLUMNS": "100"}
    shown = subprocess.run(
        [sys.executable, "-m", "rigcalc", "--help"], capture_output=True, text=True, check=True, env=env
    )
    for word in ("study", "check", "serve", "--port", "--no-browser", "not an inspection"):
        assert word in shown.stdout


def test_the_command_loads_nothing_heavy_for_a_study():
    code = (
        "import sys; from rigcalc.__main__ import main; main(['study', sys.argv[1]]);"
        "print([m for m in ('pandas', 'plotly', 'numpy', 'pint', 'IPython', 'ipywidgets') if m in sys.modules])"
    )
    shown = subprocess.run([sys.executable, "-c", code, VAN], capture_output=True, text=True, check=True)
    assert shown.stdout.splitlines()[-1] == "[]"
