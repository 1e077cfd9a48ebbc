// The head of a page. A voila page has a slot for it above <main>; inside JupyterLab there are no
// pages to go to and it stays away.
import { make } from "./dom.js";
import { sheet } from "./sheet.js";

export function header(model, el) {
  if (!document.body.dataset.voila) return;
  const slot = document.getElementById("rigcalc-header");
  if (!slot) { sheet(model, el); return; }
  const before = [...slot.children];
  const root = make("div", { class: "rig-sheet" });
  sheet(model, slot, root);
  before.forEach((node) => node.remove());
  el.hidden = true;
  document.dispatchEvent(new Event("rigcalc-header"));
  return () => root.remove();
}
