// How long until a page shows something of use, in a browser that knows the program's files already and in one that does not:
//   node bench/desk/paint.mjs http://localhost:7317/sortie/skerry [times] [chromium]
// The desk is served by hand before. "npm ci --ignore-scripts" in bench/stage brings what drives the browser.
import { createRequire } from "node:module";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, times = "10", executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const fresh = [], known = [], alive = [];
for (let i = 0; i < Number(times); i++) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 720 } });
  for (const list of [fresh, known]) {
    const page = await context.newPage();
    await page.goto(address);
    // The first drawing of the heading and what stands with it, by the browser's own clock.
    list.push(await page.evaluate(() => new Promise((done) => new PerformanceObserver((seen) => done(seen.getEntries()[0].startTime)).observe({ type: "largest-contentful-paint", buffered: true }))));
    await page.waitForFunction(() => document.querySelector("main")?.dataset.lives === "yes");
    if (list === known) alive.push(await page.evaluate(() => performance.now()));
    await page.close();
  }
  await context.close();
}
const at = (list, part) => list.toSorted((one, other) => one - other)[Math.min(list.length - 1, Math.floor(list.length * part))].toFixed(0);
for (const [name, list] of [["first paint, nothing known", fresh], ["first paint, files known", known], ["lives", alive]]) console.log(`${name}: half ${at(list, 0.5)} ms, longest ${at(list, 1)} ms`);
await browser.close();
