"""The site around the pages: which files it gives, what each page is told, and the server on this machine.

A hosted Jupyter server uses the same files and settings through `page_settings` and `site_handlers`.
"""

from __future__ import annotations

import gzip
import ipaddress
import logging
import os
import signal
import threading
import webbrowser
from functools import cache
from pathlib import Path
from typing import Any

from jupyter_server.auth.decorator import allow_unauthenticated
from jupyter_server.utils import url_path_join
from tornado import web
from tornado.ioloop import IOLoop
from traitlets.config import Config
from voila.app import Voila

from rigcalc.widgets import starter
from rigcalc.widgets.kernels import OwnKernel, PromptClient, as_stored
from rigcalc.widgets.kit import assets

HOST = "127.0.0.1"
LARGEST_MESSAGE_BYTES = 64_000_000  # a rig file of 10 MB with room to spare; tornado's own limit is 10 MB
TEMPLATES = Path(__file__).parent / "template"
FILES = "voila/rigcalc"
EXTENSIONS = ["@jupyter-widgets/jupyterlab-manager", "@voila-dashboards/widgets-manager8", "anywidget"]
_SCRIPT, _STYLE = "text/javascript; charset=utf-8", "text/css; charset=utf-8"
_KINDS = {"kit.js": _SCRIPT, "kit.css": _STYLE, assets.PLOTLY.name: _SCRIPT}


class SiteFile(web.RequestHandler):
    """The kit's module and stylesheet and plotly.js; addresses carry a version."""

    @allow_unauthenticated
    def get(self, name: str) -> None:
        """One file, for the browser to keep; compressed where it has far to go."""
        if name not in _KINDS:
            raise web.HTTPError(404)
        self.set_header("Content-Type", _KINDS[name])
        self.set_header("Cache-Control", "public, max-age=31536000, immutable")
        self.set_header("Vary", "Accept-Encoding")
        if "gzip" in self.request.headers.get("Accept-Encoding", "") and not _is_here(self.request.remote_ip):
            self.set_header("Content-Encoding", "gzip")
            self.write(_packed(name))
        else:
            self.write(assets.asset(name))


def site_handlers(base_url: str) -> list[tuple[str, type[web.RequestHandler]]]:
    """Routes to add to a server whose pages use the template."""
    return [(url_path_join(base_url, FILES, "(.*)"), SiteFile)]


def page_config(config: dict[str, Any], base_url: str, **_: object) -> dict[str, Any]:
    """What a page is told: where the kit's files are, and that MathJax is part of the site."""
    kit = assets.version()
    files = {
        "kit": ("kit.js", kit),
        "style": ("kit.css", kit),
        "plotly": (assets.PLOTLY.name, assets.plotly_version()),
    }
    config["rigcalc"] = {
        key: f"{url_path_join(base_url, FILES, name)}?v={version}" for key, (name, version) in files.items()
    }
    config["fullMathjaxUrl"] = config["mathjaxConfig"] = None
    return config


def page_settings(cull_after_s: int) -> Config:
    """Settings of voila, and how long a kernel may idle that no page is connected to."""
    c = Config()
    c.VoilaConfiguration.template = "rigcalc"
    c.VoilaConfiguration.allow_template_override = "NO"
    c.VoilaConfiguration.allow_theme_override = "NO"
    c.VoilaConfiguration.extension_allowlist = EXTENSIONS
    c.VoilaConfiguration.file_allowlist = []
    c.VoilaConfiguration.show_tracebacks = False
    c.VoilaConfiguration.page_config_hook = page_config
    c.VoilaConfiguration.prelaunch_hook = as_stored
    c.AsyncKernelManager.client_factory = PromptClient
    c.VoilaExecutor.cell_error_instruction = "The window rigcalc was started from says why."
    c.MappingKernelManager.cull_idle_timeout = cull_after_s
    c.MappingKernelManager.cull_interval = max(1, cull_after_s // 4)
    c.MappingKernelManager.cull_connected = False
    return c


def use_templates() -> None:
    """Let voila find the template beside this package."""
    paths = os.environ.get("JUPYTER_PATH", "").split(os.pathsep)
    if str(TEMPLATES) not in paths:
        os.environ["JUPYTER_PATH"] = os.pathsep.join(filter(None, [str(TEMPLATES), *paths]))


class Site(Voila):
    """Voila over one folder, with the kit's files, a first page and a quiet terminal."""

    start_page = ""
    show_browser = False

    def init_handlers(self) -> Any:
        """Voila's routes without its lists of files, ours before them."""
        routes: list[Any] = super().init_handlers()  # type: ignore[assignment]
        kept = [route for route in routes if "contents" not in route[0] and "tree" not in route[0]]
        first = {"url": url_path_join(self.base_url, "voila/render", self.start_page), "permanent": False}
        home = [(url_path_join(self.base_url, path), web.RedirectHandler, first) for path in ("/", "/voila/tree.*")]
        return [*home, *site_handlers(self.base_url), *kept]

    def listen(self) -> None:
        """Answer until interrupted, then end every kernel."""
        logging.getLogger("tornado.general").setLevel(logging.ERROR)  # it mistakes Jupyter's milliseconds for seconds
        self.app.listen(self.port, self.ip)
        self.ioloop = IOLoop.current()
        signal.signal(signal.SIGINT, self._handle_signal_stop)  # also where a shell started us with it ignored
        self.ioloop.add_callback(self._announce)
        try:
            self.ioloop.start()
        finally:
            self.stop()  # type: ignore[no-untyped-call]

    def _announce(self) -> None:
        address = f"http://{HOST}:{self.port}{self.base_url}"
        print(f"rigcalc is at {address}\nStop it with Ctrl+C.", flush=True)
        if self.show_browser:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


def run(folder: Path, start_page: str, port: int, base_url: str, show_browser: bool, settings: Config) -> None:
    """Serve a folder of notebooks on this machine until interrupted."""
    use_templates()
    settings.merge(_own_settings(folder, port, base_url))
    copies = starter.offer() if starter.available() else None
    site = Site(config=settings)
    site.start_page, site.show_browser = start_page, show_browser
    site.initialize(argv=[])  # type: ignore[no-untyped-call]
    site.start()  # type: ignore[no-untyped-call]
    if copies:
        copies.end()


def _own_settings(folder: Path, port: int, base_url: str) -> Config:
    c = Config()
    c.Voila.config_file_paths = []
    c.Voila.root_dir = str(folder.resolve())
    c.Voila.ip, c.Voila.port, c.Voila.base_url = HOST, port, base_url
    c.Voila.log_level = "ERROR"
    c.Voila.tornado_settings = {
        "disable_check_xsrf": True,  # else the wish to end its kernel, which a page sends on leaving, is refused
        "websocket_max_message_size": LARGEST_MESSAGE_BYTES,
        "allow_remote_access": False,
        "local_hostnames": ["localhost"],
        "headers": {"Content-Security-Policy": _policy(port), "X-Content-Type-Options": "nosniff"},
    }
    c.VoilaConfiguration.kernel_spec_manager_class = OwnKernel
    return c


def _policy(port: int) -> str:
    """Nothing from elsewhere: pages load from, and speak to, this server alone."""
    parts = {
        "default-src": "'self'",
        "script-src": "'self' 'unsafe-inline' 'unsafe-eval' blob:",
        "style-src": "'self' 'unsafe-inline'",
        "img-src": "'self' data: blob:",
        "font-src": "'self' data:",
        "connect-src": f"'self' ws://{HOST}:{port} ws://localhost:{port}",
        "object-src": "'none'",
        "base-uri": "'self'",
        "frame-ancestors": "'none'",
    }
    return "; ".join(f"{name} {sources}" for name, sources in parts.items())


def _is_here(address: str | None) -> bool:
    try:
        return ipaddress.ip_address(address or "").is_loopback
    except ValueError:
        return False


@cache
def _packed(name: str) -> bytes:
    return gzip.compress(assets.asset(name).encode(), 6)
