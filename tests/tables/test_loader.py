"""The loader refuses every wrong table, and says which file and line."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import pytest

from rigcalc.tables import STATUSES, Row, load, parse
from rigcalc.tables.conductors import ConductorSize


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample(Row):
    """A row with one field of each kind."""

    KEY: ClassVar[tuple[str, ...]] = ("name",)
    name: str
    count: int
    length_m: float
    tinned: bool
    limit_a: float | None
    remark: str | None


HEADER = "name,count,length_m,tinned,limit_a,remark,source,locator,status"
GOOD = "a,1,2.5,true,,,some standard,Table 1,primary"


def table(*lines: str, header: str = HEADER) -> str:
    return "\n".join((header, *lines)) + "\n"


def test_reads_each_kind_of_cell():
    (row,) = parse("sample", table(GOOD), Sample)
    assert row == Sample(
        name="a",
        count=1,
        length_m=2.5,
        tinned=True,
        limit_a=None,
        remark=None,
        source="some standard",
        locator="Table 1",
        status="primary",
    )
    assert [type(value) for value in (row.name, row.count, row.length_m, row.tinned)] == [str, int, float, bool]


def test_header_may_stand_in_any_order():
    text = table(
        "primary,a,1,2.5,false,3,x,s,l", header="status,name,count,length_m,tinned,limit_a,remark,source,locator"
    )
    (row,) = parse("sample", text, Sample)
    assert (row.status, row.limit_a, row.remark, row.tinned) == ("primary", 3.0, "x", False)


@pytest.mark.parametrize("status", STATUSES)
def test_every_known_status_is_read(status):
    (row,) = parse("sample", table(GOOD.replace("primary", status)), Sample)
    assert row.from_memory is (status in ("memory", "memory - doubtful"))


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (GOOD + ",extra", "10 cells, need 9"),
        (GOOD.removesuffix(",primary"), "8 cells, need 9"),
        ("", "0 cells, need 9"),
        (GOOD.replace("a,1", ",1"), "name is ''"),
        (GOOD.replace("a,1", " a,1"), "name is ' a'"),
        (GOOD.replace("some standard", ""), "source is ''"),
        (GOOD.replace("Table 1", ""), "locator is ''"),
        (GOOD.replace(",1,", ",1.0,"), "count is '1.0', need a whole number"),
        (GOOD.replace(",1,", ",,"), "count is '', need a whole number"),
        (GOOD.replace("2.5", ""), "length_m is '', need a plain decimal number"),
        (GOOD.replace("2.5", "2.5 m"), "length_m is '2.5 m'"),
        (GOOD.replace("2.5", "nan"), "length_m is 'nan'"),
        (GOOD.replace("2.5", "inf"), "length_m is 'inf'"),
        (GOOD.replace("2.5", "1_0"), "length_m is '1_0'"),
        (GOOD.replace("true,,", "true,-,"), "limit_a is '-'"),
        (GOOD.replace("true", "yes"), "tinned is 'yes', need true or false"),
        (GOOD.replace("primary", "seen"), "status is 'seen'"),
        (GOOD.replace("primary", ""), "status is ''"),
        (GOOD, "('a',) appears twice"),
        (GOOD.replace("some", '"some'), "unexpected end of data"),
    ],
)
def test_a_wrong_line_is_named_with_file_and_line(line, said):
    with pytest.raises(ValueError, match=r"^sample\.csv line 3: ") as caught:
        parse("sample", table(GOOD, line), Sample)
    assert said in str(caught.value)


@pytest.mark.parametrize(
    "header",
    [
        HEADER.removeprefix("name,"),
        HEADER + ",note",
        HEADER.replace("length_m", "length"),
        HEADER.replace("count", "name"),
        "",
    ],
)
def test_a_wrong_header_is_named(header):
    with pytest.raises(ValueError, match=r"^sample\.csv line 1: header .* need "):
        parse("sample", table(GOOD, header=header), Sample)


def test_a_table_without_rows_or_text_is_refused():
    with pytest.raises(ValueError, match=r"^sample\.csv line 1: no rows"):
        parse("sample", table(), Sample)
    with pytest.raises(ValueError, match=r"^sample\.csv line 1: header \[\]"):
        parse("sample", "", Sample)


def test_a_table_is_read_once():
    assert load("conductor_sizes", ConductorSize) is load("conductor_sizes", ConductorSize)


def test_an_unknown_table_is_not_found():
    with pytest.raises(FileNotFoundError):
        load("no_such_table", Row)
