// How long a planner waits from letting go of a stretch until the new findings and the new chart stand on the page, in the browser, and where that time goes:
//   node bench/desk/drag.mjs http://localhost:7317/sortie/skerry [drags] [pause, ms] [chromium]
// The desk is served by hand before, over a copy: each drag is taken back, so that the files end as they began. The first two of each kind are not counted.
// Give the program half a minute after it was served: it rehearses edits, and the runtime compiles what they need.
// The browser draws as on a machine without a graphics processor: the page by its own software, 3D by SwiftShader. SALLYPORT_ANGLE=swiftshader has the page drawn by SwiftShader too, as a stand-in
// for a graphics processor that takes the same two cores, 50 to 100 ms of both for each frame: more than any browser that people use takes.
// With a pause above two seconds the whole verdict is under way when the next edit comes. "npm ci --ignore-scripts" in bench/stage brings what drives the browser.
import { createRequire } from "node:module";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, drags = "40", pause = "700", executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--enable-unsafe-swiftshader", ...(process.env.SALLYPORT_ANGLE ? [`--use-angle=${process.env.SALLYPORT_ANGLE}`] : [])] });
const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: "reduce" });
await page.goto(address, { timeout: 120_000 });
await page.waitForSelector(".desk[data-alive]", { timeout: 120_000 });
await page.waitForFunction(() => sallyportDesk.told.stage?.frames > 0, null, { timeout: 120_000 });

const dragged = [], undone = [];
/** How long the edit under way took; null when nothing was asked, or it was refused. */
const answered = async (before) => {
  await page.waitForFunction(() => sallyportDesk.told.asking === 0, null, { timeout: 20_000 });
  await page.waitForTimeout(Number(pause));
  return await page.evaluate((many) => sallyportDesk.took[many] ?? null, before);
};
for (let i = 0, tries = 0; i < Number(drags) + 2 && tries < Number(drags) * 4; tries++) {
  const before = await page.evaluate(() => sallyportDesk.took.length);
  const [x, y, left, wide] = await page.evaluate((number) => {
    const stretches = document.querySelectorAll(".stretch"), stretch = stretches[number % stretches.length];
    stretch.scrollIntoView({ block: "nearest" });
    const box = stretch.getBoundingClientRect(), chart = document.querySelector(".face").getBoundingClientRect();
    return [box.x + box.width / 2, box.y + box.height - 4, chart.x, chart.width];
  }, tries);
  // Along the strip, by more and more, so that not all land in the same place.
  const by = 90 + tries % 5 * 40;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + (x < left + wide * 0.6 ? by : -by), y, { steps: 4 });
  await page.mouse.up();
  const drag = await answered(before);
  if (!drag) continue;
  const again = await page.evaluate(() => sallyportDesk.took.length);
  await page.keyboard.press("Control+z");
  const undo = await answered(again);
  if (i++ >= 2) { dragged.push(drag); if (undo) undone.push(undo); }
}
const at = (list, part) => list.toSorted((one, other) => one - other)[Math.min(list.length - 1, Math.floor(list.length * part))]?.toFixed(0) ?? "none";
const parts = ["whole", "desk", "way", "page", "paint"];
for (const [name, list] of [["dragged", dragged], ["taken back", undone]]) {
  console.log(`${name}: ${list.length}, ms`);
  for (const part of parts) {
    const figures = list.map((one) => one[part]);
    console.log(`  ${part.padEnd(6)} half ${at(figures, 0.5)}, p95 ${at(figures, 0.95)}, longest ${at(figures, 1)}`);
  }
}
await browser.close();
