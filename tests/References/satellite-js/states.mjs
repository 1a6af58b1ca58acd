// Reads, as JSON, element sets as OMM names their fields, each with minutes from its epoch; writes for each moment the error
// code, and TEME position in km and velocity in km/s when that is zero.
import { readFileSync } from 'node:fs';
import { json2satrec, sgp4 } from 'satellite.js';

const sets = JSON.parse(readFileSync(0, 'utf8'));
const answers = sets.map(({ elements, minutes }) => {
  const orbit = json2satrec(elements);
  return minutes.map((time) => {
    const state = sgp4(orbit, time);
    if (!state || orbit.error) return [orbit.error];
    const { position: r, velocity: v } = state;
    return [0, r.x, r.y, r.z, v.x, v.y, v.z];
  });
});
process.stdout.write(JSON.stringify(answers));
