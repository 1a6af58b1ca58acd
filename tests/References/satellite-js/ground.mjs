// Reads, as JSON, instants in UTC as ISO 8601 with a TEME position in km; writes for each the Earth-fixed position in km, geodetic
// latitude and longitude in degrees and height in km, and the same point made Earth-fixed again.
import { readFileSync } from 'node:fs';
import { degreesLat, degreesLong, eciToEcf, eciToGeodetic, geodeticToEcf, gstime } from 'satellite.js';

const asked = JSON.parse(readFileSync(0, 'utf8'));
const answers = asked.map(({ instant, place: [x, y, z] }) => {
  const turn = gstime(new Date(instant));
  const fixed = eciToEcf({ x, y, z }, turn);
  const below = eciToGeodetic({ x, y, z }, turn);
  const again = geodeticToEcf(below);
  return [fixed.x, fixed.y, fixed.z, degreesLat(below.latitude), degreesLong(below.longitude), below.height, again.x, again.y, again.z];
});
process.stdout.write(JSON.stringify(answers));
