// One module for all pieces: the loader calls `render` with a model, a place and a way to ask Python for a file.
import { make, say } from "./dom.js";
import { fields } from "./fields.js";
import { header } from "./header.js";
import { plot } from "./plot.js";
import { saveopen } from "./saveopen.js";
import { sheet } from "./sheet.js";
import { store } from "./store.js";
import { table } from "./table.js";

const kinds = {
  fields,
  header,
  plot,
  saveopen,
  sheet: (model, el) => sheet(model, el),
  store,
  table,
};

const ENDED = "■ The calculation has stopped, so nothing typed now is worked out or kept. Reload the page; the rig comes back as this browser last kept it.";
const CUT_OFF = "■ The calculation cannot be reached, so nothing typed now is kept. The page goes on trying.";

/** When the kernel or the way to it is gone, say so once, where it is read. */
function watchKernel(model) {
  const kernel = model.widget_manager?.kernel;
  if (!kernel || document.body.dataset.rigWatched || !document.body.dataset.voila) return;
  document.body.dataset.rigWatched = "yes";
  const line = make("p", { class: "rigcalc rig-lost", role: "alert", hidden: true });
  document.body.prepend(line);
  let ended = false, timer = 0;                 // a kernel that starts again knows nothing of this page
  const look = () => {
    clearTimeout(timer);
    ended ||= ["dead", "terminating", "restarting", "autorestarting"].includes(kernel.status);
    if (ended) say(line, ENDED);
    else if (kernel.connectionStatus === "connected") say(line, "");
    else timer = setTimeout(() => say(line, CUT_OFF), 2000);
  };
  kernel.connectionStatusChanged?.connect(look);
  kernel.statusChanged?.connect(look);
}

export function render(model, el, ask) {
  el.classList.add("rigcalc");
  el.dataset.lmSuppressShortcuts = "true";      // JupyterLab's own keys stay out of what is typed here
  const trouble = make("p", { class: "rig-error", role: "alert", hidden: true });
  const show = () => say(trouble, model.get("trouble") ? `■ ${model.get("trouble")}` : "");
  model.on("change:trouble", show);
  const done = kinds[model.get("kind")](model, el, ask);
  el.append(trouble);
  show();
  document.getElementById("rig-starting")?.remove();
  watchKernel(model);
  return typeof done === "function" ? done : undefined;
}
