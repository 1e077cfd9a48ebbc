// Mirrors one text (the rig file) in this browser, and says in the head of the page whether it is kept.
import { make, outbox, say } from "./dom.js";

const clock = () => new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
const same = (a, b) => {
  if (a === b) return true;
  try { return JSON.stringify(JSON.parse(a)) === JSON.stringify(JSON.parse(b)); } catch { return false; }
};

export function store(model, el) {
  const box = outbox(model);
  const key = model.get("key");
  const state = make("span", { class: "rig-quiet" });
  const notice = make("div", { class: "rig-notice", role: "alert", hidden: true });
  let words = "", other = null;      // the other tab's version, while nobody has chosen

  const tidy = () => { el.hidden = state.hidden && notice.hidden && model.get("trouble") === ""; };
  const tell = (text) => {
    words = text;
    const slot = document.querySelector("[data-rig-saved]");
    say(slot ?? state, words);
    if (slot) state.hidden = true;
    tidy();
  };
  const read = () => {
    try { return localStorage.getItem(key) ?? ""; } catch { tell("not kept: this browser keeps nothing for pages. Save the file."); return ""; }
  };
  const write = () => {
    const text = model.get("value");
    if (text === "" || other !== null) return;
    try {
      if (localStorage.getItem(key) !== text) localStorage.setItem(key, text);
      tell(`kept in this browser, ${clock()}`);
    } catch (error) {
      tell(error.name === "QuotaExceededError" ? "not kept: this browser's room is full. Save the file."
        : "not kept: this browser keeps nothing for pages. Save the file.");
    }
  };
  const choose = (text) => { other = null; notice.hidden = true; tidy(); if (text === null) write(); else restore(text, "other tab"); };
  const restore = (text, from) => box.send({ type: "restored", text, from });

  const changedElsewhere = (event) => {
    if (event.key !== key || event.newValue === null || same(event.newValue, model.get("value"))) return;
    other = event.newValue;
    tell("not kept: another tab changed this rig");
    notice.replaceChildren(
      make("p", {}, `▲ This rig was changed in another tab, ${clock()}. Choose which version this browser keeps.`),
      make("button", { type: "button", on: { click: () => choose(other) } }, "Load the other tab's version"),
      make("button", { type: "button", on: { click: () => choose(null) } }, "Keep this tab's version"));
    notice.hidden = false;
    tidy();
  };
  const forget = (message) => {
    if (message?.type !== "forget") return;
    try { localStorage.removeItem(key); } catch { /* nothing was kept */ }
    tell("");
  };

  model.on("change:value", write);
  model.on("change:trouble", tidy);
  model.on("msg:custom", forget);
  const again = () => tell(words);
  window.addEventListener("storage", changedElsewhere);
  document.addEventListener("rigcalc-header", again);
  el.append(state, notice);
  tell("");
  if (model.get("ready")) write(); else restore(read(), "this browser");
  return () => { window.removeEventListener("storage", changedElsewhere); document.removeEventListener("rigcalc-header", again); };
}
