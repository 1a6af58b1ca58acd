import { element, setText } from "../page.js";
import { deedAt, indexAt, pet, stateAt, type Deed } from "../playback.js";
import { ceilingAt, minutesDown, minutesUp, returnAt } from "./margins.js";
import type { Beside, Edit, LeftOut } from "./view.js";

export interface PanelsAsked { go(moment: number): void; edit(edit: Edit): void; why(left: LeftOut, answer: HTMLElement): void }

const kinds: Record<string, string> = { one: "alone", armless: "with the arm stopped", help: "brought in by another", helparmless: "brought in, arm stopped", both: "everybody in" };

interface Tab { name: string; tab: HTMLButtonElement; panel: HTMLElement; filled: boolean; fill: () => void; show: (moment: number) => void }

/** What is so at the cursor: who does what, margins, gear, commands; and what is left out. */
export class Panels {
  readonly pane = element("section", { class: "under", "aria-label": "At the cursor" });
  private readonly clock = element("p", { class: "clock" }, element("b"), element("span"));
  private readonly tabs: Tab[];
  private current: Tab;
  private view: Beside | null = null;
  private moment = 0;
  planner = false;

  constructor(private readonly asked: PanelsAsked) {
    this.tabs = [
      this.tab("Now and next", () => this.fillNow()), this.tab("Margins", () => this.fillMargins()), this.tab("Gear", () => this.fillGear()),
      this.tab("Commands", () => this.fillCommands()), this.tab("Left out", () => this.fillLeft()),
    ];
    this.current = this.tabs[0]!;
    const bar = element("div", { class: "tabs", role: "tablist", "aria-label": "What is shown at the cursor" }, ...this.tabs.map(one => one.tab));
    bar.addEventListener("keydown", event => {
      const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
      if (!step) return;
      event.preventDefault();
      const to = this.tabs[(this.tabs.indexOf(this.current) + step + this.tabs.length) % this.tabs.length]!;
      this.open(to);
      to.tab.focus();
    });
    this.pane.append(element("div", { class: "under-head" }, this.clock, bar), ...this.tabs.map(one => one.panel));
    this.open(this.current);
  }

  /** What is so in another plan is being asked for. */
  wait(): void {
    this.view = null;
    this.pane.setAttribute("aria-busy", "true");
  }

  use(view: Beside): void {
    this.view = view;
    this.pane.removeAttribute("aria-busy");
    for (const tab of this.tabs) tab.filled = false;
    this.current.fill();
    setText(this.tabs.at(-1)!.tab, `Left out: ${view.leftOut.length}`);
  }

  at(moment: number): void {
    this.moment = moment;
    if (!this.view) return;
    const { playback } = this.view, utc = new Date(Date.parse(playback.petZero) + moment * 1000).toISOString().slice(11, 19);
    setText(this.clock.firstElementChild!, pet(moment));
    const sky = [stateAt(playback.light, moment) || "light not known", stateAt(playback.sky["link"] ?? [], moment) === "none" ? "no link" : "", stateAt(playback.sky["voice"] ?? [], moment) === "none" ? "no voice" : "", stateAt(playback.sky["radiation"] ?? [], moment) === "high" ? "high radiation" : ""];
    setText(this.clock.lastElementChild!, [`PET`, `${utc} UTC`, ...sky.filter(Boolean)].join(" · "));
    this.current.show(moment);
  }

  private tab(name: string, make: () => (moment: number) => void): Tab {
    const id = `panel-${name.replace(/\W/g, "").toLowerCase()}`;
    const made: Tab = {
      name, tab: element("button", { type: "button", role: "tab", id: `${id}-tab`, "aria-controls": id }, name), panel: element("div", { role: "tabpanel", id, "aria-labelledby": `${id}-tab`, tabindex: "0" }),
      filled: false, fill: () => { made.panel.replaceChildren(); this.into = made.panel; made.show = make(); made.filled = true; }, show: () => {},
    };
    made.tab.addEventListener("click", () => this.open(made));
    return made;
  }

  private into: HTMLElement = this.pane;

  private open(tab: Tab): void {
    this.current = tab;
    for (const one of this.tabs) {
      one.panel.hidden = one !== tab;
      one.tab.setAttribute("aria-selected", String(one === tab));
      one.tab.tabIndex = one === tab ? 0 : -1;
    }
    if (!this.view) return;
    if (!tab.filled) tab.fill();
    tab.show(this.moment);
  }

  // ------------------------------------------------------------------ who does what
  private fillNow(): (moment: number) => void {
    const { playback, inside, returns, ceiling } = this.view!, shows: ((moment: number) => void)[] = [];
    const lane = (name: string, ink: string, does: readonly Deed[], instant: boolean, more: (moment: number) => string[]): void => {
      const now = element("dd", { dir: "auto" }), next = element("button", { type: "button", class: "jump", dir: "auto" }), about = element("dd", { class: "about", dir: "auto" });
      let to = 0;
      next.addEventListener("click", () => this.asked.go(to));
      this.into.append(element("article", { class: `lane ${ink}` }, element("h3", { dir: "auto" }, name), element("dl", {}, element("dt", {}, "now"), now, element("dt", {}, "next"), element("dd", {}, next), element("dt", { class: "sr" }, "and"), about)));
      shows.push(moment => {
        const doing = instant ? null : deedAt(does, moment), after = does.find(deed => deed.from > moment && deed.text !== doing?.text);
        setText(now, doing ? `${doing.leg ? `${doing.leg}: ` : ""}${doing.text}, until ${pet(doing.to)}` : "–");
        to = after?.from ?? moment;
        next.hidden = !after;
        setText(next, after ? `${pet(after.from)} ${after.leg ? `${after.leg}: ` : ""}${after.text}` : "");
        setText(about, more(moment).filter(Boolean).join(" · "));
      });
    };
    playback.people.forEach((person, i) => lane(person.id, `ink-${i % 4}`, person.does, false, moment => {
      const home = returnAt(returns.find(one => one.kind === "one" && one.person === person.id)?.points ?? [], moment), held = ceilingAt(ceiling, moment);
      const spare = home === null || held === null ? "" : home > held.seconds ? `, over by ${minutesUp(home - held.seconds)}` : `, ${minutesDown(held.seconds - home)} below the ceiling`;
      return [home === null ? "" : home < 0 ? "no way back in now" : `safe inside in ${minutesUp(home)}${spare}`, stateAt(person.where, moment), stateAt(person.carries, moment)];
    }));
    for (const arm of playback.arms) lane(arm.id, "", arm.does, false, () => []);
    if (playback.ground.length) lane("Ground", "", playback.ground, false, () => []);
    if (inside.length) lane("IV", "", inside, true, () => []);
    this.into.classList.add("lanes");
    return moment => { for (const show of shows) show(moment); };
  }

  // ------------------------------------------------------------------ margins
  private fillMargins(): (moment: number) => void {
    const { returns, tight } = this.view!;
    const table = element("table", {}, element("caption", {}, "Return times at the cursor")), rows = element("tbody");
    table.append(element("thead", {}, element("tr", {}, ...["Who", "How", "Safe in"].map(name => element("th", { scope: "col" }, name)))), rows);
    const shows = returns.map(one => {
      const value = element("td");
      rows.append(element("tr", {}, element("th", { scope: "row" }, one.person ?? "everybody"), element("td", {}, kinds[one.kind] ?? one.kind), value));
      return (moment: number) => {
        const seconds = returnAt(one.points, moment);
        setText(value, seconds === null ? "–" : seconds < 0 ? "no way back in now" : minutesUp(seconds));
      };
    });
    const list = element("ul", { class: "plain" }, ...tight.map(one => {
      const button = element("button", { type: "button", class: "jump" }, one.words);
      button.addEventListener("click", () => this.asked.go(one.at));
      return element("li", {}, button);
    }));
    this.into.append(table, element("div", {}, element("h3", {}, "Nearest to what they are held against, over the whole walk"), list));
    return moment => { for (const show of shows) show(moment); };
  }

  // ------------------------------------------------------------------ gear
  private fillGear(): (moment: number) => void {
    const moved = this.view!.gear.filter(thing => thing.where.length > 1), rows = element("tbody");
    const table = element("table", {}, element("caption", {}, "What is moved in this walk, and where it is at the cursor"), element("thead", {}, element("tr", {}, ...["Thing", "Where", "Next"].map(name => element("th", { scope: "col" }, name)))), rows);
    const shows = moved.map(thing => {
      const where = element("td", { dir: "auto" }), next = element("button", { type: "button", class: "jump" });
      let to = 0;
      next.addEventListener("click", () => this.asked.go(to));
      rows.append(element("tr", {}, element("th", { scope: "row", dir: "auto" }, thing.name), where, element("td", {}, next)));
      return (moment: number) => {
        const i = indexAt(thing.where, one => one.at, moment), after = thing.where[i + 1];
        setText(where, thing.where[Math.max(0, i)]!.is);
        to = after?.at ?? moment;
        next.hidden = !after;
        setText(next, after ? `${pet(after.at)} ${after.is}` : "");
      };
    });
    this.into.append(table);
    return moment => { for (const show of shows) show(moment); };
  }

  // ------------------------------------------------------------------ ground commands
  private fillCommands(): (moment: number) => void {
    const { commands, dead, inhibits } = this.view!, rows = element("tbody");
    const table = element("table", {}, element("caption", {}, "Ground commands"), element("thead", {}, element("tr", {}, ...["PET", "Console", "Command", "Makes", "For"].map(name => element("th", { scope: "col" }, name)))), rows);
    const lines = commands.map(command => {
      const button = element("button", { type: "button", class: "jump" }, `${pet(command.from)} – ${pet(command.to)}`);
      button.addEventListener("click", () => this.asked.go(command.from));
      const row = element("tr", {}, element("td", {}, button), element("td", {}, command.console), element("th", { scope: "row" }, command.command), element("td", {}, command.makes || "–"), element("td", {}, command.for ?? ""));
      rows.append(row);
      return { row, command };
    });
    const off = element("ul", { class: "plain" }), stands = element("ul", { class: "plain" });
    if (commands.length) this.into.append(table);
    else this.into.append(element("p", {}, "The ground sends nothing in this plan."));
    this.into.append(element("div", {}, element("h3", {}, "Dead at the cursor"), off), element("div", {}, element("h3", {}, "Stands open for the step under way"), stands));
    return moment => {
      for (const { row, command } of lines) {
        row.classList.toggle("done", command.to <= moment);
        row.classList.toggle("now", command.from <= moment && moment < command.to);
      }
      const now = dead.filter(one => one.from <= moment && (one.to === null || moment < one.to));
      off.replaceChildren(...(now.length ? now.map(one => element("li", {}, `${one.name}, ${minutesUp(moment - one.from)}${one.longest === null ? "" : ` of ${minutesDown(one.longest)}`}${one.to === null ? ", not turned on again" : `, on again at ${pet(one.to)}`}`)) : [element("li", {}, "nothing")]));
      const asks = inhibits.filter(one => one.from <= moment && moment < one.to);
      stands.replaceChildren(...(asks.length ? asks.map(one => element("li", {}, `${one.who}, ${one.step}: asks ${one.asked} on ${one.node}; ${one.open.join("; ") || "none open as it begins"}`)) : [element("li", {}, "no step asks for something dead now")]));
    };
  }

  // ------------------------------------------------------------------ left out
  private fillLeft(): (moment: number) => void {
    const { leftOut } = this.view!;
    if (leftOut.length === 0) this.into.append(element("p", {}, "Every job is in the plan."));
    for (const left of leftOut) {
      const back = element("button", { type: "button", "data-back": left.job }, "Bring back"), why = element("button", { type: "button" }, "Why not?"), answer = element("p", { class: "answer", role: "status" });
      back.disabled = !this.planner;
      back.addEventListener("click", () => this.asked.edit({ kind: "back", job: left.job }));
      why.addEventListener("click", () => this.asked.why(left, answer));
      this.into.append(element("article", { class: "left" }, element("h3", { dir: "auto" }, left.title, element("small", {}, ` ${left.job}, ${left.must ? "a must-job, " : ""}value ${left.value}`)), element("p", { dir: "auto" }, left.why), element("p", { class: "row" }, back, why), answer));
    }
    return () => {};
  }
}
