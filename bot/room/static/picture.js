// A drawing over the whole page: larger with two fingers, with the buttons, or with + and −.
const dialog = document.getElementById("picture");
const pane = dialog.querySelector(".pane");
const img = document.getElementById("picture-img");
let scale = 1;

export function enlarge(link) {
  const small = link.querySelector("img");
  img.src = link.href;
  img.alt = small.alt;
  document.getElementById("picture-open").href = link.href;
  zoom(1 / scale);
  dialog.showModal();
}

function zoom(by, x = pane.clientWidth / 2, y = pane.clientHeight / 2) {
  const next = Math.min(8, Math.max(1, scale * by));
  const factor = next / scale;
  const left = (pane.scrollLeft + x) * factor - x, top = (pane.scrollTop + y) * factor - y;
  scale = next;
  img.style.width = scale * 100 + "%";
  pane.scrollTo(left, top);
}

let apart = 0;
const spread = (touches) => Math.hypot(touches[0].clientX - touches[1].clientX, touches[0].clientY - touches[1].clientY);
pane.addEventListener("touchstart", (event) => {
  if (event.touches.length === 2) apart = spread(event.touches);
}, { passive: true });
pane.addEventListener("touchmove", (event) => {
  if (event.touches.length !== 2 || !apart) return;
  event.preventDefault();
  const now = spread(event.touches), box = pane.getBoundingClientRect();
  zoom(now / apart, (event.touches[0].clientX + event.touches[1].clientX) / 2 - box.left, (event.touches[0].clientY + event.touches[1].clientY) / 2 - box.top);
  apart = now;
}, { passive: false });
dialog.addEventListener("keydown", (event) => {
  if (event.key === "+" || event.key === "=") zoom(1.4);
  if (event.key === "-") zoom(1 / 1.4);
});
for (const b of dialog.querySelectorAll("[data-zoom]")) b.addEventListener("click", () => zoom(Number(b.dataset.zoom)));
document.getElementById("picture-close").addEventListener("click", () => dialog.close());
