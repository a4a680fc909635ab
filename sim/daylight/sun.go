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
	minutes := float64((days-math.Floor(days)-0.5)*1440) + float64(4*longitude) + equation
	hour := float64((minutes/4 - 180) * degree)
	sin := float64(math.Sin(latitude*degree)*math.Sin(declination)) +
		float64(math.Cos(latitude*degree)*math.Cos(declination)*math.Cos(hour))
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
	meanLongitude := float64(math.Mod(280.46646+float64(c*(36000.76983+float64(c*0.0003032))), 360) * degree)
	anomaly := float64(math.Mod(357.52911+float64(c*(35999.05029-float64(c*0.0001537))), 360) * degree)
	eccentricity := 0.016708634 - float64(c*(0.000042037+float64(c*0.0000001267)))
	centre := float64((1.914602-float64(c*(0.004817+float64(c*0.000014))))*math.Sin(anomaly)) +
		float64((0.019993-float64(c*0.000101))*math.Sin(2*anomaly)) +
		float64(0.000289*math.Sin(3*anomaly))
	node := float64((125.04 - float64(1934.136*c)) * degree)
	apparent := meanLongitude + float64((centre-0.00569-float64(0.00478*math.Sin(node)))*degree)
	obliquity := float64((23 + (26+(21.448-float64(c*(46.815+float64(c*(0.00059-float64(c*0.001813))))))/60)/60 +
		float64(0.00256*math.Cos(node))) * degree)
	declination = math.Asin(math.Sin(obliquity) * math.Sin(apparent))

	y := float64(math.Tan(obliquity/2) * math.Tan(obliquity/2))
	e := eccentricity
	equation = float64(4 / degree * (float64(y*math.Sin(2*meanLongitude)) -
		float64(2*e*math.Sin(anomaly)) +
		float64(4*e*y*math.Sin(anomaly)*math.Cos(2*meanLongitude)) -
		float64(y*y/2*math.Sin(4*meanLongitude)) -
		float64(5*e*e/4*math.Sin(2*anomaly))))
	return declination, equation
}
