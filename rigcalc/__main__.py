"""The command `rigcalc`: serve the workbook, study a rig file, check it."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rigcalc import CAUTION, __version__
from rigcalc.errors import InputError

if TYPE_CHECKING:
    from rigcalc.rules.finding import Finding
    from rigcalc.study import Study

PROBLEM, STOPPED = 2, 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit code: 0 done, 1 a stop was found by `check`, 2 a problem with the input."""
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")  # looking for them takes a tenth of a second
    parser = _parser()
    asked = parser.parse_args(arguments)
    try:
        return int(asked.run(asked))
    except InputError as error:
        print(f"rigcalc: {error}", file=sys.stderr)
    except OSError as error:
        print(f"rigcalc: {error.filename or 'file'}: {error.strerror or error}", file=sys.stderr)
    except UnicodeDecodeError:
        print("rigcalc: the file is not text in UTF-8", file=sys.stderr)
    return PROBLEM


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="rigcalc",
        description="Design workbook for small off-grid DC systems. Without a command it serves the workbook.",
        epilog=CAUTION,
    )
    parser.add_argument("--version", action="version", version=f"rigcalc {__version__}")
    _serve_options(parser)
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    served = commands.add_parser("serve", help="serve the workbook on 127.0.0.1 (also without a command)")
    _serve_options(served)
    studied = commands.add_parser("study", help="print what follows from a rig file", epilog=CAUTION)
    _rig_options(studied)
    studied.add_argument("--json", action="store_true", help="print the documented result instead of text")
    studied.set_defaults(run=_study)
    checked = commands.add_parser(
        "check", help="list the findings; exit code 1 where a stop is among them", epilog=CAUTION
    )
    _rig_options(checked)
    checked.set_defaults(run=_check)
    reported = commands.add_parser("report", help="write report, workbook, diagram or schedule", epilog=CAUTION)
    _report_options(reported)
    described = commands.add_parser("schema", help="print the JSON Schema of a rig file")
    described.set_defaults(run=_schema)
    return parser


def _serve_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--port", type=int, default=None, help="port to use; the next free one if it is taken")
    parser.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    parser.set_defaults(run=_serve)


def _rig_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rig", type=Path, metavar="RIG.json", help="a saved rig file")
    parser.add_argument("--remedies", action="store_true", help="look for a single change that cures each finding")


def _report_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("rig", type=Path, metavar="RIG.json", help="a saved rig file")
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="FILE", help=".pdf, .xlsx, .svg or .csv")
    parser.add_argument("--paper", choices=("a4", "letter"), help="default: by the rig's units")
    parser.add_argument("--edition", choices=("full", "owner"), default="full", help="of the .pdf")
    parser.add_argument("--symbols", choices=("iec", "ansi"), help="default: by the rig's rules")
    parser.add_argument(
        "--schedule", default="wire_schedule", metavar="NAME", help="of the .csv; default: wire_schedule"
    )
    parser.set_defaults(run=_report)


def _serve(asked: argparse.Namespace) -> int:
    from rigcalc.serve import serve
    from rigcalc.widgets.session import notebooks_folder

    return serve(notebooks_folder(), port=asked.port, open_browser=not asked.no_browser)


def _read(path: Path) -> tuple[Study, tuple[Finding, ...]]:
    from rigcalc.model import read_rig
    from rigcalc.rules import findings
    from rigcalc.study import study

    result = study(read_rig(path.read_text(encoding="utf-8")))
    return result, findings(result)


def _remedies(asked: argparse.Namespace, study: Study, found: tuple[Finding, ...]) -> list[str | None] | None:
    from rigcalc.rules import remedy

    if not asked.remedies:
        return None
    cures = [remedy(study, one) if one.state == "found" else None for one in found]
    return [cure.sentence if cure else None for cure in cures]


def _study(asked: argparse.Namespace) -> int:
    from rigcalc.outputs.summary import as_data, as_text

    result, found = _read(asked.rig)
    remedies = _remedies(asked, result, found)
    if asked.json:
        print(json.dumps(as_data(result, found, remedies), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print(as_text(result, found, remedies), end="")
    return 0


def _report(asked: argparse.Namespace) -> int:
    from rigcalc.outputs.files import Wish, write_files

    result, found = _read(asked.rig)
    wish = Wish(asked.paper, asked.symbols, asked.edition, asked.schedule)
    print("\n".join(str(path) for path in write_files(result, found, asked.output, wish)))
    return 0


def _schema(_asked: argparse.Namespace) -> int:
    from rigcalc.model.file import schema

    print(schema(), end="")
    return 0


def _check(asked: argparse.Namespace) -> int:
    from rigcalc.outputs.summary import finding_lines

    result, found = _read(asked.rig)
    print("\n".join(finding_lines(found, _remedies(asked, result, found))))
    return STOPPED if any(one.stops for one in found) else 0


if __name__ == "__main__":
    sys.exit(main())
