// A plotly figure from its JSON. The words come first; the drawing follows when the library is there.
import { make, say } from "./dom.js";

const quietLayout = () => {
  const style = getComputedStyle(document.documentElement);
  const colour = (name, otherwise) => style.getPropertyValue(name).trim() || otherwise;
  return {
    font: { family: "system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'DejaVu Sans', sans-serif", size: 13, color: colour("--rig-ink", "#1c2430") },
    margin: { l: 60, r: 16, t: 28, b: 48 },
    paper_bgcolor: "rgba(0,0,0,0)",
    plot_bgcolor: "rgba(0,0,0,0)",
    colorway: ["#0072B2", "#E69F00", "#009E73", "#D55E00", "#56B4E9", "#CC79A7", "#F0E442", "#000000"],
    legend: { orientation: "h", x: 0, y: 1.02, yanchor: "bottom" },
    hovermode: "closest",
  };
};
const quietAxis = { gridcolor: "#d5dae1", linecolor: "#8a94a3", zeroline: false, automargin: true };

/** The figure's layout over the kit's quiet one; what the figure says wins. */
export function layoutOf(figure) {
  const layout = { ...quietLayout(), ...figure.layout, autosize: true, width: undefined };
  for (const name of ["xaxis", "yaxis", ...Object.keys(layout).filter((n) => /^[xy]axis\d+$/.test(n))]) {
    layout[name] = { ...quietAxis, ...layout[name] };
  }
  return layout;
}

const run = (src) => new Promise((done, failed) => {
  document.head.append(make("script", { src, on: { load: done, error: () => failed(new Error("plotly-basic.min.js is missing")) } }));
});

const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

/** The library, once a page: from the site, which has it fetched early, else from Python. */
function library(ask) {
  const offered = document.querySelector('link[data-rigcalc="plotly"]')?.href;
  globalThis.rigcalcPlotly ??= (async () => {
    if (!globalThis.Plotly) await run(offered ?? URL.createObjectURL(new Blob([await ask("plotly-basic.min.js")], { type: "text/javascript" })));
  })();
  return globalThis.rigcalcPlotly.then(() => globalThis.Plotly ?? globalThis.moduleName);
}

function dataTable(table) {
  if (!table?.rows?.length) return [];
  const head = make("tr", {}, ...table.columns.map((c) => make("th", { scope: "col" }, c)));
  const rows = table.rows.map((r) => make("tr", {}, ...r.map((v, i) => make(i ? "td" : "th", i ? {} : { scope: "row" }, String(v)))));
  return [make("table", {}, make("thead", {}, head), make("tbody", {}, ...rows))];
}

export function plot(model, el, ask) {
  const drawing = make("div", { class: "rig-drawing", role: "img" });
  const words = make("figcaption", { class: "rig-quiet" });
  const details = make("details", {}, make("summary", {}, "The same as a table"), make("div", { class: "rig-scroll", tabindex: "0", role: "region", "aria-label": "Table of the plot" }));
  el.append(make("figure", { class: "rig-plot" }, words, drawing, details));

  const say_words = () => {
    say(words, model.get("alt"));
    drawing.setAttribute("aria-label", model.get("alt") || "Plot");
    const table = dataTable(model.get("table"));
    details.hidden = table.length === 0;
    details.lastElementChild.replaceChildren(...table);
  };
  let drawn = Promise.resolve(), gone = false;
  const draw = () => {
    drawn = drawn.then(async () => {
      const text = model.get("figure");
      drawing.hidden = text === "";
      if (text === "" || gone) return;
      if (!globalThis.Plotly) await painted();
      const Plotly = await library(ask);
      const figure = JSON.parse(text);
      if (figure.layout?.height) drawing.style.height = `${figure.layout.height}px`;
      await Plotly.react(drawing, figure.data ?? [], layoutOf(figure), { displayModeBar: false, displaylogo: false, responsive: false });
      drawing.dispatchEvent(new Event("rigcalc-drawn", { bubbles: true }));
    }).catch((error) => { say(words, `${model.get("alt")} (The plot could not be drawn: ${error.message}.)`); });
  };
  model.on("change:alt change:table", say_words);
  model.on("change:figure", draw);
  say_words();
  draw();
  const watcher = new ResizeObserver(() => { if (drawing.data && drawing.offsetWidth) globalThis.Plotly?.Plots.resize(drawing); });
  watcher.observe(drawing);
  return () => { gone = true; watcher.disconnect(); globalThis.Plotly?.purge(drawing); };
}
