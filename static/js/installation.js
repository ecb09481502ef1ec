// A part of the drawing that is tapped leads to its place; the list of places does the same without.
export function startInstallation() {
  const drawn = document.querySelector("[data-go]");
  if (!drawn) return;
  for (const part of drawn.querySelectorAll(".part[data-part]")) {
    part.addEventListener("click", () => go(drawn, part));
    part.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      go(drawn, part);
    });
  }
}

function go(drawn, part) {
  const place = encodeURIComponent(part.dataset.part);
  location.assign(`${drawn.dataset.go}${place}#here`);
}
