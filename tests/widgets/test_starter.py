"""Kernels copied from the starter: ordinary kernels, with the package imported, and never from outdated code."""

from __future__ import annotations

import json
import os
import shutil
import signal
import time
from pathlib import Path

import pytest
from jupyter_client import BlockingKernelClient
from jupyter_client.connect import write_connection_file

import rigcalc
from rigcalc.widgets import starter

pytestmark = pytest.mark.skipif(not starter.available(), reason="processes are copied on Linux only")
ASK = """
import json, os, sys
imported = "rigcalc.widgets.kit" in sys.modules
answer = json.dumps([os.getcwd(), os.environ.get("MARK"), imported, os.getpid(), os.getsid(0)])
"""


@pytest.fixture
def copies(tmp_path, monkeypatch):
    """A starter of a copy of the package, so that its files can be changed."""
    source = Path(rigcalc.__file__).parent
    shutil.copytree(source, tmp_path / "rigcalc", ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    one = starter.Starter()
    yield one
    one.end()


def begin(copies, folder, **env):
    file, _ = write_connection_file(str(folder / "kernel.json"), ip="127.0.0.1")
    pid = copies.start(["-f", file, "--log-level=ERROR"], {**os.environ, **env}, str(folder))
    return pid, file


def test_a_copy_is_a_kernel_of_its_own_with_its_surroundings(copies, tmp_path):
    pid, file = begin(copies, tmp_path, MARK="here")
    client = BlockingKernelClient(connection_file=file)
    client.load_connection_file()
    client.start_channels()
    client.wait_for_ready(timeout=60)
    reply = client.execute_interactive(ASK, user_expressions={"answer": "answer"}, timeout=30, silent=True)
    text = reply["content"]["user_expressions"]["answer"]["data"]["text/plain"]
    client.stop_channels()
    assert json.loads(text.strip("'")) == [str(tmp_path), "here", True, pid, pid]
    process = starter.Copied(pid)
    assert process.poll() is None
    process.send_signal(signal.SIGKILL)
    assert process.wait(timeout=10) == 0
    process.terminate()


def test_changed_code_gives_an_ordinary_start_once_and_then_new_copies(copies, tmp_path):
    first, _ = begin(copies, tmp_path)
    changed = tmp_path / "rigcalc" / "errors.py"
    os.utime(changed, (time.time() + 60, time.time() + 60))
    assert begin(copies, tmp_path)[0] is None
    second, _ = begin(copies, tmp_path)
    for pid in (first, second):
        assert starter.Copied(pid).poll() is None
        starter.Copied(pid).kill()


def test_a_starter_that_is_gone_gives_an_ordinary_start(copies, tmp_path):
    copies.process.kill()
    copies.process.wait()
    assert begin(copies, tmp_path)[0] is None


def test_the_server_itself_is_not_imported():
    assert not {"rigcalc.serve", "rigcalc.widgets.site", "rigcalc.__main__"} & set(starter.modules())
    assert "rigcalc.widgets.kit.fields" in starter.modules()
