// What viewers cost a planner and the program: opens a page of one scenario that many times, keeps them open, and tells how much memory the program holds:
//   node bench/desk/viewers.mjs http://localhost:7317/sortie/skerry PID [viewers] [minutes] [chromium]
// Run drag.mjs beside it, and alone, and compare its p95. PID is the program's, whose memory the system tells (Linux).
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
const { chromium } = createRequire(new URL("../stage/package.json", import.meta.url))("playwright-core");

const [address, program, viewers = "20", minutes = "2", executablePath = "/usr/bin/chromium"] = process.argv.slice(2);
const memory = () => Math.round(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${program}/status`, "utf8"))[1]) / 1024);
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
console.log(`before: ${memory()} MB`);
for (let i = 0; i < Number(viewers); i++) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  await page.goto(address);
  await page.waitForFunction(() => document.querySelector("main")?.dataset.lives === "yes", null, { timeout: 120_000 });
}
console.log(`${viewers} viewers: ${memory()} MB`);
for (let minute = 1; minute <= Number(minutes); minute++) {
  await new Promise((done) => setTimeout(done, 60_000));
  console.log(`after ${minute} min: ${memory()} MB`);
}
await browser.close();
await new Promise((done) => setTimeout(done, 5_000));
console.log(`all gone: ${memory()} MB`);
