// What was said on this phone and is not with the room yet. It is kept until the room has it, and
// carries a key by which the room knows a second attempt.
import { newKey, remember, remembered, room } from "./base.js";

const name = "waiting:" + room;
const most = 15000; // ms between two attempts

export function queue({ changed, out }) {
  let busy = false, wait = 500, timer;

  const all = () => remembered(name, []);

  // add says whether it will be there after the page is closed.
  const add = (message) => {
    const kept = remember(name, [...all(), { key: newKey(), at: Date.now(), ...message }]);
    changed(all());
    send();
    return kept;
  };

  const settle = (key, change) => {
    remember(name, all().flatMap((m) => (m.key === key ? change(m) : [m])));
    changed(all());
  };

  const send = async () => {
    clearTimeout(timer);
    if (busy) return;
    const m = all().find((m) => !m.refused);
    if (!m) return;
    busy = true;
    const verdict = await attempt(m);
    busy = false;
    if (verdict === "out") return out();
    if (verdict === "later") {
      timer = setTimeout(send, wait);
      wait = Math.min(wait * 2, most);
      return;
    }
    wait = 500;
    settle(m.key, verdict === "kept" ? () => [] : (m) => [{ ...m, refused: verdict.refused }]);
    send();
  };

  addEventListener("online", () => send());
  return {
    add, send, all,
    drop: (key) => settle(key, () => []),
    retry: (key) => {
      settle(key, (m) => [{ ...m, refused: undefined }]);
      send();
    },
  };
}

async function attempt(m) {
  const body = new FormData();
  body.set("key", m.key);
  body.set("text", m.text);
  body.set("aged", Math.max(0, Date.now() - m.at));
  if (m.ask) body.set("ask", "1");
  if (m.photo) body.set("photo", fetchData(m.photo), "photo.jpg");
  if (m.list) body.set("list", fetchData(m.list.data), m.list.name);
  const to = m.photo ? "photo" : m.list ? "list" : "say";
  try {
    const reply = await fetch(`/room/${room}/${to}`, {
      method: "POST", body, headers: { Accept: "application/json" }, signal: AbortSignal.timeout(to === "say" ? 15000 : 60000),
    });
    if (reply.ok) return "kept";
    if (reply.status === 401) return "out";
    if (reply.status === 422 || reply.status === 413 || reply.status === 404) return { refused: (await reply.json()).error };
    return "later";
  } catch {
    return "later";
  }
}

// fetchData turns a data address back into the picture that it was made of.
function fetchData(address) {
  const [head, data] = address.split(",");
  const bytes = Uint8Array.from(atob(data), (c) => c.charCodeAt(0));
  return new Blob([bytes], { type: head.slice(5, head.indexOf(";")) });
}
