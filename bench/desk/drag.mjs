// How long a planner waits from letting go of a stretch until new findings and the new chart stand on the page, in the browser:
//   node bench/desk/drag.mjs http://localhost:7317/sortie/skerry [edits] [chromium]
// The desk is served by hand before, over a copy: every second edit is the one before taken back, so that the files end as they began. The first four are
// not counted. "npm ci --ignore-scripts" in bench/stage brings what drives the browser.
import { createRequire } from "node:module";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, edits = "60", executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] });
const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: "reduce" });
await page.goto(address);
await page.waitForSelector(".desk[data-alive]", { timeout: 120_000 });
await page.waitForFunction(() => sallyportDesk.told.stage?.frames > 0, null, { timeout: 120_000 });

const dragged = [], undone = [];
for (let i = 0; i < Number(edits); i++) {
  const before = await page.evaluate(() => sallyportDesk.took.length);
  if (i % 2 === 0) {
    const stretches = page.locator(".stretch"), stretch = stretches.nth((i / 2) % await stretches.count());
    await stretch.scrollIntoViewIfNeeded();
    const box = await stretch.boundingBox(), chart = await page.locator(".face").boundingBox(), [x, y] = [box.x + box.width / 2, box.y + box.height - 4];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + (x < chart.x + chart.width * 0.6 ? 130 : -130), y, { steps: 4 });
    await page.mouse.up();
  } else await page.keyboard.press("Control+z");
  const done = await page.waitForFunction(many => sallyportDesk.took.length > many, before, { timeout: 8_000 }).then(() => true, () => false);
  // Refused, or let go where it was: nothing was answered with a new chart, and nothing is to be taken back.
  if (!done) { if (i % 2 === 0) i++; continue; }
  if (i >= 4) (i % 2 === 0 ? dragged : undone).push(await page.evaluate(() => sallyportDesk.took.at(-1)));
}
const at = (list, part) => list.toSorted((one, other) => one - other)[Math.min(list.length - 1, Math.floor(list.length * part))]?.toFixed(0) ?? "none";
for (const [name, list] of [["dragged", dragged], ["taken back", undone]]) console.log(`${name}: ${list.length}, half ${at(list, 0.5)} ms, p95 ${at(list, 0.95)} ms, longest ${at(list, 1)} ms`);
await browser.close();
