import { remembered } from "./base.js";

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
