import { remember, remembered } from "./base.js";

const name = document.getElementById("name");
const code = document.getElementById("code");
if (!name.value) name.value = remembered("name", "");
const given = new URLSearchParams(location.hash.slice(1)).get("code");
if (given) {
  code.value = given;
  history.replaceState(null, "", location.pathname + location.search); // it is nobody's business
}
(name.value ? code : name).focus();
document.querySelector("form").addEventListener("submit", () => remember("name", name.value.trim()));
