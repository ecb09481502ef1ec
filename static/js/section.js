// The parapet section: the layer that was tapped and the unit it leads to show each other.
export function startSection() {
  const section = document.querySelector(".way-in .plate");
  if (!section) return;
  const show = () => {
    const unit = location.hash.replace("#unit-", "");
    for (const part of section.querySelectorAll("[data-part]")) part.classList.toggle("is-chosen", part.dataset.part === unit);
  };
  addEventListener("hashchange", show);
  show();
}
