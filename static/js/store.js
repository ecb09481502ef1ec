// What waits on this phone: one entry an answer, so two pages never write over each other.
// An item is {key, url, fields: [[name, value], …], person, at}.
const PREFIX = "outbox:";

export function newKey() {
  // crypto.randomUUID needs https; a site network may have none.
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// False where the browser keeps nothing (private windows, full storage).
export function keep(item) {
  try {
    localStorage.setItem(PREFIX + item.key, JSON.stringify(item));
    return true;
  } catch {
    return false;
  }
}

export function drop(key) {
  localStorage.removeItem(PREFIX + key);
}

// The items of one person, oldest first. Another person's stay where they are.
export function waiting(person) {
  const items = [];
  try {
    for (let i = 0; i < localStorage.length; i += 1) {
      const name = localStorage.key(i);
      if (name.startsWith(PREFIX)) items.push(JSON.parse(localStorage.getItem(name)));
    }
  } catch {
    return [];
  }
  return items.filter((item) => !person || item.person === person).sort((a, b) => (a.at < b.at ? -1 : 1));
}
