import { remembered } from "./base.js";

// A room in which others said something that this phone has not shown yet is marked.
for (const a of document.querySelectorAll(".rooms a[data-newest]")) {
  if (Number(a.dataset.newest) <= remembered("read:" + a.dataset.room, 0)) continue;
  const mark = document.createElement("span");
  mark.className = "new";
  mark.textContent = "new";
  a.append(" ", mark);
}

// Leaving takes what this phone keeps of the rooms with it, but not the name.
document.getElementById("leave").addEventListener("submit", () => {
  const name = remembered("name", "");
  try {
    localStorage.clear();
    if (name) localStorage.setItem("fettle:name", JSON.stringify(name));
  } catch {
    // nothing was kept, then
  }
  if ("caches" in window) caches.keys().then((all) => all.forEach((c) => caches.delete(c)));
});
