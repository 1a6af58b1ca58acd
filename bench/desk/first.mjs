// How long the very first page takes: starts the program itself, and opens the page as soon as the address is told.
//   node bench/desk/first.mjs scenarios sortie/skerry [times] [command, "dotnet src/Sallyport.Cli/bin/Release/net10.0/sallyport.dll" when left out] [--cold-browser]
// The browser runs already and has shown a blank page, unless --cold-browser asks for one that is started for each. "npm ci --ignore-scripts" in bench/stage brings what drives it.
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { createRequire } from "node:module";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

// Waiting for a program that does not come would hold the place on the machine for ever.
setTimeout(() => process.exit(1), 120_000).unref();
const cold = process.argv.includes("--cold-browser");
const [folder = "scenarios", page = "sortie/skerry", times = "5", command = "dotnet src/Sallyport.Cli/bin/Release/net10.0/sallyport.dll"] = process.argv.slice(2).filter((word) => !word.startsWith("--"));
const start = () => chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
const told = [], painted = [], alive = [];
for (let i = 0; i < Number(times); i++) {
  let browser = cold ? null : await start();
  const tab = async () => (await browser.newContext({ viewport: { width: 1280, height: 720 } })).newPage();
  let open = cold ? null : await tab();
  const began = performance.now();
  const [program, ...words] = command.split(" ");
  const served = spawn(program, [...words, "serve", folder, "--port", "0"], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((found) => createInterface({ input: served.stdout }).on("line", (line) => { const at = /The desk is at (\S+)/.exec(line); if (at) found(at[1]); }));
  const at = performance.now();
  told.push(at - began);
  if (cold) { browser = await start(); open = await tab(); }
  await open.goto(`${address}/${page}`, { waitUntil: "commit" });
  // The largest thing drawn before the page lives, by the clock here: opening and asking count with it.
  const paint = await open.evaluate(() => new Promise((done) => new PerformanceObserver((seen) => done(performance.timeOrigin + seen.getEntries()[0].startTime)).observe({ type: "largest-contentful-paint", buffered: true })));
  painted.push(paint - (performance.timeOrigin + at));
  await open.waitForFunction(() => document.querySelector("main")?.dataset.lives === "yes");
  alive.push(performance.now() - at);
  await browser.close();
  served.kill("SIGKILL");
  await new Promise((done) => served.on("exit", done));
}
const half = (list) => list.toSorted((one, other) => one - other)[Math.floor(list.length / 2)].toFixed(0), longest = (list) => Math.max(...list).toFixed(0);
for (const [name, list] of [["address told after the start", told], ["painted after it was told", painted], ["lives after it was told", alive]])
  console.log(`${name}: half ${half(list)} ms, longest ${longest(list)} ms (${list.map((one) => one.toFixed(0)).join(", ")})`);
