// What every piece of the kit sends: it fetches the kit once a page, from the site where the page
// offers it, else from Python. The page's own links say what the site offers (see template/).
const ask = (model, name) => new Promise((done) => {
  const hear = (message) => {
    if (message?.type !== "asset" || message.name !== name) return;
    model.off("msg:custom", hear);
    done(message.text);
  };
  model.on("msg:custom", hear);
  model.send({ type: "asset", name });
});

async function load(model) {
  const offered = (name) => document.querySelector(`link[data-rigcalc="${name}"]`);
  if (!offered("style") && !document.getElementById("rigcalc-style")) {
    const style = Object.assign(document.createElement("style"), { id: "rigcalc-style" });
    document.head.append(style);
    style.textContent = await ask(model, "kit.css");
  }
  if (offered("kit")) return import(offered("kit").href);
  const text = await ask(model, "kit.js");
  return import(URL.createObjectURL(new Blob([text], { type: "text/javascript" })));
}

const kits = (globalThis.rigcalcKits ??= {});

export default {
  async render({ model, el }) {
    const kit = await (kits[model.get("kit_version")] ??= load(model));
    return kit.render(model, el, (name) => ask(model, name));
  },
};
