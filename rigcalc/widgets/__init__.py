"""What goes on screen: the only layer that knows Jupyter. `kit` holds the pieces pages are made of.

A notebook takes `open_rig` and the view of its page from here; each module is imported when it is asked for.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from rigcalc.widgets.autonomy import autonomy_page as autonomy_page
    from rigcalc.widgets.conductors import conductors_page as conductors_page
    from rigcalc.widgets.energy import energy_page as energy_page
    from rigcalc.widgets.loads import loads_page as loads_page
    from rigcalc.widgets.overcurrent import overcurrent_page as overcurrent_page
    from rigcalc.widgets.session import open_rig as open_rig
    from rigcalc.widgets.start import start_page as start_page

#: Name -> module that has it. A page's view is named after its topic.
_FROM = {
    "open_rig": "session",
    "start_page": "start",
    "loads_page": "loads",
    "energy_page": "energy",
    "autonomy_page": "autonomy",
    "conductors_page": "conductors",
    "overcurrent_page": "overcurrent",
}


def __getattr__(name: str) -> Any:
    if name not in _FROM:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module(f"{__name__}.{_FROM[name]}"), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *_FROM])
