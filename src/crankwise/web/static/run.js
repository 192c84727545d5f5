// The run page: one tap, kept by the server, then the next position painted in place.
// Nothing is shown as done before the server has said so. A tap keeps its name through every retry.

const panel = document.getElementById("panel");
const said = document.getElementById("said");
const line = document.getElementById("line");
const address = panel.dataset.address;

const SETTLE_MS = 700; // shorter than any physical move: a second touch of a trembling finger is no tap
const LOOK_MS = 3000;
const PATIENCE_MS = 8000;
const RETRY_MS = [500, 1000, 2000, 4000];

let mark = panel.dataset.mark;
let waiting = false;
let settled = 0;

document.documentElement.classList.add("scripted");

function tellLine(sentence) {
  line.hidden = !sentence;
  if (line.textContent !== sentence) line.textContent = sentence;
}

function paint(html, newMark) {
  const hadFocus = panel.contains(document.activeElement);
  const before = panel.querySelector("#position")?.textContent;
  panel.innerHTML = html;
  mark = newMark ?? "";
  const now = panel.querySelector("#position")?.textContent;
  const words = panel.querySelector("#say")?.textContent ?? panel.querySelector("h2")?.textContent ?? "";
  if (said.textContent !== words) said.textContent = words;
  if (before !== now) settle();
  if (hadFocus) (panel.querySelector("#done") ?? panel.querySelector("button, a"))?.focus({ preventScroll: true });
}

function settle() {
  settled = performance.now() + SETTLE_MS;
  panel.classList.add("is-settling");
  setTimeout(() => panel.classList.remove("is-settling"), SETTLE_MS);
}

function ask(url, options) {
  return fetch(url, {
    cache: "no-store",
    credentials: "same-origin",
    redirect: "error",
    signal: AbortSignal.timeout(PATIENCE_MS),
    ...options,
    headers: { "X-Fragment": "1", Accept: "text/html", ...options.headers },
  });
}

const pause = (ms) => new Promise((resume) => setTimeout(resume, ms));

async function send(form) {
  const body = new URLSearchParams(new FormData(form));
  body.set("at", String(Date.now() / 1000));
  waiting = true;
  panel.classList.add("is-waiting");
  for (let attempt = 0; ; attempt += 1) {
    try {
      const answer = await ask(form.action, { method: "POST", body });
      if (answer.status < 500 || answer.status === 501) {
        const html = await answer.text();
        if (answer.ok) {
          paint(html, answer.headers.get("ETag"));
          tellLine("");
        } else {
          tellLine(new DOMParser().parseFromString(html, "text/html").body.textContent.trim());
        }
        break;
      }
      const words = new DOMParser().parseFromString(await answer.text(), "text/html").body.textContent.trim();
      tellLine(`This tap is not kept yet, trying again: ${words}`);
    } catch {
      tellLine("No answer. This tap is not kept yet; trying again.");
    }
    await pause(RETRY_MS[Math.min(attempt, RETRY_MS.length - 1)]);
  }
  waiting = false;
  panel.classList.remove("is-waiting");
}

async function look() {
  if (waiting || document.hidden) return;
  try {
    const answer = await ask(address, { headers: mark ? { "If-None-Match": mark } : {} });
    if (waiting) return;
    if (answer.status === 200) paint(await answer.text(), answer.headers.get("ETag"));
    if (answer.status === 200 || answer.status === 304) tellLine("");
  } catch {
    if (!waiting) tellLine("No connection: what is shown may be old.");
  }
}

panel.addEventListener("submit", (event) => {
  const form = event.target.closest("form.tap");
  if (!form) return;
  event.preventDefault();
  if (waiting || performance.now() < settled) return;
  send(form);
});

document.addEventListener("visibilitychange", look);
window.addEventListener("pageshow", look);
setInterval(look, LOOK_MS);
