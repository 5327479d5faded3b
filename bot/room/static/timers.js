// Counts down to every time on the page that has a moment to end at, and calls out when one comes:
// by a sound and, where the phone can, by shaking.
import { remember, remembered } from "./base.js";

// When each end stood on the page last: what comes next takes its place at that very moment, and
// one that was taken away before is not called out.
const seen = new Map();
const called = new Set(remembered("called", []));
let sound;

// A phone lets a page make a sound only after somebody has touched it.
addEventListener("pointerdown", () => {
  sound ??= new AudioContext();
  sound.resume();
}, { passive: true });

export function left(ms) {
  const s = Math.ceil(ms / 1000), h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60;
  const two = (n) => String(n).padStart(2, "0");
  if (h >= 24) return `in ${Math.floor(h / 24)} d ${h % 24} h`;
  return h ? `in ${h} h ${two(m)} min` : `in ${m}:${two(s % 60)}`;
}

// A phone's clock may be wrong; the program's counts.
let ahead = 0;
export function setClock(now) {
  if (now) ahead = now - Date.now();
}
setClock(Number(document.body.dataset.now));

function tick() {
  const now = Date.now() + ahead;
  for (const t of document.querySelectorAll("time[data-ends]")) {
    const ends = Number(t.dataset.ends), rest = ends - now;
    t.dataset.at ??= t.textContent;
    t.textContent = rest > 0 ? `${t.dataset.at}, ${left(rest)}` : `${t.dataset.at}, now`;
    t.classList.toggle("due", rest <= 0);
    seen.set(ends, now);
  }
  for (const [ends, at] of seen) {
    if (ends > now && now - at < 2500) continue;
    seen.delete(ends);
    if (ends <= now && ends > now - 5000 && !called.has(ends)) call(ends);
  }
}

function call(ends) {
  called.add(ends);
  remember("called", [...called].slice(-50));
  navigator.vibrate?.([400, 200, 400, 200, 400]);
  if (sound?.state !== "running") return;
  for (const at of [0, 0.5, 1]) {
    const tone = sound.createOscillator(), volume = sound.createGain();
    tone.frequency.value = 880;
    volume.gain.setValueAtTime(0.4, sound.currentTime + at);
    volume.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + at + 0.4);
    tone.connect(volume).connect(sound.destination);
    tone.start(sound.currentTime + at);
    tone.stop(sound.currentTime + at + 0.4);
  }
}

setInterval(tick, 1000);
tick();
export { tick };
