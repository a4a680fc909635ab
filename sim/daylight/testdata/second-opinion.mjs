// Makes second-opinion.csv: when the sun's centre passes -50 minutes of arc
// (sunrise, sunset) and -6 degrees (civil twilight), and how high it stands at
// noon UTC, by the library astronomy-engine (npm, MIT licence), a general
// astronomy library that is no part of this project. Made once, with version
// 2.1.19 of it:
//
//	npm install astronomy-engine@2.1.19
//	node second-opinion.mjs > second-opinion.csv
//
// Columns: degrees north and east, the UTC day, seconds after 00:00 UTC of the
// first rise and fall within the day ("" for none), altitude in degrees at
// 12:00 UTC without refraction.
import * as A from "astronomy-engine";

const places = [[66.4, 25.3], [54.4, -3.2], [71.29, -156.79], [69.65, 18.96], [78.22, 15.63],
  [46.5, 7.9], [0, 0], [-54.8, -68.3], [-77.84, 166.69], [39.5, -106.0], [62.45, -114.37], [35.2, 137.9]];
const days = ["2024-02-29", "2025-06-21", "2026-01-15", "2026-03-20", "2026-09-23", "2026-12-21", "2027-01-16", "2027-11-05", "2031-04-10"];

const first = (observer, direction, from, altitude) => {
  const at = A.SearchAltitude(A.Body.Sun, observer, direction, from, 1, altitude);
  if (at === null) return "";
  const s = (at.date.getTime() - from.date.getTime()) / 1000;
  return s < 86400 ? s.toFixed(0) : "";
};

console.log("latitude,longitude,day,sunrise_s,sunset_s,civil_begin_s,civil_end_s,noon_altitude");
for (const [latitude, longitude] of places) {
  const observer = new A.Observer(latitude, longitude, 0);
  for (const day of days) {
    const from = A.MakeTime(new Date(day + "T00:00:00Z"));
    const noon = A.MakeTime(new Date(day + "T12:00:00Z"));
    const equator = A.Equator(A.Body.Sun, noon, observer, true, true);
    const altitude = A.Horizon(noon, observer, equator.ra, equator.dec).altitude;
    console.log([latitude, longitude, day,
      first(observer, +1, from, -50 / 60), first(observer, -1, from, -50 / 60),
      first(observer, +1, from, -6), first(observer, -1, from, -6), altitude.toFixed(4)].join(","));
  }
}
