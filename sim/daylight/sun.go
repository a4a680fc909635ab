package daylight

import (
	"math"
	"time"
)

const degree = math.Pi / 180

// Altitude returns how far the sun's centre stands above the level horizon,
// in degrees, without refraction. Latitude and longitude are in degrees,
// north and east positive.
func Altitude(latitude, longitude float64, t time.Time) float64 {
	days := daysSince2000(t)
	declination, equation := sun(days / 36525)
	// True solar time in minutes: UTC, 4 minutes for each degree east, and
	// the equation of time. Days begin at noon in days since 2000.
	minutes := (days-math.Floor(days)-0.5)*1440 + 4*longitude + equation
	hour := (minutes/4 - 180) * degree
	sin := math.Sin(latitude*degree)*math.Sin(declination) +
		math.Cos(latitude*degree)*math.Cos(declination)*math.Cos(hour)
	return math.Asin(min(1, max(-1, sin))) / degree
}

// daysSince2000 counts days from 2000 January 1, 12 h UTC.
func daysSince2000(t time.Time) float64 {
	const noon2000 = 946728000 // Unix seconds
	return (float64(t.Unix()-noon2000) + float64(t.Nanosecond())/1e9) / 86400
}

// sun returns the sun's declination in radians and the equation of time
// (apparent minus mean solar time) in minutes, c Julian centuries after 2000.
// Meeus, chapter 25 and equation 28.3.
func sun(c float64) (declination, equation float64) {
	meanLongitude := math.Mod(280.46646+c*(36000.76983+c*0.0003032), 360) * degree
	anomaly := math.Mod(357.52911+c*(35999.05029-c*0.0001537), 360) * degree
	eccentricity := 0.016708634 - c*(0.000042037+c*0.0000001267)
	centre := (1.914602-c*(0.004817+c*0.000014))*math.Sin(anomaly) +
		(0.019993-c*0.000101)*math.Sin(2*anomaly) +
		0.000289*math.Sin(3*anomaly)
	node := (125.04 - 1934.136*c) * degree
	apparent := meanLongitude + (centre-0.00569-0.00478*math.Sin(node))*degree
	obliquity := (23 + (26+(21.448-c*(46.815+c*(0.00059-c*0.001813)))/60)/60 +
		0.00256*math.Cos(node)) * degree
	declination = math.Asin(math.Sin(obliquity) * math.Sin(apparent))

	y := math.Tan(obliquity/2) * math.Tan(obliquity/2)
	e := eccentricity
	equation = 4 / degree * (y*math.Sin(2*meanLongitude) -
		2*e*math.Sin(anomaly) +
		4*e*y*math.Sin(anomaly)*math.Cos(2*meanLongitude) -
		y*y/2*math.Sin(4*meanLongitude) -
		5*e*e/4*math.Sin(2*anomaly))
	return declination, equation
}
