// A sheet of results: HTML made and escaped in Python, changed in place so that focus, open parts and
// the place on the page stay. Buttons with data-act answer to Python.
import { make, outbox, settled } from "./dom.js";

const keyOf = (node) => node.dataset?.key ?? node.id ?? "";
const xhtml = "http://www.w3.org/1999/xhtml";

function alike(a, b) {
  return a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.nodeType !== 1 || keyOf(a) === keyOf(b));
}

function attributes(old, next) {
  const own = old.nodeName === "DETAILS" ? "open" : null;
  for (const { name } of [...old.attributes]) if (name !== own && !next.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of [...next.attributes]) if (name !== own && old.getAttribute(name) !== value) old.setAttribute(name, value);
}

/** Make the children of `old` those of `next`, touching only what differs; what is `data-own` is the browser's. */
export function morph(old, next) {
  const before = [...old.childNodes], after = [...next.childNodes];
  after.forEach((wanted, i) => {
    const have = before[i];
    if (!have) old.append(wanted);
    else if (have.isEqualNode(wanted) || (alike(have, wanted) && have.dataset?.own !== undefined)) return;
    else if (!alike(have, wanted) || (have.nodeType === 1 && have.namespaceURI !== xhtml)) have.replaceWith(wanted);
    else if (have.nodeType !== 1) have.data = wanted.data;
    else { attributes(have, wanted); morph(have, wanted); }
  });
  before.slice(after.length).forEach((node) => node.remove());
}

const focusMark = (root) => {
  const node = document.activeElement;
  if (!node || !root.contains(node)) return null;
  const { act, arg } = node.dataset;
  if (node.id) return `#${CSS.escape(node.id)}`;
  if (act) return `[data-act="${CSS.escape(act)}"]${arg === undefined ? "" : `[data-arg="${CSS.escape(arg)}"]`}`;
  const part = node.nodeName === "SUMMARY" && node.parentElement.dataset.key;
  return part ? `details[data-key="${CSS.escape(part)}"] > summary` : null;
};

/** A form that closes under the keyboard hands it to the findings. */
export const toFindings = () => setTimeout(() => {
  const findings = document.getElementById("findings");
  if (!findings || document.activeElement !== document.body) return;
  findings.tabIndex = -1;
  findings.focus({ preventScroll: true });
});

export function sheet(model, el, root = make("div", { class: "rig-sheet" })) {
  const box = outbox(model);
  const open = new Map();
  const paint = () => {
    const next = document.createElement("template");
    next.innerHTML = model.get("html");
    next.content.querySelectorAll("details[data-key]").forEach((part) => {
      if (open.has(part.dataset.key)) part.open = open.get(part.dataset.key);
    });
    const focused = focusMark(root);
    morph(root, next.content);
    if (!focused || document.activeElement !== document.body) return;
    root.tabIndex = -1;                           // what had the focus is gone: the keyboard goes on from here
    (root.querySelector(focused) ?? root).focus({ preventScroll: true });
  };
  root.addEventListener("toggle", (event) => {
    if (event.target.dataset?.key) open.set(event.target.dataset.key, event.target.open);
  }, true);
  root.addEventListener("click", async (event) => {
    const button = event.target.closest("[data-act]");
    if (button) box.send({ type: "act", act: button.dataset.act, arg: button.dataset.arg ?? "" });
    const link = event.target.closest("a[href]");
    if (!link || link.target || link.hash && link.pathname === location.pathname) return;
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();                       // what was typed last is kept before the page is left
    await settled();
    location.assign(link.href);
  });
  if (model.get("live")) root.setAttribute("aria-live", "polite");
  model.on("change:html", paint);
  paint();
  el.append(root);
  return () => toFindings();
}
