// An editable table: a real <table> of labelled boxes. Rows have ids of their own; Python holds them.
import { errorLine, freshId, keepTyping, make, mark, outbox, say } from "./dom.js";

/** Cells of a block copied from a spreadsheet: tabs between columns, quotes around cells with line ends. */
export function block(text) {
  const rows = [[""]];
  let quoted = false;
  const source = text.replace(/\r\n?/g, "\n").replace(/\n$/, "");
  for (let i = 0; i < source.length; i += 1) {
    const row = rows[rows.length - 1], sign = source[i];
    if (sign === '"' && (quoted || row[row.length - 1] === "")) {
      if (quoted && source[i + 1] === '"') { row[row.length - 1] += '"'; i += 1; } else quoted = !quoted;
    } else if (sign === "\t" && !quoted) row.push("");
    else if (sign === "\n" && !quoted) rows.push([""]);
    else row[row.length - 1] += sign;
  }
  return rows;
}

const isBlock = (text) => /[\t\n]/.test(text.replace(/[\r\n]+$/, ""));

const actions = {
  pick: ["Details", "Details", { type: "pick" }],
  up: ["↑", "Move up", { type: "move", step: -1 }],
  down: ["↓", "Move down", { type: "move", step: 1 }],
  copy: ["Copy", "Copy", { type: "copy" }],
  remove: ["Remove", "Remove", { type: "remove" }],
};

function cellControl(column, send) {
  if (column.kind === "read") return make("span", { class: "rig-value" });
  if (column.kind === "check") return make("input", { type: "checkbox", on: { change: (e) => send(e.target.checked) } });
  if (column.kind === "choice") return make("select");
  return make("input", { type: "text", autocomplete: "off", spellcheck: "false", placeholder: column.placeholder });
}

const classOf = (column) => `rig-${column.kind}${column.words ? " rig-words" : ""}${column.folds ? " rig-folds" : ""}`;

function cell(column, id, box, first) {
  const send = (text) => box.send({ type: "edit", id, key: column.key, text });
  const control = cellControl(column, send);
  if (control.type === "text" || column.kind === "choice") control.keep = keepTyping(control, box, send);
  control.dataset.key = column.key;
  const errorId = freshId("cell");
  const other = make("span", { class: "rig-quiet rig-other", hidden: true });
  const error = errorLine(errorId);
  const node = make(first ? "th" : "td", { scope: first ? "row" : null, "data-label": column.label, class: classOf(column) },
    control, other, error);
  const show = (row, name) => {
    const value = row.cells?.[column.key], problem = row.errors?.[column.key];
    mark(control, "aria-label", column.kind === "read" ? null : `${column.label}, ${name}`);
    mark(control, "aria-invalid", problem ? "true" : null);
    mark(control, "aria-describedby", problem ? errorId : null);
    say(error, problem ? `■ ${problem}` : "");
    say(other, row.other?.[column.key]);
    if (column.kind === "read") control.textContent = value ?? "";
    else if (column.kind === "check") control.checked = value === true;
    else if (column.kind === "choice") choose(control, row.choices?.[column.key] ?? column.choices ?? [], value);
    else control.keep.show(value);
  };
  return { node, show };
}

function choose(select, options, value) {
  const wanted = JSON.stringify(options);
  if (select.dataset.choices !== wanted) {
    const chosen = select.value;
    select.dataset.choices = wanted;
    select.replaceChildren(...options.map(([v, label]) => make("option", { value: v }, label)));
    select.value = chosen;      // what is chosen and not yet answered stays
  }
  select.keep.show(value);
}

/** The details stand below the table: they come into sight, and the keyboard goes on there. */
function toDetails(button) {
  const details = button.closest(".rig-column")?.querySelector(".rig-two");
  if (!details) return;
  details.tabIndex = -1;
  details.focus({ preventScroll: true });
  details.scrollIntoView({ block: "start" });
}

/** Where the rows scroll under their heads, a row just picked comes into sight; the page itself stays. */
function intoFrame(node, tries = 40) {
  const frame = node.closest(".rig-fold .rig-frame");
  if (!frame?.clientHeight) { if (tries) setTimeout(() => intoFrame(node, tries - 1), 50); return; }   // not on the page yet
  const head = frame.querySelector("thead")?.offsetHeight ?? 0;
  const above = node.offsetTop - head < frame.scrollTop, below = node.offsetTop + node.offsetHeight > frame.scrollTop + frame.clientHeight;
  if (above || below) frame.scrollTop = node.offsetTop - frame.clientHeight / 2;
}

function tableRow(model, id, box) {
  const columns = model.get("columns");
  const cells = columns.map((column, i) => cell(column, id, box, i === 0));
  const buttons = model.get("actions").map((name) => {
    const [text, , message] = actions[name];
    const click = (event) => { box.send({ ...message, id }); if (name === "pick") toDetails(event.target); };
    return make("button", { type: "button", "data-action": name, on: { click } }, text);
  });
  const node = make("tr", { "data-id": id }, ...cells.map((c) => c.node),
    buttons.length ? make("td", { class: "rig-actions" }, ...buttons) : null);
  const show = (row, at) => {
    const name = String(row.cells?.[columns[0].key] || `row ${at + 1}`);
    cells.forEach((c) => c.show(row, name));
    const fresh = row.picked && !node.classList.contains("rig-pick");
    mark(node, "class", row.picked ? "rig-pick" : null);
    if (fresh) setTimeout(() => intoFrame(node));
    mark(node, "aria-current", row.picked ? "true" : null);
    buttons.forEach((b) => mark(b, "aria-label", `${actions[b.dataset.action][1]}: ${name}`));
  };
  return { node, show };
}

export function table(model, el) {
  const box = outbox(model);
  const made = new Map();
  const body = make("tbody");
  const caption = make("caption");
  const head = make("tr");
  const add = make("button", { type: "button", class: "rig-add", on: { click: () => { awaited = new Set(order()); box.send({ type: "add" }); } } });
  let awaited = null;

  const order = () => model.get("order") ?? [];
  const row = (id) => model.get(`row:${id}`) ?? model.get("rows").find((r) => String(r.id) === String(id)) ?? { id };
  const at = (id, key) => made.get(String(id))?.node.querySelector(`[data-key="${CSS.escape(key)}"]`);

  const showRow = (id) => made.get(String(id))?.show(row(id), order().map(String).indexOf(String(id)));
  const focusNew = () => {
    const fresh = awaited && order().find((id) => !awaited.has(id));
    if (fresh === undefined || fresh === null) return;
    awaited = null;
    const first = made.get(String(fresh))?.node.querySelector("input, select");
    first?.focus();
    first?.select?.();          // typing replaces the name it starts with
  };
  const arrange = () => {
    const active = document.activeElement;
    const lost = active?.closest?.("tr[data-id]");
    const place = lost && body.contains(lost) ? [...body.children].indexOf(lost) : -1;
    const ids = order().map(String);
    made.forEach((r, id) => { if (!ids.includes(id)) { r.node.remove(); made.delete(id); } });
    ids.forEach((id, i) => {
      if (!made.has(id)) {
        made.set(id, tableRow(model, id, box));
        model.on(`change:row:${id}`, () => showRow(id));
      }
      const node = made.get(id).node;
      if (body.children[i] !== node) body.insertBefore(node, body.children[i] ?? null);
    });
    ids.forEach(showRow);
    if (lost && !lost.isConnected) (body.children[Math.min(place, body.children.length - 1)]?.querySelector("input, select") ?? add).focus();
    else if (lost && document.activeElement !== active) active.focus();
    focusNew();
  };
  const rebuild = () => {
    say(caption, model.get("caption"));
    add.textContent = model.get("add_label");
    add.hidden = model.get("add_label") === "";
    const titles = model.get("columns").map((c) => make("th", { scope: "col", class: classOf(c), title: c.help },
      c.label, c.unit ? make("span", { class: "rig-quiet" }, ` ${c.unit}`) : null));
    if (model.get("actions").length) titles.push(make("th", { scope: "col" }, make("span", { class: "rig-unseen" }, "Row")));
    head.replaceChildren(...titles);
    body.replaceChildren();
    made.clear();
    arrange();
  };

  body.addEventListener("keydown", (event) => {
    const key = event.target.dataset?.key;
    const moves = { Enter: event.shiftKey ? -1 : 1, ArrowDown: event.altKey ? 1 : 0, ArrowUp: event.altKey ? -1 : 0 };
    if (!key || !moves[event.key] || event.isComposing) return;
    event.preventDefault();
    if (model.get("across") && event.key === "Enter") {
      const boxes = [...body.querySelectorAll("input[type=text]")];
      const next = boxes[boxes.indexOf(event.target) + moves.Enter] ?? event.target;
      next.focus();
      if (next === event.target) next.blur();
      return;
    }
    const ids = order().map(String), here = ids.indexOf(event.target.closest("tr").dataset.id);
    const next = at(ids[here + moves[event.key]], key);
    if (next) { next.focus(); next.select?.(); } else { event.target.blur(); event.target.focus(); }
  });
  body.addEventListener("paste", (event) => {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    const { key } = event.target.dataset;
    if (!key || !isBlock(text)) return;
    event.preventDefault();
    box.send({ type: "paste", id: event.target.closest("tr").dataset.id, key, block: block(text) });
  });

  model.on("change:columns", rebuild);
  model.on("change:caption change:add_label", rebuild);
  model.on("change:order", arrange);
  model.on("change:seen", () => made.forEach((_, id) => showRow(id)));
  rebuild();
  const looks = ["dense", "fold"].filter((name) => model.get(name)).map((name) => ` rig-${name}`).join("");
  el.append(make("div", { class: `rig-table${looks}`, role: "region", "aria-label": model.get("caption") || "Table" },
    make("div", { class: "rig-frame" }, make("table", {}, caption, make("thead", {}, head), body)), add));
}
