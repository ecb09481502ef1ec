// One answer to the server. Says what became of it:
//   {became: "taken", location} · {became: "refused", message, field} · {became: "signed-out"} · {became: "kept"}
const PATIENCE_MS = 15000;

export async function send(item, mayRenew = true) {
  let response;
  try {
    response = await post(item);
  } catch {
    return { became: "kept" };
  }
  if (response.type === "opaqueredirect" || response.status === 401) return { became: "signed-out" };
  const body = await readJson(response);
  if (response.ok && body?.location) return { became: "taken", location: body.location };
  if (response.status === 400 && mayRenew && (await renewToken())) return send(item, false);
  if (response.status === 400 || response.status === 429 || response.status >= 500 || response.ok) return { became: "kept" };
  return { became: "refused", message: body?.message ?? "", field: body?.field ?? "" };
}

async function post(item) {
  const patience = new AbortController();
  const bell = setTimeout(() => patience.abort(), PATIENCE_MS);
  const body = new URLSearchParams(item.fields);
  try {
    return await fetch(item.url, {
      method: "POST",
      body,
      headers: { Accept: "application/json", "X-CSRFToken": token().content },
      credentials: "same-origin",
      redirect: "manual",
      signal: patience.signal,
    });
  } finally {
    clearTimeout(bell);
  }
}

async function readJson(response) {
  try {
    return await response.json();
  } catch {
    return null;
  }
}

const token = () => document.querySelector('meta[name="csrf-token"]');

// A page left open for long holds an old token; a fresh page has a fresh one, if still signed in.
async function renewToken() {
  try {
    const page = await (await fetch(location.href, { credentials: "same-origin" })).text();
    const fresh = new DOMParser().parseFromString(page, "text/html").querySelector('meta[name="csrf-token"]');
    if (!fresh) return false;
    token().content = fresh.content;
    return true;
  } catch {
    return false;
  }
}
