// Files out and in: Python makes the bytes that are saved; an opened file is read here and sent there.
import { freshId, make, outbox, say } from "./dom.js";

const megabytes = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;

function hand_over({ name, mime }, buffers) {
  const url = URL.createObjectURL(new Blob(buffers, { type: mime }));
  const link = make("a", { href: url, download: name, hidden: true });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}

export function saveopen(model, el) {
  const box = outbox(model);
  const row = make("div", { class: "rig-files" });
  const error = make("p", { class: "rig-error", role: "alert" });
  const fail = (text) => { error.textContent = text ? `■ ${text}` : ""; };

  const picked = async (input) => {
    const file = input.files[0];
    input.value = "";
    if (!file) return;
    const most = model.get("largest_bytes");
    if (file.size > most) { fail(`${file.name} has ${megabytes(file.size)}; a file of at most ${megabytes(most)} can be opened.`); return; }
    fail("");
    try { box.send({ type: "open", name: file.name }, [await file.arrayBuffer()]); } catch { fail(`${file.name} could not be read.`); }
  };
  const build = () => {
    const saves = model.get("saves").map((label, index) =>
      make("button", { type: "button", on: { click: () => { fail(""); box.send({ type: "save", index }); } } }, label));
    const opens = [];
    if (model.get("open_label")) {
      const id = freshId("file");
      const input = make("input", { id, type: "file", accept: model.get("accept"), class: "rig-unseen", on: { change: () => picked(input) } });
      opens.push(input, make("label", { for: id, class: "rig-button" }, model.get("open_label")));
    }
    row.replaceChildren(...saves, ...opens);
  };
  model.on("msg:custom", (message, buffers) => { if (message?.type === "file") hand_over(message, buffers); });
  model.on("change:error", () => fail(model.get("error")));
  model.on("change:saves change:open_label", build);
  build();
  if (model.get("error")) fail(model.get("error"));
  el.append(row, error);
}
