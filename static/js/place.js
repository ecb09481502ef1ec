// Place: the movable thing follows a finger, the arrow keys and the nudges; the form holds millimetres.
import { sayLength } from "./words.js";

export function startPlace(form) {
  const thing = document.querySelector(".plate[data-answer] .movable");
  const panel = form.querySelector("[data-place]");
  if (!thing || !panel) return;
  const place = new Place(thing, panel, form);
  panel.hidden = false;
  form.querySelector(".listed").open = false;
  thing.addEventListener("pointerdown", (event) => place.take(event));
  thing.addEventListener("keydown", (event) => place.key(event));
  for (const nudge of panel.querySelectorAll(".nudge")) heldDown(nudge, () => place.step(nudge.dataset.axis, Number(nudge.dataset.sign)));
  form.addEventListener("change", (event) => event.target.name === "row" && place.leave());
  place.show();
}

const ALONG = { x: "↔", y: "↕" };
const ARROWS = { ArrowLeft: ["x", -1], ArrowRight: ["x", 1], ArrowUp: ["y", 1], ArrowDown: ["y", -1] };

class Place {
  constructor(thing, panel, form) {
    Object.assign(this, { thing, panel, form, axes: readAxes(thing) });
    this.still = (thing.getAttribute("transform") ?? "").match(/-?[\d.]+/g)?.map(Number) ?? [0, 0];
  }

  step(letter, sign, times = 1) {
    const axis = this.axes[letter];
    const ahead = (letter === "x" ? sign : -sign) * Math.sign(axis.perPx); // to the right, or up, whichever way it counts
    this.move({ [letter]: axis.value + ahead * times * axis.step });
  }

  key(event) {
    if (!(event.key in ARROWS)) return;
    event.preventDefault();
    const [meant, sign] = ARROWS[event.key];
    const letter = meant in this.axes ? meant : Object.keys(this.axes)[0]; // one axis: every arrow moves along it
    this.step(letter, sign, event.shiftKey ? 10 : 1);
  }

  take(event) {
    event.preventDefault();
    this.thing.focus({ preventScroll: true });
    this.thing.setPointerCapture(event.pointerId);
    this.thing.classList.add("is-held");
    const scale = this.thing.ownerSVGElement.getScreenCTM().a;
    const from = { x: event.clientX, y: event.clientY };
    const start = Object.fromEntries(Object.entries(this.axes).map(([letter, axis]) => [letter, axis.value]));
    const follow = (moved) => {
      const gone = { x: (moved.clientX - from.x) / scale, y: (moved.clientY - from.y) / scale };
      this.move(Object.fromEntries(Object.entries(start).map(([letter, value]) => [letter, value + gone[letter] * this.axes[letter].perPx])));
    };
    this.thing.addEventListener("pointermove", follow);
    for (const end of ["pointerup", "pointercancel"]) {
      this.thing.addEventListener(end, () => this.release(follow), { once: true });
    }
  }

  release(follow) {
    this.thing.removeEventListener("pointermove", follow);
    this.thing.classList.remove("is-held");
  }

  move(values) {
    for (const [letter, value] of Object.entries(values)) {
      const axis = this.axes[letter];
      const stepped = axis.low + Math.round((value - axis.low) / axis.step) * axis.step;
      axis.value = Math.min(axis.high, Math.max(axis.low, stepped));
    }
    for (const row of this.form.querySelectorAll('input[name="row"]')) row.checked = false;
    this.show();
  }

  // With two ways to go, an arrow before each length says which it is.
  said() {
    const both = Object.entries(this.axes).map(([letter, axis]) => `${ALONG[letter]} ${sayLength(axis.value)}`);
    return both.length > 1 ? both.join("  ") : both[0].slice(2);
  }

  // A row was chosen from the list instead: the drawing no longer answers.
  leave() {
    for (const axis of Object.values(this.axes)) axis.value = axis.home;
    this.show();
    for (const letter of Object.keys(this.axes)) this.form.elements[`${letter}_mm`].disabled = true;
    this.panel.querySelector("output").textContent = "–";
  }

  show() {
    for (const [letter, axis] of Object.entries(this.axes)) {
      const field = this.form.elements[`${letter}_mm`];
      field.disabled = false;
      field.value = String(Math.round(axis.value * 100) / 100);
    }
    const said = this.said();
    this.panel.querySelector("output").textContent = said;
    const [first] = Object.values(this.axes);
    if (this.thing.getAttribute("role") === "slider") {
      this.thing.setAttribute("aria-valuenow", String(first.value));
      this.thing.setAttribute("aria-valuetext", said);
    }
    const { x, y } = this.axes;
    const at = (axis, still) => (axis ? axis.zero + axis.value / axis.perPx : still);
    this.thing.setAttribute("transform", `translate(${at(x, this.still[0])} ${at(y, this.still[1] ?? 0)})`);
  }
}

// The attributes of docs/drawings.md: one number an axis, comma between.
function readAxes(thing) {
  const set = thing.dataset;
  const listed = (text) => text.split(",").map(Number);
  const [lows, highs, steps, perPxs, values] = [set.min, set.max, set.step, set.perPx, set.value].map(listed);
  const zeros = { x: Number(set.zeroX), y: Number(set.zeroY) };
  const axis = (letter, i) => ({ low: lows[i], high: highs[i], step: steps[i], perPx: perPxs[i], zero: zeros[letter], value: values[i], home: values[i] });
  return Object.fromEntries([...set.axis].map((letter, i) => [letter, axis(letter, i)]));
}

const FIRST_MS = 400;
const NEXT_MS = 80;

// Once for a tap; again and again while held.
function heldDown(button, act) {
  let bell = 0;
  const stop = () => clearTimeout(bell);
  const again = () => {
    act();
    bell = setTimeout(again, NEXT_MS);
  };
  button.addEventListener("pointerdown", () => {
    stop();
    bell = setTimeout(again, FIRST_MS);
  });
  for (const end of ["pointerup", "pointerleave", "pointercancel"]) button.addEventListener(end, stop);
  button.addEventListener("click", act);
  button.addEventListener("contextmenu", (event) => event.preventDefault());
}
