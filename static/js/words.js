// Lengths as the worker reads them, worded exactly as the server words them.
const MM_PER_INCH = 25.4;
const WHOLE_FROM_MM = 100; // from here on nobody on a roof reads tenths
const EIGHTHS = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];

export function sayLength(mm, unit = document.documentElement.dataset.length) {
  return unit === "in" ? inches(mm) : `${plain(mm)} mm`;
}

function plain(mm) {
  const parts = Math.abs(mm) >= WHOLE_FROM_MM ? 1 : 10;
  return String(Math.round(mm * parts) / parts + 0).replace("-", "−");
}

function inches(mm) {
  const eighths = Math.round((Math.abs(mm) / MM_PER_INCH) * 8);
  const sign = mm < 0 && eighths ? "−" : "";
  const whole = Math.trunc(eighths / 8);
  if (whole < 48) return `${sign}${mixed(whole, eighths % 8)} in`;
  const rest = whole % 12 || eighths % 8 ? ` ${mixed(whole % 12, eighths % 8)} in` : "";
  return `${sign}${Math.trunc(whole / 12)} ft${rest}`;
}

function mixed(whole, eighths) {
  if (!eighths) return String(whole);
  return whole ? `${whole} ${EIGHTHS[eighths]}` : EIGHTHS[eighths];
}
