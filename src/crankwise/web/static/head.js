// The drawing of a head follows what is typed. The server draws; this only asks and puts it in place.

const drawing = document.getElementById("drawing");
const PAUSE_MS = 250;
let timer = 0;
let asked = 0;

document.documentElement.classList.add("scripted");

async function draw(form) {
  const mine = ++asked;
  try {
    const answer = await fetch("/heads/drawing", {
      method: "POST",
      body: new URLSearchParams(new FormData(form)),
      headers: { "X-Fragment": "1", Accept: "text/html" },
      credentials: "same-origin",
    });
    const html = await answer.text();
    if (mine === asked && answer.ok) drawing.innerHTML = html;
  } catch {
    // The form still works without the drawing; the next key asks again.
  }
}

for (const form of document.querySelectorAll("#head-form, #file-form")) {
  form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(draw, PAUSE_MS, form);
  });
}

// What was typed before this script was here, or put back by the browser, is drawn too.
for (const form of document.querySelectorAll("#head-form, #file-form")) {
  const typed = [...form.elements].some((field) => "defaultValue" in field && field.value !== field.defaultValue);
  if (typed) draw(form);
}
