// A vertical form: each field a label, a box that keeps what is typed, often a slider, quiet text and an error.
import { errorLine, freshId, keepTyping, make, mark, newestOnly, outbox, say } from "./dom.js";

const decimals = (step) => (String(step).split(".")[1] ?? "").length;
const written = (slider, value) => `${Number(value).toFixed(decimals(slider.step))} ${slider.unit ?? ""}`.trim();

function sliderFor(spec, input, box, stream) {
  const range = make("input", { type: "range", min: spec.slider.min, max: spec.slider.max, step: spec.slider.step,
    "aria-label": `${spec.label}, slider` });
  range.addEventListener("input", () => {
    const text = written(spec.slider, range.value);
    input.keep.put(text);
    mark(range, "aria-valuetext", text);
    stream({ type: "edit", key: spec.key, text });
  });
  return range;
}

function control(spec, id, box) {
  const send = (text) => box.send({ type: "edit", key: spec.key, text });
  if (spec.kind === "check") {
    return make("input", { id, type: "checkbox", on: { change: (event) => send(event.target.checked) } });
  }
  if (spec.kind === "choice") {
    const select = make("select", { id });
    select.keep = keepTyping(select, box, send);
    return select;
  }
  const input = spec.kind === "note" ? make("textarea", { id, rows: 4, placeholder: spec.placeholder })
    : make("input", { id, type: "text", autocomplete: "off", spellcheck: "false", placeholder: spec.placeholder });
  input.keep = keepTyping(input, box, send);
  return input;
}

function choices(select, spec) {
  const wanted = JSON.stringify(spec.choices ?? []);
  if (select.dataset.choices === wanted) return;
  const chosen = select.value;
  select.dataset.choices = wanted;
  select.replaceChildren(...(spec.choices ?? []).map(([value, label]) => make("option", { value }, label)));
  select.value = chosen;        // what is chosen and not yet answered stays
}

function field(first, box, stream) {
  const id = freshId("field");
  const input = control(first, id, box);
  const range = first.slider ? sliderFor(first, input, box, stream) : null;
  const label = make("label", { for: id });
  const other = make("span", { id: `${id}-other`, class: "rig-quiet rig-other", hidden: true });
  const help = make("p", { id: `${id}-help`, class: "rig-quiet rig-help", hidden: true });
  const error = errorLine(`${id}-error`);
  const row = make("div", { class: "rig-row" }, range, input, first.kind === "check" ? label : null, other);
  const node = make("div", { class: `rig-field rig-${first.kind}`, "data-key": first.key },
    first.kind === "check" ? null : label, row, help, error);

  const show = (spec) => {
    if (label.textContent !== spec.label) label.textContent = spec.label;
    say(other, spec.other);
    say(help, spec.help);
    say(error, spec.error ? `■ ${spec.error}` : "");
    mark(input, "aria-invalid", spec.error ? "true" : null);
    mark(input, "aria-describedby", [other, help, error].filter((n) => !n.hidden).map((n) => n.id).join(" "));
    if (spec.kind === "check") input.checked = spec.text === true;
    else if (spec.kind === "choice") { choices(input, spec); input.keep.show(spec.text); }
    else input.keep.show(spec.text);
    if (range) slide(range, spec);
  };
  return { node, show };
}

function slide(range, spec) {
  for (const name of ["min", "max", "step"]) mark(range, name, spec.slider[name]);
  if (document.activeElement === range && range.matches(":active")) return;
  range.value = spec.slider.value ?? spec.slider.min;
  mark(range, "aria-valuetext", spec.text);
}

export function fields(model, el) {
  const box = outbox(model);
  const stream = newestOnly(model, box);
  const form = make("div", { class: "rig-fields", role: "group", "aria-label": model.get("title") || "Inputs" });
  const latest = (spec) => model.get(`field:${spec.key}`) ?? spec;
  let shown = [];
  const showAll = () => shown.forEach(([spec, made]) => made.show(latest(spec)));
  const build = () => {
    shown = model.get("specs").map((spec) => [spec, field(latest(spec), box, stream)]);
    const heading = model.get("title") ? [make("h2", {}, model.get("title"))] : [];
    form.replaceChildren(...heading, ...shown.map(([, made]) => made.node));
    shown.forEach(([spec, made]) => { model.on(`change:field:${spec.key}`, () => made.show(latest(spec))); made.show(latest(spec)); });
  };
  model.on("change:specs", build);
  model.on("change:seen", showAll);
  build();
  el.append(form);
  if (model.get("take_focus")) requestAnimationFrame(() => form.querySelector("input, select, textarea")?.focus());
}
