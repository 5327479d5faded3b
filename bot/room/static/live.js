// The connection to the room: open again whenever it breaks, and from where it broke.
import { room } from "./base.js";

const silence = 50000; // ms without a word, after which the line counts as dead
const first = 400, most = 8000; // ms between two attempts

// connect calls news with what is new, and state with "live", "away" or "out".
export function connect(after, { news, state }) {
  let socket, wait = first, timer, watch, over = false;

  const open = () => {
    clearTimeout(timer);
    const at = new URL(`/room/${room}/live?after=${after}`, location.href);
    at.protocol = at.protocol.replace("http", "ws");
    socket = new WebSocket(at);
    const mine = socket;
    alive();
    mine.onmessage = (event) => {
      if (mine !== socket) return;
      alive();
      wait = first;
      state("live");
      const n = JSON.parse(event.data);
      after = Math.max(after, n.last);
      news(n);
    };
    mine.onclose = (event) => {
      if (mine !== socket || over) return;
      clearTimeout(watch);
      if (event.code === 4001) return end();
      again();
    };
  };

  const again = () => {
    state("away");
    timer = setTimeout(look, wait * (0.7 + Math.random() * 0.6));
    wait = Math.min(wait * 1.7, most);
  };

  // A refused connection doesn't say why: ask whether we are still in.
  const look = async () => {
    try {
      const reply = await fetch(`/room/${room}/earlier?before=1`, { signal: AbortSignal.timeout(8000) });
      if (reply.status === 401) return end();
      open();
    } catch {
      again();
    }
  };

  const end = () => {
    over = true;
    state("out");
  };

  const alive = () => {
    clearTimeout(watch);
    watch = setTimeout(drop, silence);
  };

  const drop = () => {
    const old = socket;
    socket = null;
    old?.close();
    again();
  };

  const hurry = () => {
    if (over || document.hidden || socket?.readyState === WebSocket.OPEN) return;
    wait = first;
    clearTimeout(timer);
    look();
  };
  addEventListener("online", hurry);
  document.addEventListener("visibilitychange", hurry);
  open();
}
