// Numbers and times: a step up or down beside the field. Typing stays possible at any moment.
export function startNumbers(form) {
  for (const button of form.querySelectorAll(".entry .by-step")) {
    button.hidden = false;
    button.addEventListener("click", () => (button.dataset.minutes ? shiftTime(form, button) : shiftNumber(form, button)));
  }
}

function shiftNumber(form, button) {
  const field = form.elements.value;
  const step = Number(button.dataset.step);
  const typed = field.value.trim() === "" ? 0 : Number(field.value.trim());
  if (Number.isNaN(typed)) return field.focus(); // "2 3/8" or a comma is the server's to read
  const digits = String(step).split(".")[1]?.length ?? 0;
  field.value = (typed + step).toFixed(digits);
  return undefined;
}

function shiftTime(form, button) {
  const field = form.elements.time;
  const [hours, minutes] = (field.value || field.dataset.start || "12:00").split(":").map(Number);
  const moved = (hours * 60 + minutes + Number(button.dataset.minutes) + 1440) % 1440;
  const two = (n) => String(n).padStart(2, "0");
  field.value = `${two(Math.trunc(moved / 60))}:${two(moved % 60)}`;
}
