// Reads, as JSON, instants in UTC as ISO 8601; writes for each the apparent direction of the Sun from the centre of the Earth:
// right ascension and declination in degrees, true equator and equinox of date, and the distance in astronomical units.
import { readFileSync } from 'node:fs';
import { Body, MakeTime, GeoVector, RotateVector, Rotation_EQJ_EQD, EquatorFromVector } from 'astronomy-engine';

const instants = JSON.parse(readFileSync(0, 'utf8'));
const answers = instants.map((instant) => {
  const time = MakeTime(new Date(instant));
  const place = EquatorFromVector(RotateVector(Rotation_EQJ_EQD(time), GeoVector(Body.Sun, time, true)));
  return [place.ra * 15, place.dec, place.dist];
});
process.stdout.write(JSON.stringify(answers));
