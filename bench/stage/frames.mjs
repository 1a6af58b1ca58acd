// What a frame of the walk-through costs, drawn in software: node bench/stage/frames.mjs walkthrough.html [chromium]
// "npm ci --ignore-scripts" in this folder brings what drives the browser. Each figure is the least of three rounds of sixty frames, each frame waited
// for. Beside the wall clock stands the processor time of all of the browser, which other work on the machine lengthens less. Last the whole page as it
// plays for eight seconds, chart, lists and labels with it, and the share of the processors that everybody else on the machine had meanwhile.
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const [file, executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] });

/** Milliseconds of processor that everything below this program has used; 0 where the system does not tell. */
function processor() {
  if (!fs.existsSync("/proc/self/stat")) return 0;
  const parent = new Map(), used = new Map();
  for (const name of fs.readdirSync("/proc").filter(name => /^\d+$/.test(name))) {
    try {
      const stat = fs.readFileSync(`/proc/${name}/stat`, "utf8"), rest = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
      parent.set(name, rest[1]);
      used.set(name, Number(rest[11]) + Number(rest[12]));
    } catch {
      // It has ended meanwhile.
    }
  }
  let ticks = 0;
  for (const name of parent.keys()) {
    for (let above = parent.get(name); above; above = parent.get(above)) {
      if (above !== String(process.pid)) continue;
      ticks += used.get(name);
      break;
    }
  }
  return ticks * 10;
}

/** Seconds of processor that everything on the machine has used; 0 where the system does not tell. */
function everybody() {
  if (!fs.existsSync("/proc/stat")) return 0;
  const [user, nice, system, , , irq, soft, stolen] = fs.readFileSync("/proc/stat", "utf8").split("\n")[0].trim().split(/\s+/).slice(1).map(Number);
  return (user + nice + system + irq + soft + stolen) / 100;
}

console.log(`${(fs.statSync(file).size / 1e6).toFixed(2)} MB`);
for (const [width, height] of [[1280, 720], [1920, 1080]]) {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.goto(pathToFileURL(path.resolve(file)).href, { timeout: 120_000 });
  const views = await page.evaluate(() => [0, ...sallyportStage.playback.people.map((_, i) => i + 1), ...sallyportStage.playback.arms.map((_, i) => sallyportStage.playback.people.length + 1 + i)]);
  for (const view of views) {
    let wall = Infinity, used = Infinity;
    await page.evaluate(async view => {
      const { from, to } = sallyportStage.playback;
      sallyportStage.go(from + Math.round((to - from) * 0.63));
      sallyportStage.follow(view);
      await new Promise(done => setTimeout(done, 1500));
      document.querySelector(".play").click();
      sallyportStage.measure(3);
    }, view);
    for (let round = 0; round < 3; round++) {
      const before = processor();
      wall = Math.min(wall, await page.evaluate(() => sallyportStage.measure(60)));
      used = Math.min(used, (processor() - before) / 60);
    }
    await page.evaluate(() => document.querySelector(".play").click());
    const name = await page.evaluate(view => document.querySelectorAll(".bar select")[1].options[view].textContent, view);
    const { calls, triangles } = await page.evaluate(() => sallyportStage.drawing);
    console.log(`${width}x${height} ${name}: ${wall.toFixed(1)} ms, processor ${used.toFixed(1)} ms a frame; ${calls} draw calls, ${triangles} triangles`);
  }
  await page.evaluate(() => {
    sallyportStage.go(sallyportStage.playback.from + Math.round((sallyportStage.playback.to - sallyportStage.playback.from) * 0.63));
    sallyportStage.follow(0);
    document.querySelector(".play").click();
  });
  await page.waitForTimeout(1500);
  const [own, all, began] = [processor() / 1000, everybody(), performance.now()], first = await page.evaluate(() => sallyportStage.drawing.frames);
  await page.waitForTimeout(8000);
  const frames = await page.evaluate(() => sallyportStage.drawing.frames) - first, seconds = (performance.now() - began) / 1000, used = processor() / 1000 - own;
  const others = Math.max(0, everybody() - all - used) / (seconds * os.availableParallelism());
  console.log(`${width}x${height} the whole page as it plays: ${(seconds * 1000 / frames).toFixed(1)} ms, processor ${(used * 1000 / frames).toFixed(1)} ms a frame; others had ${(others * 100).toFixed(0)} % of the processors`);
  await page.close();
}
await browser.close();
