// Mark and find: a tap on a part of the drawing ticks its row, and a ticked row shows on the drawing.
export function startParts(form) {
  const kind = form.dataset.kind;
  if (kind !== "mark" && kind !== "find") return;
  const parts = [...document.querySelectorAll(".plate[data-answer] .part[data-part]")];
  const inputs = new Map([...form.querySelectorAll(".row input")].map((input) => [input.value, input]));
  const live = parts.filter((part) => inputs.has(part.dataset.part));
  for (const part of parts) if (!live.includes(part)) rest(part);
  if (!live.length) return;
  form.querySelector(".listed").open = false;
  for (const part of live) listen(part, inputs.get(part.dataset.part));
  const said = form.querySelector("[data-marked]");
  said.hidden = false;
  const show = () => {
    live.forEach((part) => mirror(part, inputs.get(part.dataset.part)));
    tell(said, [...inputs.values()]);
  };
  form.addEventListener("change", show);
  show();
}

// A part that is not among the answers is scenery.
function rest(part) {
  part.classList.remove("part");
  for (const name of ["tabindex", "role", "aria-pressed", "aria-label"]) part.removeAttribute(name);
}

function listen(part, input) {
  const toggle = () => {
    input.checked = input.type === "radio" ? true : !input.checked;
    input.dispatchEvent(new Event("change", { bubbles: true }));
  };
  part.setAttribute("tabindex", "0");
  part.setAttribute("role", "button");
  if (!part.querySelector("title") && !part.hasAttribute("aria-label")) {
    part.setAttribute("aria-label", input.closest("label").textContent.trim());
  }
  part.addEventListener("click", toggle);
  part.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    toggle();
  });
}

function mirror(part, input) {
  part.setAttribute("aria-pressed", String(input.checked));
  part.classList.toggle("is-chosen", input.checked);
}

// What is marked, in the words of the list: a mark on a drawing is easily overlooked in the sun.
function tell(said, inputs) {
  const chosen = inputs.filter((input) => input.checked).map((input) => input.closest("label").textContent.trim());
  said.textContent = chosen.length ? `${said.dataset.marked} ${chosen.join(" ")}` : said.dataset.none;
}
