// An answer goes into the outbox first and from there to the server, once.
import { deliver, person, sayKept, sayToSignIn } from "./outbox.js";
import { keep, newKey } from "./store.js";

export function startForms() {
  for (const form of document.querySelectorAll("form[data-outbox]")) {
    form.addEventListener("submit", (event) => answer(event, form));
    form.addEventListener("refused", (event) => refused(form, event.detail));
  }
}

async function answer(event, form) {
  if (form.dataset.sent) return event.preventDefault(); // a second tap
  form.elements.key.value = newKey();
  form.elements.phone_at.value = phoneClock();
  const item = {
    key: form.elements.key.value,
    url: form.getAttribute("action"),
    fields: [...new FormData(form)].filter(([name]) => name !== "csrf_token"),
    person: person(),
    at: form.elements.phone_at.value,
  };
  form.dataset.sent = item.key;
  if (!keep(item)) return undefined; // nothing is kept here: let the form go the plain way
  event.preventDefault();
  shut(form, true);
  return settle(form, await deliver(item));
}

function settle(form, result) {
  if (result.became === "taken") return location.assign(result.location);
  if (result.became === "signed-out") return sayToSignIn();
  if (result.became === "kept") return sayKept();
  return refused(form, result);
}

function refused(form, result) {
  delete form.dataset.sent;
  shut(form, false);
  const problem = form.querySelector(".problem");
  problem.textContent = result.message;
  fieldOf(form, result.field)?.setAttribute("aria-invalid", "true");
  problem.scrollIntoView({ block: "center" });
}

// The field that cannot be taken, by its name; where the form has none of that name, its only one.
function fieldOf(form, name) {
  const typed = [...form.querySelectorAll('input:not([type="hidden"])')];
  return typed.find((field) => field.name === name) ?? form.querySelector('[name="value"], [name="time"]');
}

function shut(form, closed) {
  form.querySelector('button[type="submit"]').disabled = closed;
}

// The phone's own clock with its distance from UTC, as ISO 8601 writes it.
function phoneClock(now = new Date()) {
  const minutes = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + minutes * 60000).toISOString().slice(0, 19);
  const two = (n) => String(Math.abs(n)).padStart(2, "0");
  return `${local}${minutes < 0 ? "-" : "+"}${two(Math.trunc(minutes / 60))}:${two(minutes % 60)}`;
}
