// What viewers cost a planner and the program: a planner drags as drag.mjs does, alone and then while pages of the same scenario are open beside, in one run.
//   node bench/desk/viewers.mjs http://localhost:7317/sortie/skerry PID [viewers] [drags] [chromium]
// In truth viewers sit at other machines. Their browser runs here at the lowest priority once all its pages are open, without the picture in 3D, so that what is measured is what they cost the program and
// the way to it, and not what their drawing takes from the planner's own browser on the same cores: it takes what nobody else wants, and is late. The order of answering is as it would be; the viewers'
// own wait is not measured.
// The desk is served by hand before, over a copy; PID is the program's, whose memory the system tells (Linux).
import { createRequire } from "node:module";
import { execFileSync, spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { setPriority } from "node:os";
import { fileURLToPath } from "node:url";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, program, viewers = "20", drags = "20", executablePath = "/usr/bin/chromium"] = process.argv.slice(2), here = fileURLToPath(import.meta.url);
const memory = () => Math.round(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${program}/status`, "utf8"))[1]) / 1024);
if (process.env.SALLYPORT_VIEWERS) {
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  for (let i = 0; i < Number(viewers); i++) {
    const page = await browser.newPage({ viewport: { width: 1280, height: 720 }, reducedMotion: "reduce" });
    await page.route("**/station.js*", (route) => route.abort());
    await page.goto(address, { timeout: 180_000 });
    // Looked for by the clock: a page that is not in front draws no frames, and would never be looked at.
    await page.waitForFunction(() => document.querySelector(".desk[data-alive]"), null, { timeout: 180_000, polling: 100 });
    if (i % 5 === 4) console.error(`${i + 1} viewers' pages open`);
  }
  lower(process.pid);
  console.log("open");
  process.stdin.on("end", async () => { await browser.close(); process.exit(); }).resume();
} else {
  const drag = () => execFileSync(process.execPath, [fileURLToPath(new URL("drag.mjs", import.meta.url)), address, drags, "400", executablePath], { encoding: "utf8" });
  console.log(`alone, ${memory()} MB\n${drag()}`);
  const others = spawn(process.execPath, [here, ...process.argv.slice(2)], { env: { ...process.env, SALLYPORT_VIEWERS: "1" }, stdio: ["pipe", "pipe", "inherit"] });
  await new Promise((open, failed) => { others.stdout.once("data", open); others.once("exit", () => failed(new Error("the viewers' pages could not be opened"))); });
  console.log(`beside ${viewers} viewers, ${memory()} MB\n${drag()}`);
  console.log(`after it, ${memory()} MB`);
  others.stdin.end();
}

/** Puts a process and all that it began at the lowest priority, thread by thread (Linux). */
function lower(pid) {
  for (const thread of readdirSync(`/proc/${pid}/task`)) {
    setPriority(Number(thread), 19);
    for (const child of readFileSync(`/proc/${pid}/task/${thread}/children`, "utf8").split(" ").filter(Boolean)) lower(child);
  }
}
