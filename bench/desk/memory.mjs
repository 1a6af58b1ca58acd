// How much memory the program holds over time, under steady use: stretches dragged and taken back, pages opened and left, one after the other; told once a minute.
//   node bench/desk/memory.mjs http://localhost:7317/sortie/skerry PID [minutes] [chromium]
// The desk is served by hand before, over a copy; PID is the program's, whose memory the system tells (Linux): resident, as it stands, since nobody outside can have the program collect
// what it no longer needs. So a minute may be higher than the one before; the least of several is what is held.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, program, minutes = "10", executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const memory = () => Math.round(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${program}/status`, "utf8"))[1]) / 1024);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const others = ["", "/files", "/search", "/brief", "/compare"];
const began = Date.now(), told = [memory()];
let edits = 0, pages = 0, refused = 0, lost = 0;
console.log(`before: ${told[0]} MB`);
const tell = setInterval(() => {
  told.push(memory());
  console.log(`after ${told.length - 1} min: ${told.at(-1)} MB; ${edits} edits taken back, ${refused} refused, ${pages} pages opened and left, ${lost} that did not answer`);
}, 60_000);
const context = await browser.newContext({ viewport: { width: 1280, height: 720 }, reducedMotion: "reduce" });
const page = await context.newPage();
await page.goto(address, { timeout: 120_000 });
await page.waitForSelector(".desk[data-alive]", { timeout: 120_000 });
const answered = () => page.waitForFunction(() => sallyportDesk.told.asking === 0, null, { timeout: 30_000 });
for (let turn = 0; Date.now() - began < Number(minutes) * 60_000; turn++) {
  try {
    await page.evaluate((number) => {
      const stretches = document.querySelectorAll(".stretch");
      stretches[number % stretches.length].focus();
    }, turn);
    const before = await page.evaluate(() => sallyportDesk.took.length);
    await page.keyboard.press(turn % 2 ? "Shift+ArrowLeft" : "Shift+ArrowRight");
    await answered();
    await page.waitForTimeout(200);
    if (await page.evaluate((many) => sallyportDesk.took.length > many, before)) {
      await page.keyboard.press("Control+z");
      await answered();
      edits++;
    } else refused++;
    if (turn % 3 === 0) {
      const other = await context.newPage();
      await other.goto(address + others[turn / 3 % others.length], { timeout: 60_000 });
      await other.waitForFunction(() => document.querySelector("main")?.dataset.lives === "yes", null, { timeout: 60_000 });
      await other.close();
      pages++;
    }
    await page.waitForTimeout(500);
  } catch (e) {
    lost++;
    console.log(`did not answer: ${String(e).split("\n")[0]}`);
    await page.waitForTimeout(1_000);
  }
}
clearInterval(tell);
await browser.close();
console.log(`end: ${memory()} MB; least of the last five minutes ${Math.min(...told.slice(-5))} MB, of the first five ${Math.min(...told.slice(1, 6))} MB`);
