// How many propagations a second one core does, as the benchmark beside it asks the same of our own: the best of some rounds.
import { readFileSync } from 'node:fs';
import { json2satrec, sgp4 } from 'satellite.js';

const { sets, count, step, rounds } = JSON.parse(readFileSync(0, 'utf8'));
const paces = sets.map((elements) => {
  const orbit = json2satrec(elements);
  let best = 0;
  for (let round = 0; round < rounds; round++) {
    const start = process.hrtime.bigint();
    let sum = 0;
    for (let i = 0; i < count; i++) sum += sgp4(orbit, i * step).position.x;
    const seconds = Number(process.hrtime.bigint() - start) / 1e9;
    if (Number.isFinite(sum)) best = Math.max(best, count / seconds);
  }
  return best;
});
process.stdout.write(JSON.stringify(paces));
