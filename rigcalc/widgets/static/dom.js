// Small helpers every piece uses.

/** An element with attributes and children; `on` holds listeners, null attributes are left out. */
export function make(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "on") Object.entries(value).forEach(([event, listener]) => node.addEventListener(event, listener));
    else if (value !== null && value !== undefined && value !== false) node.setAttribute(name, value === true ? "" : value);
  }
  node.append(...children.filter((child) => child !== null && child !== undefined));
  return node;
}

let lastId = 0;
export const freshId = (word) => `rig-${word}-${(lastId += 1)}`;

/** Set or drop an attribute. */
export function mark(node, name, value) {
  if (value === null || value === undefined || value === false || value === "") node.removeAttribute(name);
  else if (node.getAttribute(name) !== String(value)) node.setAttribute(name, value);
}

/** Change text only where it differs, so that nothing is announced twice. */
export function say(node, text) {
  const next = text ?? "";
  if (node.textContent !== next) node.textContent = next;
  node.hidden = next === "";
}

/** One stop, warning or error line: a mark that works without colour, then the sentence. */
export const errorLine = (id) => make("p", { id, class: "rig-error", hidden: true });

// Every message that changes something carries a number; Python answers with it in `seen` when the
// change has been worked out. So a link can wait until nothing is on its way.
let serial = 0;
const open = new Set();

export const settled = (limitMs = 1500) => new Promise((done) => {
  const start = performance.now();
  const look = () => (open.size === 0 || performance.now() - start > limitMs ? done() : setTimeout(look, 15));
  look();
});

/** Sends messages of one view and knows which are answered. */
export function outbox(model) {
  const mine = new Set();
  const seen = () => model.get("seen") ?? 0;
  model.on("change:seen", () => mine.forEach((n) => { if (n <= seen()) { mine.delete(n); open.delete(n); } }));
  const send = (message, buffers = []) => {
    const n = (serial += 1);
    mine.add(n);
    open.add(n);
    model.send({ ...message, n }, undefined, buffers);
    return n;
  };
  return { send, seen, answered: (n) => n <= seen() };
}

/** Sends the newest of a fast stream at once, but never a second before the first is answered. */
export function newestOnly(model, box, waitMs = 2000) {
  let next = null, sent = 0, sentAt = 0;
  const pump = () => {
    if (next === null) return;
    if (!box.answered(sent) && performance.now() - sentAt < waitMs) return;
    sent = box.send(next);
    sentAt = performance.now();
    next = null;
  };
  model.on("change:seen", pump);
  return (message) => {
    next = message;
    pump();
  };
}

/** A box that keeps what is typed: text from Python goes in only when no newer typing waits in it. */
export function keepTyping(input, box, sendText) {
  let known = input.value, sent = 0;
  const commit = () => {
    if (input.value === known) return;
    known = input.value;
    sent = sendText(known);
  };
  input.addEventListener("change", commit);
  input.addEventListener("keydown", (event) => { if (event.key === "Enter" && !event.isComposing) commit(); });
  return {
    show(text) {
      const typing = document.activeElement === input && input.value !== known;
      if (typing || !box.answered(sent)) return;
      known = text ?? "";
      if (input.value !== known) input.value = known;
    },
    put(text) { known = text; input.value = text; },
  };
}
