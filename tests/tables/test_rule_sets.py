"""The rule sets: each choice has its clause, and nothing unread picks a size."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.tables import load
from rigcalc.tables.ampacity import AMPACITY_TABLES, BUNDLING_METHODS, ampacity_a
from rigcalc.tables.conductors import MinConductorSize, conductor, conductor_sizes
from rigcalc.tables.overcurrent import OcpDistance
from rigcalc.tables.rule_sets import RULE_SETS, TOPICS, Clause, RuleSet, rule_set, rule_set_for
from rigcalc.tables.voltage_drop import USES, VoltageDropLimit

PLAIN = [rules for rules in RULE_SETS.values() if not rules.members]
each_rule_set = pytest.mark.parametrize("rules", RULE_SETS.values(), ids=list(RULE_SETS))


@each_rule_set
def test_every_topic_has_its_clause(rules: RuleSet):
    assert [row.topic for row in rules.clauses] == list(TOPICS)
    assert rules.documents


def test_no_clause_or_figure_belongs_to_an_unknown_rule_set():
    rows = [*load("rule_clauses", Clause), *load("voltage_drop_limits", VoltageDropLimit)]
    named = {row.rule_set for row in rows}
    named |= {
        row.rule_set for row in (*load("ocp_distances", OcpDistance), *load("min_conductor_sizes", MinConductorSize))
    }
    assert named == set(RULE_SETS)
    assert len(load("rule_clauses", Clause)) == len(RULE_SETS) * len(TOPICS)


@each_rule_set
def test_named_tables_methods_and_counterparts_exist(rules: RuleSet):
    assert {table for _, table in rules.ampacity_tables} <= set(AMPACITY_TABLES)
    assert rules.bundling in (*BUNDLING_METHODS, "typed")
    if rules.counterpart and not rules.members:
        assert rule_set(rules.counterpart).series != rules.series
    assert {rule_set(name).id for name in rules.members} <= {plain.id for plain in PLAIN}


@each_rule_set
def test_its_table_has_sizes_of_its_own_series(rules: RuleSet):
    for from_c, table in rules.ampacity_tables:
        installation = "clipped" if "bs7671" in table else None
        found = [ampacity_a(table, size.name, from_c, installation) for size in conductor_sizes(rules.series)]
        assert sum(row is not None for row in found) >= 13


def test_bs_7671_takes_the_90_degree_table_only_for_90_degree_cable():
    tables = [rule_set("iec_cabin").ampacity_table(c) for c in (60, 70, 85, 90, 105)]
    assert tables == [None, *["ampacity_bs7671_4d1a"] * 2, *["ampacity_bs7671_4e1a"] * 2]


def test_eu_small_craft_picks_nothing_while_its_annex_is_unread():
    rules = rule_set("eu_small_craft")
    assert rules.ampacity_table(105) is None
    assert [rules.drop_limit(use) for use in USES] == [None] * len(USES)
    assert rules.distance("general") is None


@pytest.mark.parametrize("use", USES)
def test_the_strictest_drop_limit_is_no_larger_than_any(use: str):
    limits = [limit for rules in PLAIN if (limit := rules.drop_limit(use))]
    strictest = rule_set("strictest_of_all").drop_limit(use)
    assert strictest
    assert strictest.limit_pct == min(limit.limit_pct for limit in limits)


def test_the_strictest_of_all_takes_the_shortest_distance_and_the_largest_smallest_size():
    strictest = rule_set("strictest_of_all")
    shortest = strictest.distance("general")
    assert shortest
    assert shortest.distance_m == pytest.approx(7 * 0.0254)
    sizes = {
        (how, series): strictest.min_size(how, series) for how in ("single", "sheathed") for series in ("AWG", "mm2")
    }
    assert {cell: row.size for cell, row in sizes.items() if row} == {
        ("single", "AWG"): "16 AWG",
        ("sheathed", "AWG"): "18 AWG",
        ("single", "mm2"): "1.5 mm2",
        ("sheathed", "mm2"): "1.5 mm2",
    }


def test_a_smallest_size_is_only_given_in_the_series_that_states_it():
    assert rule_set("us_boat").min_size("single", "mm2") is None
    assert rule_set("na_cabin").min_size("single", "AWG") is None
    single, sheathed = (rule_set("us_boat").min_size(how, "AWG") for how in ("single", "sheathed"))
    assert single
    assert sheathed
    assert conductor(sheathed.size).area_mm2 < conductor(single.size).area_mm2


def test_only_the_us_boat_may_take_the_next_rating_up():
    assert {rules.id: rules.next_size_up_ratio for rules in RULE_SETS.values() if rules.next_size_up} == {
        "us_boat": 1.5
    }
    assert {rules.fuse_ratio for rules in RULE_SETS.values()} == {1.0}


def test_a_hot_terminal_stops_a_design_under_nfpa_70_only():
    stops = {rules.id for rules in PLAIN if rules.terminal_severity == "stop"}
    assert stops == {"na_vehicle", "na_cabin"} == {rules.id for rules in PLAIN if rules.small_conductor_limits}


def test_kind_and_region_choose_each_plain_rule_set_once():
    assert [rule_set_for(rules.kind, rules.region) for rules in PLAIN] == PLAIN
    assert len({(rules.kind, rules.region) for rules in PLAIN}) == 6


@pytest.mark.parametrize("call", [lambda: rule_set("mars"), lambda: rule_set_for("any", "any")])
def test_an_unknown_rule_set_is_refused(call):
    with pytest.raises(InputError):
        call()
