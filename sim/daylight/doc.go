// Package daylight says where the sun stands and when it grows dark.
//
// The sun's place follows the low-precision series of Jean Meeus,
// Astronomical Algorithms, chapter 25, in the form of the solar calculator
// of the US National Oceanic and Atmospheric Administration (NOAA). Between
// 1900 and 2100 it is good to about a hundredth of a degree, which is some
// seconds of time in the middle latitudes and up to a minute or two where
// the sun only grazes the horizon.
//
// Most callers want [Changes], which lists when a site grows dark and light
// again, and [Day], which has the times of one day for people.
//
// Sunrise and sunset mean the sun's upper edge on a level horizon with
// average refraction, so its centre at -50 minutes of arc; twilights are
// those of the centre without refraction. Hills, weather and height above
// the ground are left out.
package daylight
