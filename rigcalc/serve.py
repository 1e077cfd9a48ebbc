"""Serves the notebooks as pages: on this machine with `serve`, on a hosted Jupyter server with `hosted`."""

from __future__ import annotations

import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rigcalc.errors import InputError

if TYPE_CHECKING:
    from traitlets.config import Config

PORT = 8866
START = "00-start.ipynb"


def serve(
    notebooks: Path,
    port: int | None = None,
    open_browser: bool = True,
    preheat: bool = False,
    base_url: str = "/",
    cull_after_s: int = 40,
) -> int:
    """Serve a folder of notebooks on this machine until interrupted, and say where.

    Parameters
    ----------
    notebooks : pathlib.Path
        The folder; its page ``00-start.ipynb``, or else its first, is shown at ``/``.
    port : int, optional
        Port to use, 8866 when not given; where it is taken, a free one.
    open_browser : bool
        Show the first page in the browser.
    preheat : bool
        Keep a kernel with each page already worked out: quicker pages for more memory. Such kernels wait without
        a page, so none is ended for idling; those of closed pages still are.
    base_url : str
        Address the site stands under, with a slash at both ends.
    cull_after_s : int
        The kernel of a page that was closed, or lost its way to the server, ends after this time, at the
        latest a quarter more. [s]

    Returns
    -------
    int
        Exit code, 0 after an interrupt.
    """
    start_page, port = first_page(notebooks), free_port(PORT if port is None else port)
    _skip_slow_import()
    from rigcalc.widgets import site

    settings = site.page_settings(0 if preheat else cull_after_s)
    if preheat:
        del settings.VoilaConfiguration.prelaunch_hook  # voila has no use for it there
        settings.VoilaConfiguration.preheat_kernel = True
    site.run(notebooks, start_page, port, base_url, open_browser, settings)
    return 0


def hosted(c: Config, start: str = f"notebooks/{START}", cull_after_s: int = 600) -> None:
    """Fill the configuration ``c`` of a Jupyter server so that it serves the pages, under any base address.

    ``start`` is the page shown first, relative to the server's folder.
    """
    from rigcalc.widgets import site

    site.use_templates()
    c.merge(site.page_settings(cull_after_s))
    c.ServerApp.jpserver_extensions = {"voila.server_extension": True, "rigcalc.serve": True}
    c.ServerApp.default_url = f"/voila/render/{start}"
    c.ServerApp.tornado_settings = {"websocket_max_message_size": site.LARGEST_MESSAGE_BYTES}


def first_page(notebooks: Path) -> str:
    """The page shown first: ``00-start.ipynb`` or else the first notebook of the folder."""
    names = sorted(path.name for path in notebooks.glob("*.ipynb"))
    if not names:
        raise InputError("Folder of notebooks", str(notebooks), "a folder with at least one .ipynb file")
    return START if START in names else names[0]


def free_port(wanted: int) -> int:
    """The wanted port, or a free one where it is taken."""
    for port in (wanted, 0):
        with socket.socket() as probe:
            if sys.platform != "win32":  # there it would let two programs share a port
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind(("127.0.0.1", port))
            except OSError:
                continue
            return int(probe.getsockname()[1])
    raise InputError("Port", wanted, "a port this machine can listen on")


def _skip_slow_import() -> None:
    """Leave out a grammar of web addresses that jsonschema would build for seconds and never use here."""
    sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    return [{"module": "rigcalc.serve"}]


def _load_jupyter_server_extension(server: Any) -> None:
    from rigcalc.widgets.site import site_handlers

    server.web_app.add_handlers(".*$", site_handlers(server.web_app.settings["base_url"]))
