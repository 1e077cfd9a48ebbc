"""The browser's half of the kit: one module, one stylesheet, and plotly.js.

A site that serves these files says so in its pages; elsewhere a piece asks Python for their text. Of plotly.js it is
the project's own basic bundle (bars, lines, points), which a browser starts in a quarter of the time of the whole one
that the Python package carries; a test holds both to the same version.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path

STATIC = Path(__file__).parent.parent / "static"
PLOTLY = STATIC / "plotly-basic.min.js"
PARTS = ("dom", "fields", "table", "sheet", "header", "plot", "store", "saveopen", "kit")
_IMPORT = re.compile(r"^import .*;\n", re.MULTILINE)
_EXPORT = re.compile(r"^export (?=(?:async )?(?:function|const|let|class)\b)", re.MULTILINE)


@cache
def kit_js() -> str:
    """All parts of the kit as one module: imports between them are dropped, only ``render`` is exported."""
    texts = [(STATIC / f"{part}.js").read_text(encoding="utf-8") for part in PARTS]
    return "\n".join(_EXPORT.sub("", _IMPORT.sub("", text)) for text in texts) + "\nexport { render };\n"


@cache
def kit_css() -> str:
    """The one stylesheet, for pages and for pieces shown elsewhere."""
    return (STATIC / "rigcalc.css").read_text(encoding="utf-8")


@cache
def loader_js() -> str:
    """The few lines each piece sends, which fetch the kit."""
    return (STATIC / "loader.js").read_text(encoding="utf-8")


@cache
def version() -> str:
    """Changes whenever the kit's text does, so that a browser never mixes two kits."""
    return hashlib.sha256((kit_js() + kit_css()).encode()).hexdigest()[:12]


@cache
def plotly_version() -> str:
    """Version of plotly.js, as its first lines say it.

    Examples
    --------
    >>> plotly_version().count(".")
    2
    """
    with PLOTLY.open(encoding="utf-8") as text:
        return str(re.findall(r" v([\d.]+)", text.read(200))[0])


def asset(name: str) -> str:
    """The text of one of the three files a piece may ask for.

    Examples
    --------
    >>> asset("kit.js").count("export {")
    1
    """
    texts: dict[str, Callable[[], str]] = {
        "kit.js": kit_js,
        "kit.css": kit_css,
        PLOTLY.name: lambda: PLOTLY.read_text(encoding="utf-8"),
    }
    return texts[name]()
