// Sends what waits: when a page opens, when signal is back, when the page is looked at again.
import { send } from "./send.js";
import { drop, waiting } from "./store.js";

const AGAIN_MS = 20000;
const underWay = new Map();
let bell = 0;

const line = () => document.getElementById("waiting");
export const person = () => document.querySelector('meta[name="person"]')?.content ?? "";

// Sends one item; several calls for the same key share one journey.
export function deliver(item) {
  if (!underWay.has(item.key)) {
    const journey = send(item).then((result) => {
      underWay.delete(item.key);
      if (result.became === "taken" || result.became === "refused") drop(item.key);
      else later();
      return result;
    });
    underWay.set(item.key, journey);
  }
  return underWay.get(item.key);
}

export function startOutbox() {
  addEventListener("online", flush);
  document.addEventListener("visibilitychange", () => document.hidden || flush());
  flush();
}

function later() {
  clearTimeout(bell);
  bell = setTimeout(flush, AGAIN_MS);
}

async function flush() {
  if (!person()) {
    if (waiting("").length) say(line().dataset.signIn);
    return;
  }
  for (const item of waiting(person())) {
    const result = await deliver(item);
    if (!tell(result, item)) return;
  }
}

// Says what became of an item that waited; false when there is no sense in sending the next.
function tell(result, item) {
  const here = formFor(item);
  if (result.became === "taken" && here) {
    location.assign(result.location);
    return false;
  }
  if (result.became === "taken") say(line().dataset.sent, result.location, line().dataset.see);
  if (result.became === "refused" && here) here.dispatchEvent(new CustomEvent("refused", { detail: result }));
  else if (result.became === "refused") say(`${line().dataset.refused} ${result.message}`, item.url, line().dataset.see);
  if (result.became === "signed-out") sayToSignIn();
  if (result.became === "kept") say(line().dataset.kept);
  return result.became === "taken" || result.became === "refused";
}

function formFor(item) {
  return [...document.querySelectorAll("form[data-outbox]")].find((form) => form.getAttribute("action") === item.url);
}

export function sayToSignIn() {
  const back = encodeURIComponent(location.pathname);
  say(line().dataset.signIn, `${line().dataset.signInPath}?next=${back}`, line().dataset.signInWord);
}

export function sayKept() {
  say(line().dataset.kept);
}

function say(words, link = "", linkWords = "") {
  line().replaceChildren(words);
  if (link) {
    const onwards = Object.assign(document.createElement("a"), { href: link, textContent: linkWords });
    line().append(" ", onwards);
  }
  line().scrollIntoView({ block: "nearest" });
}
