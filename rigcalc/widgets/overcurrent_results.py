"""What the page on overcurrent protection says of one circuit: its window, why this rating, faults, place, supply."""

from __future__ import annotations

from rigcalc.rules.parts import circuit, rig_run, run_study, titled
from rigcalc.rules.words import apart, joined
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy
from rigcalc.study.results import NOT_AVAILABLE
from rigcalc.tables.overcurrent import ratings
from rigcalc.units import show, significant
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.sheets import row, table
from rigcalc.widgets.wiring import CLASS_LABELS, marked, places
from rigcalc.widgets.wiring_figures import Edge
from rigcalc.widgets.workings import status_tag, working

NOISE = 1 + 1e-9
SHEET = "confirm on the maker's sheet"


def answer(study: Study, picked: str | None) -> Markup:
    """The page's answer in one sentence."""
    supply = [one for one in study.network.circuits if one.conductor == "positive"]
    bare = len(study.network.unprotected)
    rest = f"; {bare} {'run has' if bare == 1 else 'runs have'} nothing before it" if bare else ""
    waiting = len(study.network.unconnected)
    rest += f"; {waiting} {'part is' if waiting == 1 else 'parts are'} not connected yet" if waiting else ""
    if not supply or picked is None:
        return h("There is <strong>no fuse or breaker</strong> in the supply yet{}.", rest)
    good = sum(fits(one) is True for one in supply)
    total = f"{len(supply)} circuit is" if len(supply) == 1 else f"{len(supply)} circuits are"
    return h("{} of {} fused within the window{}; {}.", good, total, rest, _of_circuit(study, circuit(study, picked)))


def _of_circuit(study: Study, one: CircuitStudy) -> Markup:
    name = f"{one.circuit_id} in {one.run_id}, {rig_run(study, one.run_id).name},"
    if one.conductor == "negative":
        return h("{} <strong>sits in the return</strong> and protects nothing", name)
    if one.rating_a is None:
        return h("{} <strong>has no rating that fits</strong>: {}", name, window_text(study, one))
    word = "is stated as" if one.rating_stated else "takes"
    return h("{} {} <strong>{} A</strong>, window {}", name, word, f"{one.rating_a:g}", window_text(study, one))


def fits(one: CircuitStudy) -> bool | None:
    """Whether the rating lies in its window; None where the upper edge is not known."""
    if one.rating_a is None:
        return False
    if one.rating_a * NOISE < one.least_a:
        return False
    return None if one.most_a is None else one.rating_a <= one.most_a * NOISE


def window_text(study: Study, one: CircuitStudy) -> str:
    """Both edges of the window."""
    units = study.rig.units
    most = NOT_AVAILABLE if one.most_a is None else show(one.most_a, "a", units)
    return f"{significant(one.least_a)} to {most}"


def cells(study: Study, one: CircuitStudy) -> dict[str, str]:
    """Cells of the table of circuits."""
    units, names = study.rig.units, places(study.rig)
    loads = [names.get(node, node) for node in one.loads]
    rating = "■ none fits" if one.rating_a is None else f"{one.rating_a:g} A"
    voltage = "not stated" if one.voltage_rating_v is None else show(one.voltage_rating_v, "v", units)
    in_supply = one.conductor == "positive"
    return {
        "device": one.circuit_id,
        "run": f"{one.run_id} · {rig_run(study, one.run_id).name}",
        "loads": joined(loads) if 0 < len(loads) <= 2 else f"{len(loads)} loads" if loads else "none",
        "current": show(one.continuous_a, "a", units),
        "window": _whole(window_text(study, one)) if in_supply else "none: in the return",
        "rating": rating,
        "class": CLASS_LABELS.get(one.device_class or "", "not stated"),
        "voltage": voltage,
        "breaks": breaks_text(study, one) if in_supply else "",
        "distance": distance_text(study, one) if in_supply else "",
    }


def _whole(text: str) -> str:
    """Short numbers stay on one line."""
    return text.replace(" ", "\u00a0") if len(text) < 20 else text


def rating_note(one: CircuitStudy) -> str:
    """Whether the rating is stated, chosen, or rests on a figure from memory."""
    if one.rating_a is None or one.conductor == "negative":
        return ""
    if one.rating_stated:
        return "stated"
    return "▲ from memory" if one.rating_status.startswith("memory") else "chosen"


def breaks_text(study: Study, one: CircuitStudy) -> str:
    """Prospective current against what the device breaks."""
    units = study.rig.units
    short = "not known" if one.prospective_a is None else show(one.prospective_a, "a", units)
    breaks = "not known" if one.interrupting_a is None else show(one.interrupting_a, "a", units)
    over = one.prospective_a is not None and one.interrupting_a is not None and one.prospective_a > one.interrupting_a
    return f"{'■ ' if over else ''}{short} of {breaks}"


def distance_text(study: Study, one: CircuitStudy) -> str:
    """Where it sits against how far the rules let it."""
    units = study.rig.units
    if one.distance_m is None:
        most = "" if one.distance_limit_m is None else f", up to {show(one.distance_limit_m, 'm', units)}"
        return f"not stated{most}"
    if one.distance_limit_m is None:
        return f"{show(one.distance_m, 'm', units)}, no limit read"
    has, most = apart(study, one.distance_m, one.distance_limit_m, "m")
    return f"{'■ ' if one.distance_m > one.distance_limit_m else ''}{has} of {most}"


def lacking(study: Study) -> Markup:
    """Runs without a device of their own: those with nothing before them in sight, the others folded."""
    own = {device.run_id for device in study.rig.devices if device.conductor == "positive"}
    runs = [one for one in study.network.runs if one.run_id not in own]
    bare = [one for one in runs if one.run_id in study.network.unprotected]
    behind = [one for one in runs if one not in bare]
    naked = [_add(h('<span class="rig-stop">■ {} has nothing before it.</span>', titled(one)), one) for one in bare]
    folded = h(
        '<details data-key="lacking"><summary>Runs without a device of their own: {}</summary><ul>{}</ul></details>',
        len(behind), [_add(h("{} is protected by the device before it.", titled(one)), one) for one in behind],
    )  # fmt: skip
    return h("{}{}", h("<ul>{}</ul>", naked) if naked else "", folded if behind else "")


def _add(text: Markup, run: RunStudy) -> Markup:
    return h('<li>{} <button type="button" data-act="add" data-arg="{}">Add a fuse</button></li>', text, run.run_id)


def edges(study: Study, one: CircuitStudy) -> tuple[Edge, Edge, Edge | None]:
    """The load, and both edges of the window, for the plot."""
    heat = f" / {significant(one.rerating, 2)}" if one.rerating < 1 else ""
    least = Edge(f"load / {one.continuous_share:g}{heat}", one.least_a)
    most = None if one.most_a is None else Edge(most_label(study, one), one.most_a)
    return Edge("load for hours", one.continuous_a), least, most


def most_label(study: Study, one: CircuitStudy) -> str:
    """What sets the upper edge, short enough for an axis."""
    thin = one.thinnest and run_study(study, one.thinnest).choice
    if one.most_because.startswith("conductor") and thin:
        return f"{thin.size} in {one.thinnest}"
    return "holder" if "holder" in one.most_because else "maker's largest"


def window_alt(study: Study, one: CircuitStudy) -> str:
    """The plot in a sentence."""
    if one.conductor == "negative":
        return f"{one.circuit_id} sits in the return: it has no window."
    rating = "none is chosen" if one.rating_a is None else f"{one.rating_a:g} A is {_word(one)}"
    most = f", the upper edge is {one.most_because}" if one.most_a is not None else ""
    return f"Window of {one.circuit_id}: {window_text(study, one)}; {rating}{most}."


def _word(one: CircuitStudy) -> str:
    return "stated" if one.rating_stated else "chosen"


def window_rows(study: Study, one: CircuitStudy) -> list[list[str]]:
    """The plot as a table."""
    load, least, most = edges(study, one)
    found = [[edge.name, f"{significant(edge.current_a)} A"] for edge in (load, least, most) if edge is not None]
    made = ", ".join(f"{rating:g}" for rating in ratings_of(one))
    return [
        *found,
        ["ratings made", f"{made} A"],
        ["this one", "none" if one.rating_a is None else f"{one.rating_a:g} A"],
    ]


def ratings_of(one: CircuitStudy) -> tuple[float, ...]:
    """Ratings the class is made in. [A]"""
    return tuple(rating.rating_a for rating in ratings(one.device_class)) if one.device_class else ()


def why(study: Study, one: CircuitStudy) -> Markup:
    """Why this rating and class, and what is to be confirmed."""
    if one.conductor == "negative":
        return h('<p class="rig-stop">■ A device in the return alone leaves what it feeds live when it opens.</p>')
    lines = [_rating_line(study, one), _most_line(study, one), _class_line(one)]
    if one.grown:
        thick = [run.run_id for run in study.network.runs if run.run_id in one.runs and run.decided_by == "fuse"]
        lines.append(h("A larger conductor was chosen so that this fuse fits: {}.", joined(thick)))
    if one.rating_status.startswith("memory"):
        lines.append(h('<span class="rig-warn">▲ This rating is from memory: {}.</span>', SHEET))
    lines.append(_start_line(one))
    return h("<h3>Why {}</h3><ul>{}</ul>", one.circuit_id, [h("<li>{}</li>", line) for line in lines if line])


def _rating_line(study: Study, one: CircuitStudy) -> Markup:
    current, least = show(one.continuous_a, "a", study.rig.units), show(one.least_a, "a", study.rig.units)
    need = f"{current} for hours needs {least} or more"
    if one.rating_a is None:
        return h('<span class="rig-stop">■ No rating of this class reaches it: {}.</span>', need)
    if fits(one) is False:
        return h('<span class="rig-stop">■ {} A is outside the window: {}.</span>', f"{one.rating_a:g}", need)
    text = "stated" if one.rating_stated else "the smallest rating of its class that holds the load"
    return h("<strong>{} A</strong>, {}: {}.", f"{one.rating_a:g}", text, need)


def _most_line(study: Study, one: CircuitStudy) -> Markup:
    if one.most_a is None:
        return h("How large it may be is {}.", NOT_AVAILABLE)
    return h("At most {}: {}.", show(one.most_a, "a", study.rig.units), one.most_because)


def _class_line(one: CircuitStudy) -> Markup:
    label = CLASS_LABELS.get(one.device_class or "", "not stated")
    if one.class_stated:
        return h("Class: {}, as stated for it or for its block.", label)
    return h("Class: {}, the first tried that carries it and breaks the short circuit.", label)


def _start_line(one: CircuitStudy) -> Markup:
    if one.start_opens is None:
        return Markup("")
    if one.start_opens:
        return h('<span class="rig-warn">▲ A start on it may last longer than it holds.</span>')
    return Markup("It holds through each start stated.")


def faults(study: Study, one: CircuitStudy) -> Markup:
    """Short circuit, place and workings of a circuit in the supply."""
    if one.conductor == "negative":
        return Markup("")
    breaks = marked(breaks_text(study, one).removeprefix("■ "), breaks_text(study, one).startswith("■"))
    place = marked(distance_text(study, one).removeprefix("■ "), distance_text(study, one).startswith("■"))
    source = h('<span class="rig-quiet">{}</span>', one.distance_source) if one.distance_source else ""
    first, second = _short_tag(study, one), status_tag(one.interrupting_status)
    return h(
        "<h3>Short circuit and place</h3><p>A dead short here would draw, of what it can break: "
        "<strong>{}</strong>. The first figure: {}, the second: {}.</p>"
        "<p>From its source along the conductor: <strong>{}</strong> {}</p>{}",
        breaks, first, second, place, source, [working(each, each.what) for each in one.workings],
    )  # fmt: skip


def _short_tag(study: Study, one: CircuitStudy) -> Markup:
    """How the bank's resistance behind the short circuit is known."""
    return status_tag("not known" if one.prospective_a is None else study.network.fault.status)


def recalled(study: Study) -> Markup:
    """A word on fuses that rest on a short-circuit current nobody stated."""
    shorts = [one.prospective_a for one in study.network.circuits if one.prospective_a is not None]
    if not shorts or not study.network.fault.status.startswith("memory"):
        return Markup("")
    return h(
        '<p class="rig-warn">▲ What the bank gives into a dead short is not stated. Up to {} is taken from memory, on '
        "the safe side, and decides what each fuse must break. State the maker's figure first, in the form "
        "Battery bank below: other fuses may do.</p>",
        show(max(shorts), "a", study.rig.units),
    )


def blocks(study: Study) -> Markup:
    """Each block: what its branches take, what it is made for, what the feeder lets through."""
    if not study.network.blocks:
        return Markup("")
    units = study.rig.units
    rows = []
    for one in study.network.blocks:
        most = float("inf") if one.rating_a is None else one.rating_a
        feeder_a = one.feeder_rating_a
        feeder = "none" if feeder_a is None else f"{one.feeder_circuit}, {feeder_a:g} A"
        load = marked(show(one.load_a, "a", units), one.load_a > most)
        rating = "not stated" if one.rating_a is None else show(one.rating_a, "a", units)
        rows.append(row(f"{one.block_id} · {one.name}", [load, rating, marked(feeder, (feeder_a or 0.0) > most)]))
    return table("Blocks and their feeders", ("Block", "Branches take", "Made for", "Feeder fuse"), rows)
