// Hands-free: a foot switch or keys, the setting spoken, a tone, a screen that stays awake. Each has one
// switch, off until it is wanted, kept in this browser. And the guard against a second tap too soon.

const KEPT = "crankwise-hands";
const SWITCHES = {
  keys: "Foot switch or keys: Enter, Space or Page Down is Done; Page Up is Back",
  speak: "Speak each setting",
  confirm: "Say “done” when a tap is kept",
  tone: "A tone at each position, another for a long line",
  awake: "Keep the screen awake",
};
export const SETTLE_MS = 700; // shorter than any physical move: a second touch of a trembling finger is no tap
const MOVE_MS = 2000; // hardly any row is unlocked, moved, locked and cut in less
const DONE_KEYS = ["Enter", " ", "PageDown"];
const BACK_KEYS = ["PageUp"];

function readSwitches() {
  try {
    return JSON.parse(localStorage.getItem(KEPT)) ?? {};
  } catch {
    return {};
  }
}

/** The switches, put into the page at `place`. */
export function handsFree(place) {
  const on = readSwitches();
  const box = document.createElement("details");
  box.className = "hands";
  const summary = document.createElement("summary");
  summary.textContent = "Hands-free";
  box.append(summary);
  const state = document.createElement("p");
  state.className = "small";
  for (const [name, words] of Object.entries(SWITCHES)) {
    const label = document.createElement("label");
    const input = document.createElement("input");
    input.type = "checkbox";
    input.dataset.hands = name;
    input.checked = on[name] === true;
    input.addEventListener("change", () => {
      on[name] = input.checked;
      try {
        localStorage.setItem(KEPT, JSON.stringify(on));
      } catch {
        // It holds for this visit, then.
      }
      if (name === "awake") awake(on.awake, state);
      if (name === "tone" && on.tone) tone(false);
      if (name === "speak" && on.speak) say("Settings are spoken.");
    });
    label.append(input, ` ${words}`);
    box.append(label);
  }
  box.append(state);
  place.append(box);
  if (on.awake) awake(true, state);
  document.addEventListener("visibilitychange", () => on.awake && !document.hidden && awake(true, state));

  document.addEventListener("keydown", (event) => {
    if (!on.keys || event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
    const chosen = DONE_KEYS.includes(event.key) ? "done" : BACK_KEYS.includes(event.key) ? "back" : "";
    // Where something is typed a key is a letter; on another button or link Enter and Space mean that one.
    const isPageKey = event.key.startsWith("Page");
    const own = isPageKey ? "input:not([type=checkbox]), textarea, select" : "input, textarea, select, summary, a, button:not(#done)";
    if (!chosen || event.target.closest?.(own)) return;
    const button = document.querySelector(chosen === "done" ? "#done" : ".back-button");
    if (!button) return;
    event.preventDefault();
    button.click();
  });

  return {
    /** A position has come. */
    came(sentence, isLong) {
      if (on.tone) tone(isLong);
      if (on.speak && sentence) say(sentence, on.confirm);
    },
    /** At the same position something else is asked, or nothing any more. */
    told(sentence) {
      if (on.speak && sentence) say(sentence, on.confirm);
    },
    /** A tap is kept. */
    kept() {
      if (on.confirm) say("Done.");
    },
  };
}

/** What the panel asks before the work at a position; empty where nothing is. */
export const askedIn = (panel) => panel.querySelector(".is-asking .attend .large")?.textContent ?? "";

function say(sentence, queue = false) {
  const voice = window.speechSynthesis;
  if (!voice) return;
  if (!queue) voice.cancel();
  const words = new SpeechSynthesisUtterance(sentence);
  words.lang = "en";
  voice.speak(words);
}

let sound;
function tone(isLong) {
  try {
    sound ??= new AudioContext();
    sound.resume();
    // One high note; for a long line two low ones, which also a half-deaf ear tells apart.
    for (const [begins, pitch] of isLong ? [[0, 330], [0.22, 330]] : [[0, 880]]) {
      const wave = sound.createOscillator();
      const loud = sound.createGain();
      const at = sound.currentTime + begins;
      wave.frequency.value = pitch;
      loud.gain.setValueAtTime(0.25, at);
      loud.gain.exponentialRampToValueAtTime(0.001, at + 0.18);
      wave.connect(loud).connect(sound.destination);
      wave.start(at);
      wave.stop(at + 0.2);
    }
  } catch {
    // No sound to be had here: the page shows all that it would have told.
  }
}

let lock;
let film;
async function awake(wanted, state) {
  if (!wanted) {
    lock?.release();
    film?.pause();
    lock = undefined;
    state.textContent = "";
    return;
  }
  if (navigator.wakeLock) {
    try {
      lock = await navigator.wakeLock.request("screen");
      state.textContent = "The screen stays awake.";
      return;
    } catch {
      // Refused, as with an almost empty battery: try the film.
    }
  }
  // On a plain http address there is no wake lock. Most phones stay awake while a film plays.
  if (!film) {
    const canvas = document.createElement("canvas");
    canvas.width = canvas.height = 2;
    const paper = canvas.getContext("2d");
    film = document.createElement("video");
    film.muted = true;
    film.playsInline = true;
    film.className = "unseen";
    film.setAttribute("aria-hidden", "true");
    film.srcObject = canvas.captureStream(2);
    document.body.append(film);
    setInterval(() => paper.fillRect(0, 0, 2, 2), 500);
  }
  try {
    await film.play();
    state.textContent = "This address has no wake lock; a film of two dots keeps most phones awake. If yours still dims, set a longer screen time-out.";
  } catch {
    state.textContent = "This browser lets no page keep it awake: set a longer screen time-out on the phone.";
  }
}

/** The guard against an accidental second Done: it lets through, asks, or takes no notice; `panel` shows when it does. */
export class SecondTap {
  constructor(panel) {
    this.panel = panel;
    this.painted = 0;
    this.asked = false;
  }

  /** Another position was painted. */
  came() {
    this.painted = performance.now();
    this.asked = false;
    this.settle();
  }

  /** Show that Done takes no touch yet, for as long as that is so: a timer may come a little early. */
  settle() {
    this.panel.classList.add("is-settling");
    clearTimeout(this.calm);
    const calm = () => {
      if (this.isSettling() || this.isAsking()) this.calm = setTimeout(calm, 10);
      else this.panel.classList.remove("is-settling");
    };
    this.calm = setTimeout(calm, SETTLE_MS);
  }

  /** Whether it was just asked whether the tap was meant, and a third touch is no answer. */
  isAsking() {
    return this.asked && performance.now() - this.askedAt < SETTLE_MS;
  }

  /** Whether what was just painted takes no touch yet. */
  isSettling() {
    return this.painted !== 0 && performance.now() - this.painted < SETTLE_MS;
  }

  /** What to do with a tap on Done now: "go", "ask" or "ignore". */
  verdict() {
    const since = performance.now() - this.painted;
    if (this.painted === 0) return "go";
    if (this.isSettling()) return "ignore";
    if (this.asked) return this.isAsking() ? "ignore" : "go";
    if (since >= MOVE_MS) return "go";
    this.asked = true;
    this.askedAt = performance.now();
    this.settle();
    return "ask";
  }
}
