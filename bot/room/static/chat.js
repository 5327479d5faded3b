import { remember, remembered, room } from "./base.js";
import { connect } from "./live.js";
import { queue } from "./queue.js";
import { asAddress, smaller } from "./photo.js";
import { offer } from "./sheet.js";
import { enlarge } from "./picture.js";
import { setClock, tick } from "./timers.js";

const page = document.body.dataset;
const main = document.querySelector("main");
const talk = document.getElementById("talk");
const waiting = document.getElementById("waiting");
const text = document.getElementById("text");
const form = document.getElementById("say");
const stateLine = document.getElementById("state");
const down = document.getElementById("down");
const chips = document.getElementById("chips");
const latest = page.before === "0"; // else an old page is shown
let last = Number(page.last);

// ---- what was said

const atEnd = () => main.scrollHeight - main.scrollTop - main.clientHeight < 120;

function toEnd() {
  main.scrollTop = main.scrollHeight;
  down.hidden = true;
}

function articleOf(html) {
  const t = document.createElement("template");
  t.innerHTML = html;
  return t.content.querySelector("article");
}

// What comes for a message while it is being changed here is held back until that is over.
const held = new Map();

function release(slot) {
  const p = held.get(slot);
  held.delete(slot);
  if (p) put(p);
}

talk.addEventListener("toggle", (event) => {
  const article = event.target.closest("article");
  if (!event.target.open && article) release(Number(article.dataset.slot));
}, true);

// put shows a piece where it belongs: in the place of what stands under its slot, else in order.
function put(piece) {
  const { slot, html } = piece;
  const article = articleOf(html);
  const old = document.getElementById("e" + slot);
  if (old?.querySelector(".mend[open]")) return void held.set(slot, piece);
  if (article.dataset.key) waiting.querySelector(`[data-key="${CSS.escape(article.dataset.key)}"]`)?.remove();
  if (old) {
    if (old.querySelector("details:not(.mend)")?.open) article.querySelector("details:not(.mend)")?.setAttribute("open", "");
    const on = old.contains(document.activeElement) && document.activeElement.closest("form, a, summary");
    const place = on ? [...old.querySelectorAll("form, a, summary")].indexOf(on) : -1;
    old.replaceWith(article);
    const again = article.querySelectorAll("form, a, summary")[place];
    (again?.querySelector("button") ?? again)?.focus({ preventScroll: true }); // whoever works with keys stays where they were
    return;
  }
  article.classList.add("fresh");
  const after = [...talk.querySelectorAll("article")].find((a) => Number(a.dataset.slot) > slot);
  talk.insertBefore(article, after ?? null);
  if (article.dataset.kind) chipFirst(article.dataset.kind, article.dataset.ask);
}

// days puts the day before what was said on it.
function days() {
  for (const h of talk.querySelectorAll(".day")) h.remove();
  let day = "";
  for (const a of talk.querySelectorAll("article")) {
    if (a.dataset.day === day) continue;
    day = a.dataset.day;
    const h = document.createElement("h2");
    h.className = "day";
    h.textContent = day;
    talk.insertBefore(h, a);
  }
}

// ---- what is unread

const readName = "read:" + room;
const isNews = (a, since) => Number(a.dataset.slot) > since && !a.classList.contains("mine") && !a.classList.contains("opens");

function markUnread() {
  const since = remembered(readName, 0);
  const first = since && [...talk.querySelectorAll("article")].find((a) => isNews(a, since));
  if (!first) return null;
  const mark = document.createElement("p");
  mark.className = "unread";
  mark.textContent = "New since you were here";
  talk.insertBefore(mark, first);
  return mark;
}

function nowRead() {
  if (document.hidden || !latest || !atEnd()) return;
  remember(readName, Math.max(last, remembered(readName, 0)));
  document.title = document.title.replace(/^\(\d+\) /, "");
}

function countUnread() {
  const since = remembered(readName, 0);
  const n = [...talk.querySelectorAll("article")].filter((a) => isNews(a, since)).length;
  document.title = (n && (document.hidden || !atEnd()) ? `(${n}) ` : "") + document.title.replace(/^\(\d+\) /, "");
}

// ---- earlier talk

let next = Number(page.next), fetching = false;
const earlier = document.getElementById("earlier");

async function more() {
  if (fetching || !next) return;
  fetching = true;
  try {
    const reply = await fetch(`/room/${room}/earlier?before=${next}`, { headers: { Accept: "application/json" } });
    if (!reply.ok) return;
    const got = await reply.json();
    const height = main.scrollHeight - main.scrollTop;
    for (const p of got.items) if (!document.getElementById("e" + p.slot)) put(p);
    for (const a of talk.querySelectorAll(".fresh")) a.classList.remove("fresh");
    days();
    main.scrollTop = main.scrollHeight - height;
    next = got.next;
    if (!next) earlier.parentElement.remove();
  } catch {
    // it is asked for again when somebody scrolls up again
  } finally {
    fetching = false;
  }
}

if (earlier && latest) {
  const nearTop = () => main.scrollTop < 300 && more();
  main.addEventListener("scroll", nearTop, { passive: true });
  earlier.addEventListener("click", (event) => {
    event.preventDefault();
    more();
  });
}

// ---- what is being said

function state(words, bad) {
  stateLine.hidden = !words;
  stateLine.classList.toggle("bad", Boolean(bad));
  if (stateLine.textContent !== words) stateLine.textContent = words;
}

function letOut() {
  state("You are not in the room any more. ", true);
  const link = document.createElement("a");
  link.href = "/?to=/room/" + room;
  link.textContent = "Come in by the code";
  stateLine.append(link);
  toEnd();
}

function bubble(m) {
  const a = document.createElement("article");
  a.className = "said mine pending";
  a.dataset.key = m.key;
  const p = document.createElement("p");
  p.className = "words";
  p.textContent = m.text;
  if (m.photo) {
    const img = document.createElement("img");
    img.src = m.photo;
    img.alt = "Your photo";
    const frame = document.createElement("div");
    frame.className = "photograph";
    frame.append(img);
    a.append(frame);
  }
  if (m.list) {
    const file = document.createElement("p");
    file.className = "file";
    file.textContent = m.list.name;
    a.append(file);
  }
  const note = document.createElement("small");
  a.append(p, note);
  return a;
}

function showWaiting(all) {
  const bottom = atEnd();
  for (const m of all) {
    let a = waiting.querySelector(`[data-key="${CSS.escape(m.key)}"]`);
    if (!a) waiting.append(a = bubble(m));
    const note = a.querySelector("small");
    if (!m.refused) {
      note.textContent = away ? "waits for the network" : "";
      continue;
    }
    note.textContent = m.refused + " ";
    for (const [label, act] of [["Try again", q.retry], ["Remove", q.drop]]) {
      const b = document.createElement("button");
      b.type = "button";
      b.textContent = label;
      b.addEventListener("click", () => act(m.key));
      note.append(b, " ");
    }
  }
  // What is with the room stays until the room shows it; what was removed by hand goes at once.
  for (const a of waiting.children) {
    const m = all.find((m) => m.key === a.dataset.key);
    if (!m && a.querySelector("button")) a.remove();
    else if (!m && !a.dataset.sent) {
      a.dataset.sent = "yes";
      a.querySelector("small").textContent = "";
      setTimeout(() => a.remove(), 4000);
    }
  }
  if (bottom) toEnd();
}

let away = false;
const q = queue({ changed: (all) => showWaiting(all), out: letOut });

function say(words, more = {}) {
  if (!words.trim() && !more.photo && !more.list) return;
  const kept = q.add({ text: words.trim(), ...more });
  if (!kept) state("This phone has no room to keep that if the page is closed before it is sent.", true);
  toEnd();
}

const fit = () => {
  text.style.height = "auto";
  text.style.height = Math.min(text.scrollHeight + 4, innerHeight * 0.3) + "px";
};

form.addEventListener("submit", (event) => {
  event.preventDefault();
  say(text.value);
  text.value = "";
  remember("draft:" + room, "");
  fit();
  text.focus();
});
text.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && !event.shiftKey && !event.isComposing) {
    event.preventDefault();
    form.requestSubmit();
  }
});
text.addEventListener("input", () => {
  remember("draft:" + room, text.value);
  fit();
});
text.value ||= remembered("draft:" + room, ""); // what was typed before this ran stays
if (text.value) fit();

document.getElementById("photo").addEventListener("change", async (event) => {
  const file = event.target.files[0];
  event.target.value = "";
  if (!file) return;
  const list = /\.(csv|tsv|txt|html?)$/i.test(file.name);
  if (list && file.size > 1 << 20) return state("That list is larger than 1 MiB.", true);
  try {
    say(text.value, list ? { list: { name: file.name, data: await asAddress(file) } } : { photo: await smaller(file) });
    text.value = "";
    remember("draft:" + room, "");
  } catch {
    state("That is no photo and no list that this phone can read.", true);
  }
});

// ---- asking again

function chipFirst(kind, ask) {
  let b = [...chips.children].find((b) => b.dataset.kind === kind);
  if (!b) {
    b = document.createElement("button");
    b.type = "button";
    b.textContent = b.dataset.kind = kind;
    if (chips.children.length >= 6) chips.lastElementChild.remove();
  }
  b.dataset.ask = ask;
  chips.prepend(b);
}

document.addEventListener("click", (event) => {
  const ask = event.target.closest("button[data-ask]");
  if (ask) return offer(ask.dataset.kind, ask.dataset.ask, (words) => say(words, { ask: true }));
  const drawn = event.target.closest("a.drawing");
  if (drawn && !event.metaKey && !event.ctrlKey) {
    event.preventDefault();
    enlarge(drawn);
  }
});

talk.addEventListener("submit", async (event) => {
  event.preventDefault();
  const f = event.target, by = event.submitter;
  if (!f.closest(".mend")) { // a choice, or what was not answered is asked
    for (const b of f.querySelectorAll("button")) b.disabled = true;
    if (f.classList.contains("unheard")) f.remove();
    return say(by.value, { ask: true });
  }
  const body = new FormData(f, by);
  try {
    const reply = await fetch(f.action, { method: "POST", body, headers: { Accept: "application/json" }, signal: AbortSignal.timeout(15000) });
    if (reply.status === 401) return letOut();
    if (!reply.ok) return state((await reply.json()).error, true);
    state("");
    f.closest("details").open = false;
    document.activeElement?.blur();
  } catch {
    state("There is no network. The message stays as it was; try again.", true);
  }
});

// ---- the connection

let inClamps = "";

function news(n) {
  setClock(n.now);
  if (n.anew || (n.build !== page.build && !text.value && !q.all().length)) return location.reload();
  document.getElementById("here").textContent = n.here.length ? n.here.join(" · ") + " here" : "";
  if (inClamps !== n.clamps) {
    document.getElementById("clamps").innerHTML = inClamps = n.clamps;
    tick();
  }
  if (n.items.length) {
    const bottom = atEnd();
    last = Math.max(last, n.last);
    for (const p of n.items) put(p);
    days();
    if (bottom) toEnd();
    else down.hidden = false;
  }
  last = Math.max(last, n.last);
  nowRead();
  countUnread();
  q.send();
}

if (latest) {
  connect(last, {
    news,
    state: (s) => {
      if (s === "out") return letOut();
      const was = away;
      away = s === "away";
      if (away) state("No connection. What you write is kept and sent when it is back.", true);
      else if (was) state("");
      if (was !== away) showWaiting(q.all());
    },
  });
}

down.addEventListener("click", toEnd);
main.addEventListener("scroll", () => {
  if (atEnd()) down.hidden = true;
  nowRead();
}, { passive: true });
document.addEventListener("visibilitychange", nowRead);
// The keyboard of a phone makes the page shorter; what was at the end stays there.
let wasAtEnd = true;
main.addEventListener("scroll", () => { wasAtEnd = atEnd(); }, { passive: true });
new ResizeObserver(() => { if (wasAtEnd) toEnd(); }).observe(main);

const mark = latest && markUnread();
if (mark) mark.scrollIntoView({ block: "start" });
else if (latest) toEnd();
if (latest) {
  showWaiting(q.all());
  nowRead();
  q.send();
}
