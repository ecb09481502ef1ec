// Every page works without this. With it: answers are made on the drawing and wait on the phone
// until the server has taken them.
import { startForms } from "./answer.js";
import { startOutbox } from "./outbox.js";
import { startParts } from "./parts.js";
import { startPlace } from "./place.js";
import { startNumbers } from "./numbers.js";
import { startSteps } from "./steps.js";
import { startSection } from "./section.js";
import { startInstallation } from "./installation.js";

for (const form of document.querySelectorAll("form[data-outbox]")) {
  startPlace(form);
  startParts(form);
  startNumbers(form);
  startSteps(form);
}
startSection();
startInstallation();
startForms();
startOutbox();

// A page brought back by the back button may show a form that was already sent.
addEventListener("pageshow", (event) => {
  if (event.persisted && document.querySelector("form[data-outbox]")) location.reload();
});
