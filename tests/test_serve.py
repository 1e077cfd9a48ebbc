"""The server without a browser: where it is, what it gives to whom, and that it ends with its kernels."""

from __future__ import annotations

import socket
import urllib.error
import urllib.request

import nbformat
import psutil
import pytest
from traitlets.config import Config

from rigcalc.errors import InputError
from rigcalc.serve import first_page, free_port, hosted
from rigcalc.widgets.kit import assets
from tests.browser.conftest import served


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    folder = tmp_path_factory.mktemp("served")
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    stored = [nbformat.v4.new_output("execute_result", {"text/plain": "stored 5"}, execution_count=1)]
    cells = [
        nbformat.v4.new_markdown_cell("# Which <one>?"),
        nbformat.v4.new_code_cell("2 + 3", outputs=stored, metadata={"tags": ["nbval-check-output"]}),
        nbformat.v4.new_code_cell("print('found')\n1/0"),
    ]
    nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata=kernel), folder / "10-only.ipynb")
    with served(folder, base_url="/under/here/") as (address, process):
        yield address, process


def get(address: str, **headers: str):
    return urllib.request.urlopen(urllib.request.Request(address, headers=headers), timeout=60)


def test_first_page_is_the_start_or_else_the_first(tmp_path):
    for name in ("20-b.ipynb", "10-a.ipynb"):
        (tmp_path / name).touch()
    assert first_page(tmp_path) == "10-a.ipynb"
    (tmp_path / "00-start.ipynb").touch()
    assert first_page(tmp_path) == "00-start.ipynb"
    with pytest.raises(InputError, match="Folder of notebooks"):
        first_page(tmp_path / "nothing")


def test_a_taken_port_gives_way_to_a_free_one():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert free_port(port) not in (0, port)
    assert free_port(port) == port


def test_a_checked_cell_is_shown_with_its_stored_answer_and_not_run_again(server):
    with get(server[0]) as answer:
        page = answer.read().decode()
    assert "stored 5" in page


def test_page_under_a_base_address_shows_words_but_no_source_or_traceback(server):
    with get(server[0]) as answer:
        page = answer.read().decode()
        policy = answer.headers["Content-Security-Policy"]
    assert answer.url == server[0] + "voila/render/10-only.ipynb"
    assert "<title>Which &lt;one&gt;? · rigcalc</title>" in page
    assert 'href="/under/here/voila/rigcalc/kit.js?v=' in page
    assert "found" in page
    assert "This page stopped before its end" in page
    assert "ZeroDivisionError" not in page
    assert "print(" not in page
    assert policy.startswith("default-src 'self';")
    assert "://" not in page.replace("http://127.0.0.1", "").replace("xmlns=", "")


@pytest.mark.parametrize("name", ["kit.js", "kit.css", "plotly-basic.min.js"])
def test_files_of_the_kit_are_kept_by_browsers(server, name):
    with get(f"{server[0]}voila/rigcalc/{name}?v=1") as answer:
        assert answer.read().decode() == assets.asset(name)
        assert "immutable" in answer.headers["Cache-Control"]


@pytest.mark.parametrize(
    ("path", "headers", "code"),
    [
        ("voila/render/10-only.ipynb", {"Host": "elsewhere.example"}, 403),
        ("voila/rigcalc/serve.py", {}, 404),
        ("voila/files/10-only.ipynb", {}, 403),
        ("voila/api/contents/10-only.ipynb", {}, 404),
        ("voila/render/none.ipynb", {}, 404),
    ],
)
def test_nothing_else_is_given_out(server, path, headers, code):
    with pytest.raises(urllib.error.HTTPError) as refused:
        get(server[0] + path, **headers)
    assert refused.value.code == code


def test_an_interrupt_ends_the_server_and_its_kernels(tmp_path):
    nbformat.write(nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("1")]), tmp_path / "a.ipynb")
    with served(tmp_path) as (address, process):
        get(address).read()
        kernels = psutil.Process(process.pid).children(recursive=True)
        assert kernels
    assert process.returncode == 0
    assert not any(kernel.is_running() for kernel in kernels)


def test_hosted_settings_stand_on_the_same_ones(monkeypatch):
    monkeypatch.setenv("JUPYTER_PATH", "/elsewhere")
    c = Config()
    hosted(c, start="notebooks/00-start.ipynb")
    assert c.VoilaConfiguration.template == "rigcalc"
    assert c.ServerApp.jpserver_extensions == {"voila.server_extension": True, "rigcalc.serve": True}
    assert c.ServerApp.default_url == "/voila/render/notebooks/00-start.ipynb"
    told = c.VoilaConfiguration.page_config_hook({"fullMathjaxUrl": "https://cdn.example"}, base_url="/user/a/")
    assert told["fullMathjaxUrl"] is None
    assert told["rigcalc"]["plotly"].startswith("/user/a/voila/rigcalc/plotly-basic.min.js?v=")
