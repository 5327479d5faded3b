// What every page needs: that scripts run is known to the style sheet, and the shell is kept for
// when there is no network. A browser keeps it only over https or on the machine itself.
document.documentElement.classList.add("scripted");

if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/sw.js").catch(() => {});
}

// A phone's storage may be full or forbidden; then it remembers for as long as the page is open.
const meanwhile = new Map();

export function remembered(name, otherwise) {
  try {
    const text = localStorage.getItem("fettle:" + name);
    return text === null ? meanwhile.get(name) ?? otherwise : JSON.parse(text);
  } catch {
    return meanwhile.get(name) ?? otherwise;
  }
}

// remember says whether it will still be there when the page is closed.
export function remember(name, value) {
  meanwhile.set(name, value);
  try {
    localStorage.setItem("fettle:" + name, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

// newKey names a message for ever. It works without https, which randomUUID does not.
export function newKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
}

export const room = document.body.dataset.room;
