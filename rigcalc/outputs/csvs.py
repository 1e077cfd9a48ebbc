"""One schedule as CSV (RFC 4180): for a spreadsheet, another program or a diff."""

from __future__ import annotations

import csv
import io

from rigcalc.outputs.cells import csv_cell
from rigcalc.outputs.schedules import schedule
from rigcalc.study import Study


def csv_text(study: Study, schedule_id: str, units: str | None = None) -> str:
    r"""One schedule as text, a head and a line a row; to be stored as UTF-8.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    schedule_id : str
        Key of `rigcalc.outputs.schedules.SCHEDULES`. [-]
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    str
        Lines end with CR LF; text that a spreadsheet could take for a formula begins with an apostrophe.

    References
    ----------
    RFC 4180, section 2.
    """
    frame = schedule(schedule_id).function(study, units)
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([csv_cell(head) for head in frame.columns])
    for row in zip(*(frame[head].tolist() for head in frame.columns), strict=True):
        writer.writerow([csv_cell(value) for value in row])
    return out.getvalue()
