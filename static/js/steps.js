// Order: steps are carried by their grip or moved by buttons; the form holds their ids in order.
export function startSteps(form) {
  const steps = form.querySelector("[data-steps]");
  if (!steps) return;
  const list = steps.querySelector("ol");
  for (const select of steps.querySelectorAll(".which")) select.remove();
  for (const moves of steps.querySelectorAll(".moves")) moves.hidden = false;
  steps.classList.add("by-hand-on");
  restore(list, form.elements.order.value);
  form.elements.order.disabled = false;
  list.addEventListener("click", (event) => pressed(event, list, form));
  list.addEventListener("pointerdown", (event) => carried(event, list, form));
  written(list, form);
}

function restore(list, order) {
  for (const id of order.split("|").filter(Boolean)) {
    const step = [...list.children].find((entry) => entry.dataset.step === id);
    if (step) list.append(step);
  }
}

function written(list, form) {
  const steps = [...list.children];
  form.elements.order.value = steps.map((step) => step.dataset.step).join("|");
  steps.forEach((step, i) => {
    const [up, down] = step.querySelectorAll("[data-move]");
    up.setAttribute("aria-disabled", String(i === 0));
    down.setAttribute("aria-disabled", String(i === steps.length - 1));
  });
}

function pressed(event, list, form) {
  const button = event.target.closest("[data-move]");
  if (!button) return;
  const step = button.closest(".step");
  const [before, after] = [step.previousElementSibling, step.nextElementSibling];
  if (button.dataset.move === "-1" && before) step.after(before);
  else if (button.dataset.move === "1" && after) step.before(after);
  written(list, form);
}

function carried(event, list, form) {
  const step = event.target.closest(".grip")?.closest(".step");
  if (!step) return;
  event.preventDefault();
  const grip = event.target.closest(".grip");
  grip.setPointerCapture(event.pointerId);
  step.classList.add("carried");
  const follow = (moved) => settle(list, step, moved.clientY);
  const end = () => {
    grip.removeEventListener("pointermove", follow);
    step.classList.remove("carried");
    written(list, form);
  };
  grip.addEventListener("pointermove", follow);
  for (const name of ["pointerup", "pointercancel"]) grip.addEventListener(name, end, { once: true });
}

// Changes places with a neighbour once the finger is past its middle. The neighbour is moved, never the
// step itself: taken out of the page it would lose the finger.
function settle(list, step, y) {
  const middle = (other) => {
    const box = other.getBoundingClientRect();
    return box.top + box.height / 2;
  };
  const [before, after] = [step.previousElementSibling, step.nextElementSibling];
  if (before && y < middle(before)) step.after(before);
  else if (after && y > middle(after)) step.before(after);
}
