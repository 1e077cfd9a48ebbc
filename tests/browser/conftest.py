"""What browser tests share: a Chromium, the served notebooks, and a page that keeps what it complains of.

Without a Chromium the tests are skipped and say so; with ``CI=true`` that is a failure.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urljoin, urlparse

import nbformat
import pytest

ROOT = Path(__file__).parents[2]
AXE = Path(os.environ.get("AXE_PATH", "/tmp/axe/node_modules/axe-core/axe.min.js"))
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
FLAGS += ["--disable-component-update", "--disable-sync"]
WAIT_MS = 60_000


def missing(what: str) -> None:
    """Skip, or fail where everything must be there."""
    if os.environ.get("CI") == "true":
        pytest.fail(what)
    pytest.skip(what)


@pytest.fixture(scope="session")
def chromium():
    """A headless Chromium of the system, or the one playwright installed."""
    try:
        from playwright.sync_api import Error, sync_playwright
    except ImportError:
        missing("playwright is not installed")
    names = ("chromium", "chromium-browser", "google-chrome")
    path = os.environ.get("CHROMIUM_PATH") or next(filter(None, map(shutil.which, names)), None)
    with sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        except Error as error:
            missing(f"no Chromium could be started: {error.message.splitlines()[0]}")
        yield browser
        browser.close()


@contextmanager
def served(folder: Path, **options: object) -> Iterator[tuple[str, subprocess.Popen[str]]]:
    """The address of a folder's pages, served by a process of their own, and that process."""
    call = f"serve(Path({str(folder)!r}), port=0, open_browser=False, **{options!r})"
    code = f"import sys; from pathlib import Path; from rigcalc.serve import serve; sys.exit({call})"
    paths = [str(ROOT), str(Path(__file__).parent), os.environ.get("PYTHONPATH", "")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, paths))}
    process = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, env=env)
    try:
        line = process.stdout.readline()
        assert "http://127.0.0.1:" in line, f"the server did not start: {line}"
        yield line.split()[-1], process
    finally:
        process.send_signal(signal.SIGINT)
        process.wait(30)


@pytest.fixture(scope="session")
def site(tmp_path_factory) -> Iterator[str]:
    """The address of the notebooks, served from a copy."""
    folder = tmp_path_factory.mktemp("site") / "notebooks"
    shutil.copytree(ROOT / "notebooks", folder, ignore=shutil.ignore_patterns(".ipynb_checkpoints"))
    if not list(folder.glob("*.ipynb")):
        pytest.skip("there are no notebooks yet")
    with served(folder) as (address, _process):
        yield address


@pytest.fixture(scope="session")
def kit_folder(tmp_path_factory):
    """Two pages with every piece, and one whose second cell fails."""
    folder = tmp_path_factory.mktemp("kit")
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    words = "# Which conductor?\n\nThe drop is $\\Delta U = I \\cdot r$.\n\n| Area | Each |\n|---|---|\n| 6 mm² | 3.3 |"
    for name, code in {"00-first": "view", "10-second": "view", "20-broken": "missing"}.items():
        cells = [nbformat.v4.new_markdown_cell(words), nbformat.v4.new_code_cell(f"import kit_page\nkit_page.{code}()")]
        nbformat.write(nbformat.v4.new_notebook(cells=cells, metadata=kernel), folder / f"{name}.ipynb")
    return folder


@pytest.fixture(scope="session")
def kit_server(kit_folder):
    """The address of the pages of the kit, and the process that serves them."""
    with served(kit_folder) as (address, process):
        yield address, process


class Watched:
    """A tab that keeps what its page complains of: ``tab.page`` is playwright's own."""

    def __init__(self, context, address: str) -> None:
        self.page, self.address, self.complaints = context.new_page(), address, []
        self.page.set_default_timeout(WAIT_MS)
        self.page.on("console", lambda m: self.complaints.append(m.text) if m.type == "error" else None)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._asked)

    def _asked(self, request) -> None:
        if urlparse(request.url).hostname not in (urlparse(self.address).hostname, None, ""):
            self.complaints.append(f"asked outside: {request.url}")

    def open(self, notebook: str, ready: str = ".rigcalc .rig-sheet, .rigcalc .rig-fields") -> Watched:
        """Open a page and wait until its tool stands and the kernel has heard what the browser kept."""
        self.page.goto(urljoin(self.address, f"voila/render/{notebook}.ipynb"), timeout=WAIT_MS)
        self.page.wait_for_selector(f"main :is({ready})")
        self.idle()
        return self

    def idle(self, quiet_ms: int = 400) -> None:
        """Wait until the page has not changed for a while."""
        self.page.evaluate(
            """quiet => new Promise(done => {
                let timer = setTimeout(done, quiet);
                new MutationObserver(() => { clearTimeout(timer); timer = setTimeout(done, quiet); })
                  .observe(document, {subtree: true, childList: true, attributes: true, characterData: true});
            })""",
            quiet_ms,
        )

    def overflow_px(self) -> int:
        """How far the page is wider than its window."""
        return self.page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")

    def axe(self) -> list[str]:
        """Rules of accessibility the page violates, each with the first element that does."""
        if not AXE.exists():
            missing(f"no axe-core at {AXE}; set AXE_PATH")
        self.page.evaluate(AXE.read_text(encoding="utf-8"))
        found = self.page.evaluate("rules => axe.run(document, {runOnly: rules})", RULES)
        return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in found["violations"]]


@pytest.fixture
def tab(chromium) -> Iterator[Callable[..., Watched]]:
    """Makes tabs: ``tab(address, width=360)``; tabs of one test share a browser profile unless ``context`` differs."""
    contexts: dict[str, object] = {}

    def make(address: str, width: int = 1280, context: str = "one", **options: object) -> Watched:
        if context not in contexts:
            size = {"width": width, "height": 900}
            contexts[context] = chromium.new_context(viewport=size, bypass_csp=False, accept_downloads=True, **options)
        return Watched(contexts[context], address)

    yield make
    for context in contexts.values():
        context.close()


@pytest.fixture
def page(site, tab) -> Watched:
    """A tab on the served notebooks."""
    return tab(site)
