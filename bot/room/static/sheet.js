// “Ask again”: the words of an earlier question with its numbers as fields, large enough for a
// thumb in a glove.
const sheet = document.getElementById("sheet");
const words = document.getElementById("sheet-words");
const number = /\d+(?:[.,]\d+)?/g;

let asked = () => {};

export function offer(kind, text, ask) {
  asked = ask;
  document.getElementById("sheet-kind").textContent = kind;
  words.replaceChildren();
  let from = 0;
  for (const found of text.matchAll(number)) {
    words.append(text.slice(from, found.index), field(found[0], text.slice(0, found.index)));
    from = found.index + found[0].length;
  }
  words.append(text.slice(from));
  sheet.showModal();
}

function field(value, before) {
  const group = document.createElement("span");
  group.className = "number";
  const input = document.createElement("input");
  input.value = value;
  input.inputMode = "decimal";
  input.setAttribute("aria-label", "Number after “" + (before.trim().split(/\s+/).slice(-3).join(" ") || "the start") + "”");
  input.addEventListener("focus", () => input.select());
  group.append(button("−", -1, input), input, button("+", 1, input));
  return group;
}

function button(sign, way, input) {
  const b = document.createElement("button");
  b.type = "button";
  b.textContent = sign;
  b.setAttribute("aria-label", (way > 0 ? "More" : "Less"));
  b.addEventListener("click", () => {
    const comma = input.value.includes(",");
    const now = Number(input.value.replace(",", "."));
    if (!Number.isFinite(now)) return;
    const step = now >= 100 ? 5 : 1; // what a thumb would type next
    const next = Math.max(0, Math.round((now + way * step) * 1000) / 1000);
    input.value = comma ? String(next).replace(".", ",") : String(next);
  });
  return b;
}

function text() {
  return Array.from(words.childNodes, (n) => (n.nodeType === Node.TEXT_NODE ? n.data : n.querySelector("input").value)).join("");
}

document.getElementById("sheet-no").addEventListener("click", () => sheet.close());
sheet.querySelector("form").addEventListener("submit", () => asked(text()));
