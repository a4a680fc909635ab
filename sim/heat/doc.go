// Package heat works out melts and warm-ups: how long snow takes to become
// hot water, how fast a shelter warms, and the fuel that both burn.
//
// [Melt] gives the length of a melt. [Balance] follows the air of a shelter
// through every change of weather, stove, people and shelter: as warm as the
// air outside until a stove is lit, then warmed, kept warm and left to cool.
// [Apply] makes the changes to the shelter. All of them are pure functions of their arguments; engines
// call nothing else to learn about heat. [Curves] and [Used] read a finished
// timeline, for pictures and for the fuel account.
//
// The constants are pinned: 2.108 kJ/(kg K) for ice, 333.55 kJ/kg for
// melting it, 4.186 kJ/(kg K) for water, 1 kg of water to a litre, and
// 1005 J/(kg K) with a density of 353/T kg/m3 for air at T kelvin.
//
// # What is left out
//
// A shelter is one body: air, skin and contents have one temperature, so
// that warmth under the roof and cold at the floor are not told apart. The
// ground, the sun and the wind on the skin must be in the shelter's U and
// air changes. A pot loses nothing but what the stove's efficiency takes off.
// Nothing here knows about carbon monoxide: a stove in a shelter needs open
// vents, and the maker's instructions and local rules come first.
package heat
