import { Chart } from "./chart.js";
import { element, sayer, setText } from "./page.js";
import { deedAt, figuresAt, indexAt, pet, stateAt, version, type Cue, type Deed, type Playback, type Whole } from "./playback.js";
import { Stage3D } from "./stage3d.js";
import type { Following } from "./view.js";
import { Voice } from "./voice.js";

const whole = JSON.parse(document.getElementById("st-playback")!.textContent!) as Whole;
const playback: Playback = { ...whole, ...whole.branches[0]! };
if (playback.playback !== version) throw new Error(`this page plays form ${version}, found ${playback.playback}`);
const say = sayer(playback.words);
const root = document.getElementById("st-stage")!;
const zero = Date.parse(playback.petZero);

let moment = playback.from, playing = false, speed = playback.speed, last = 0;
let following: Following = { kind: "all" };
const voice = new Voice();
let choices = 0;

// ------------------------------------------------------------------ the parts of the page
const clock = element("p", { class: "clock" }, element("b"), element("span"));
const states = element("p", { class: "states" });
const head = element("header", {}, element("div", { class: "name" }, element("h1", { dir: "auto" }, playback.title), element("p", {}, `${playback.outline} · ${playback.plan}`)));
if (playback.draft) head.append(element("p", { class: "draft", role: "status" }, playback.draft));
head.append(clock, states);

const canvas = element("canvas", { tabindex: "0", role: "img", "aria-label": say("stage") });
const caption = element("p", { class: "caption", "aria-live": "polite", dir: "auto" });
const sun = element("p", { class: "sun" }, playback.sun ? say("sunKnown") : say("sunUnknown"));
const stageBox = element("section", { class: "stage", "aria-label": say("stage") }, canvas);
const draftMark = playback.draft ? element("p", { class: "mark", "aria-hidden": "true" }, playback.draft) : null;

let stage: Stage3D | null = null;
try {
  stage = new Stage3D(canvas, playback, () => following);
  stageBox.append(stage.labels.layer);
} catch {
  canvas.remove();
  stageBox.append(element("p", { class: "none" }, say("noDrawing")));
}
if (draftMark) stageBox.append(draftMark);
stageBox.append(sun, caption);

const play = element("button", { type: "button", class: "play" }, say("play"));
const slider = element("input", { type: "range", min: String(playback.from), max: String(playback.to), step: "1", value: String(moment), "aria-label": say("time") });
const speeds = choice(say("speed"), [1, 10, 30, 60, 120, 300].map(times => [String(times), say("speedTimes", String(times))]), String(speed));
const follows: { what: Following; text: string }[] = [
  { what: { kind: "all" }, text: say("followAll") },
  ...playback.people.map((person, index) => ({ what: { kind: "person", index } as Following, text: say("followOne", person.id) })),
  ...playback.arms.map((arm, index) => ({ what: { kind: "arm", index } as Following, text: say("followOne", arm.id) })),
  { what: { kind: "free" }, text: say("followFree") },
];
const view = choice(say("follow"), follows.map((one, i) => [String(i), one.text]), "0");
const captions = toggle(say("captions"), true, on => { caption.hidden = !on; });
const speak = toggle(Voice.exists ? say("voice") : say("noVoice"), false, on => {
  voice.on = on;
  if (!on) voice.hush();
});
speak.disabled = !Voice.exists;
const theme = choice(say("theme"), [["system", say("themeSystem")], ["light", say("themeLight")], ["dark", say("themeDark")]], "system");
const larger = element("button", { type: "button", "aria-pressed": "false" }, say("chartMore"));
const branch = whole.branches.length > 1 ? choice(say("branch"), whole.branches.map((one, i) => [String(i), one.name]), "0") : null;
if (branch) clock.before(branch.label);
const bar = element("section", { class: "bar", "aria-label": say("time") }, play, slider, speeds.label, view.label, captions, speak, theme.label, larger);

const chart = new Chart(playback, say("chart"), go);

const cards = playback.people.map((person, i) => {
  const rows = ["doing", "where", "next", "carries", "tether"].map(key => ({ key, value: element("dd", { dir: "auto" }) }));
  const home = element("p", { class: "home" });
  const card = element("article", { class: `card ink-${i % 4}`, "aria-label": say("person", person.id, person.name) },
    element("h2", {}, element("b", { dir: "auto" }, person.id), element("span", { dir: "auto" }, person.name)), home,
    element("dl", {}, ...rows.flatMap(row => [element("dt", {}, say(row.key)), row.value])));
  return { card, home, values: Object.fromEntries(rows.map(row => [row.key, row.value])) as Record<string, HTMLElement> };
});
const others = element("dl", { class: "others" });
const lines = [
  ...playback.arms.map((arm, i) => ({ does: () => playback.arms[i]!.does, value: line(arm.id) })),
  ...(whole.branches.some(one => one.ground.length > 0) ? [{ does: () => playback.ground, value: line(say("ground")) }] : []),
];

interface Step { at: number; who: string; index: number; deed: Deed }
interface Entry { step: Step; button: HTMLButtonElement; item: HTMLElement }
let steps: Step[] = [], buttons: Entry[] = [];
const of = choice(say("stepsOf"), [["", say("everybody")], ...playback.people.map((person, i): [string, string] => [String(i), person.id])], "");
const list = element("ol", { class: "steps", "aria-label": say("steps") });
listSteps();

const side = element("aside", { "aria-label": say("people") }, ...cards.map(card => card.card), others, of.label, list);
root.append(head, stageBox, bar, chart.pane, side, element("p", { class: "keys" }, say("keys")));

// ------------------------------------------------------------------ what people do with it
play.addEventListener("click", () => run(!playing));
slider.addEventListener("input", () => go(Number(slider.value)));
speeds.select.addEventListener("change", () => { speed = Number(speeds.select.value); });
view.select.addEventListener("change", () => follow(Number(view.select.value)));
branch?.select.addEventListener("change", () => playBranch(Number(branch.select.value)));
theme.select.addEventListener("change", () => {
  if (theme.select.value === "system") delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = theme.select.value;
});
larger.addEventListener("click", () => {
  const on = root.classList.toggle("large-chart");
  larger.setAttribute("aria-pressed", String(on));
  setText(larger, say(on ? "chartLess" : "chartMore"));
});
of.select.addEventListener("change", hideSteps);
canvas.addEventListener("keydown", event => {
  const turns: Record<string, [number, number, number]> = {
    ArrowLeft: [-0.12, 0, 1], ArrowRight: [0.12, 0, 1], ArrowUp: [0, -0.1, 1], ArrowDown: [0, 0.1, 1], "+": [0, 0, 0.85], "=": [0, 0, 0.85], "-": [0, 0, 1.18],
  };
  const turn = turns[event.key];
  if (!turn || event.ctrlKey || event.metaKey || event.altKey) return;
  stage?.view.turn(...turn);
  event.preventDefault();
  event.stopPropagation();
});
document.addEventListener("keydown", event => {
  const at = event.target as HTMLElement;
  if (event.ctrlKey || event.metaKey || event.altKey || at.matches("select, input") || (event.key === " " && at.matches("button"))) return;
  const near = (way: number) => {
    const all = steps.map(step => step.at), next = way > 0 ? all.find(one => one > moment) : all.filter(one => one < moment).at(-1);
    if (next !== undefined) go(next);
  };
  switch (event.key) {
    case " ": run(!playing); break;
    case "ArrowLeft": if (event.shiftKey) near(-1); else go(moment - 60); break;
    case "ArrowRight": if (event.shiftKey) near(1); else go(moment + 60); break;
    case "Home": go(playback.from); break;
    case "End": go(playback.to); break;
    case "f": case "F": follow(follows.length - 1); break;
    case "s": case "S": speak.click(); break;
    case "c": case "C": captions.click(); break;
    case "b": case "B": if (branch) playBranch(1 - Number(branch.select.value)); break;
    default:
      if (!/^[1-9]$/.test(event.key) || Number(event.key) > follows.length) return;
      follow(Number(event.key) - 1);
  }
  event.preventDefault();
});

function follow(i: number): void {
  following = follows[i]!.what;
  view.select.value = String(i);
  stage?.view.follow(following);
  if (following.kind === "person") chart.lookAt(playback.people[following.index]!.id);
}

/** Plays the other branch of the decision: until the two part nothing changes. */
function playBranch(i: number): void {
  Object.assign(playback, whole.branches[i]);
  branch!.select.value = String(i);
  slider.max = String(playback.to);
  inSight = null;
  listSteps();
  hideSteps();
  go(moment);
}

/** The list of what the branch played has in it. */
function listSteps(): void {
  steps = [
    ...playback.people.flatMap((person, index) => person.does.map(deed => ({ at: deed.from, who: person.id, index, deed }))),
    ...playback.ground.map(deed => ({ at: deed.from, who: say("ground"), index: -1, deed })),
  ].sort((one, other) => one.at - other.at || one.index - other.index);
  buttons = steps.map(step => {
    const text = element("span", { class: "what", dir: "auto" }, step.deed.text);
    const button = element("button", { type: "button", class: step.index < 0 ? "step" : `step ink-${step.index % 4}` },
      element("span", { class: "when" }, pet(step.at)), element("b", { dir: "auto" }, step.who), text);
    if (step.deed.leg) text.prepend(element("i", {}, `${step.deed.leg}: `));
    button.addEventListener("click", () => go(step.at));
    return { step, button, item: element("li", {}, button) };
  });
  list.replaceChildren(...buttons.map(entry => entry.item));
}

function hideSteps(): void {
  for (const { step, item } of buttons) item.hidden = of.select.value !== "" && step.index !== Number(of.select.value);
}

function go(to: number): void {
  moment = Math.min(playback.to, Math.max(playback.from, to));
  voice.hush();
  show();
}

function run(on: boolean): void {
  if (on && moment >= playback.to) moment = playback.from;
  playing = on;
  last = 0;
  setText(play, say(on ? "pause" : "play"));
  stage?.play(on);
  if (!on) voice.hush();
  show();
  if (on) requestAnimationFrame(tick);
}

function tick(now: number): void {
  if (!playing) return;
  const seconds = last === 0 ? 0 : Math.min(0.25, (now - last) / 1000);
  last = now;
  const to = Math.min(playback.to, moment + seconds * speed), next = playback.cues.find(cue => cue.from > moment);
  // A sentence is said to its end before the next begins: the walk waits for it.
  moment = voice.busy && next && to >= next.from ? Math.max(moment, next.from - 1) : to;
  show();
  if (moment >= playback.to && !voice.busy) run(false);
  else requestAnimationFrame(tick);
}

// ------------------------------------------------------------------ what is shown
/** What is written changes no more often than one can read; what is drawn changes with every frame. */
const writeEvery = 160;
let written = -Infinity;

function show(): void {
  chart.show(moment);
  stage?.show(moment);
  const now = performance.now();
  if (playing && now - written < writeEvery) return;
  written = now;
  write();
}

function write(): void {
  const utc = new Date(zero + moment * 1000).toISOString().slice(11, 16), light = stateAt(playback.light, moment) || "unknown";
  setText(clock.firstElementChild!, pet(moment));
  setText(clock.lastElementChild!, `PET · ${utc} UTC`);
  const sky = [say(`light.${light}`)];
  const link = stateAt(playback.sky["link"] ?? [], moment), heard = stateAt(playback.sky["voice"] ?? [], moment);
  if (link) sky.push(say(`link.${link}`));
  if (heard) sky.push(say(`voice.${heard}`));
  if (stateAt(playback.sky["radiation"] ?? [], moment) === "high") sky.push(say("radiation.high"));
  setText(states, sky.join(" · "));
  slider.value = String(Math.round(moment));
  slider.setAttribute("aria-valuetext", `${say("timeIs", pet(moment), utc)}, ${sky[0]}`);
  const cue: Cue | undefined = playback.cues[indexAt(playback.cues, one => one.from, moment)];
  const current = cue && moment < cue.to ? cue : null;
  setText(caption, current?.text ?? "");
  if (playing && current) voice.say(current, document.documentElement.lang);

  playback.people.forEach((person, i) => {
    const { home, values } = cards[i]!, now = deedAt(person.does, moment), after = person.does.find(deed => deed.from > moment && deed.text !== now?.text);
    const seconds = figuresAt(person.home, moment)?.[0], paid = person.paid[indexAt(person.paid, one => one[0]!, moment)]?.[1] ?? 0;
    // Never told shorter than it is.
    setText(home, seconds === undefined ? "" : seconds < 0 ? say("noHome") : seconds === 0 && !figuresAt(person.path, moment) ? say("isHome") : `${say("home")} ${say("minutes", String(Math.ceil(seconds / 60 - 1e-9)))}`);
    setText(values["doing"]!, now ? (now.leg ? `${now.leg}: ${now.text}` : now.text) : say("nothing"));
    setText(values["where"]!, stateAt(person.where, moment));
    setText(values["next"]!, after ? `${pet(after.from)} ${after.text}` : say("nothing"));
    setText(values["carries"]!, stateAt(person.carries, moment));
    const held = person.lines[indexAt(person.lines, one => one.at, moment)];
    setText(values["tether"]!, held && !held.held && figuresAt(person.path, moment) ? say("untied") : paid > 0 ? say("metres", paid.toFixed(1)) : say("nothing"));
  });
  for (const { does, value } of lines) {
    const now = deedAt(does(), moment), next = does().find(deed => deed.from > moment);
    setText(value, now ? now.text : next ? `${say("next")} ${pet(next.from)} ${next.text}` : say("nothing"));
  }
  mark();
}

let inSight: HTMLElement | null = null;

/** Marks what goes on in the list of steps, and keeps it in sight. */
function mark(): void {
  let first: HTMLElement | null = null;
  for (const { step, button, item } of buttons) {
    const now = step.deed.from <= moment && moment < step.deed.to;
    if (now !== button.hasAttribute("aria-current")) {
      if (now) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    }
    if (now && !item.hidden) first = item;
  }
  if (first === inSight) return;
  inSight = first;
  if (first && !list.matches(":hover") && !list.contains(document.activeElement)) {
    const top = first.offsetTop - list.offsetTop;
    if (top < list.scrollTop || top + first.offsetHeight > list.scrollTop + list.clientHeight) list.scrollTop = top - list.clientHeight / 3;
  }
}

function choice(name: string, options: [string, string][], chosen: string): { label: HTMLElement; select: HTMLSelectElement } {
  const select = element("select", {}, ...options.map(([value, text]) => element("option", { value }, text)));
  select.value = chosen;
  select.id = `st-choice-${++choices}`;
  return { label: element("span", { class: "choice" }, element("label", { for: select.id }, name), select), select };
}

function toggle(name: string, on: boolean, change: (on: boolean) => void): HTMLButtonElement {
  const button = element("button", { type: "button", "aria-pressed": String(on) }, name);
  button.addEventListener("click", () => {
    const now = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(now));
    change(now);
  });
  return button;
}

function line(name: string): HTMLElement {
  const value = element("dd", { dir: "auto" });
  others.append(element("dt", { dir: "auto" }, name), value);
  return value;
}

show();

// For tests and benches: what is shown, and how drawing goes.
Object.assign(window, { sallyportStage: { playBranch, get moment() { return moment; }, get playing() { return playing; }, get drawing() { return stage?.told ?? null; }, go, follow, playback, measure: (frames: number) => stage?.measure(frames) ?? null } });
