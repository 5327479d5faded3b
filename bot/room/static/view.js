import { room } from "./base.js";
import { connect } from "./live.js";
import { queue } from "./queue.js";
import { setClock, tick } from "./timers.js";

const view = document.getElementById("view");

document.addEventListener("click", (event) => {
  if (event.target.id === "print") print();
});

// What is ticked here is said in the chat, by the same way as if it were typed there.
const state = document.getElementById("state");
const out = () => location.assign("/?to=" + encodeURIComponent(location.pathname));
const q = queue({
  changed: (all) => {
    const refused = all.find((m) => m.refused);
    state.hidden = !all.length;
    state.textContent = refused ? refused.refused : all.length ? "Sending …" : "";
  },
  out,
});
view.addEventListener("submit", (event) => {
  event.preventDefault();
  event.submitter.disabled = true;
  q.add({ text: event.submitter.value, ask: true });
});

// The page is made anew when something was said, in place, so that nobody loses their spot.
let busy = false, again = false;
async function anew() {
  if (busy) {
    again = true;
    return;
  }
  busy = true;
  try {
    const reply = await fetch(location.href, { headers: { Accept: "text/html" } });
    if (reply.ok && !reply.redirected) {
      const fresh = new DOMParser().parseFromString(await reply.text(), "text/html").getElementById("view");
      if (fresh) view.innerHTML = fresh.innerHTML;
      tick();
    }
  } catch {
    // the connection tells when it is worth another try
  }
  busy = false;
  if (again) {
    again = false;
    anew();
  }
}

connect(Number(document.body.dataset.last), {
  news: (n) => {
    setClock(n.now);
    document.getElementById("here").textContent = n.here.length ? n.here.join(" · ") + " here" : "";
    if (n.items.length || n.anew) anew();
  },
  state: (s) => s === "out" && out(),
});
