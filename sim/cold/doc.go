// Package cold works out how cold people get.
//
// It has two layers. Pure formulas, each with its source: [WindChill],
// [FrostbiteTime], [Assess] and [Balance] of ISO 11079, [Schedule],
// metabolic rates, carrying, hands. And one account along a drill: [Account]
// walks each person of a timeline through the weather and says how much heat
// is lost, when that passes [HeatLimit], and who should be relieved by when.
// [Cautions] has what every report must print.
//
// # The account
//
// Every moment of a person's time belongs to an [Entry] over which nothing
// changes: what the person is about, the weather, the clothing. In it the
// body stores S W/m2 by [Balance]. While S is negative the loss adds up, in
// Wh/m2; while it is positive the loss is won back; the debt is never below
// 0. S is constant in an entry, so the sum is exact. For a steady exposure the
// limit is passed after just the standard's DLE. (Where S is between -8 and 0
// the standard's program says "more than 8 h"; the account goes on adding and
// passes the limit after 40/-S hours, 5 h at the soonest.)
//
//   - The balance is that of minimal strain (skin as the standard allows it
//     to cool when people feel cold but hold their balance). It is the less
//     strict of the standard's two criteria; by the neutral one everybody
//     reaches the limit sooner.
//   - Metabolic rate: the task's effort when working, moderate when walking,
//     the lookout's effort when watching, standing at rest otherwise
//     ([StretchRate]).
//   - Clothing is March until the first task marked LayersOn ends, then Halt.
//     Lookouts stand in Halt from the start. Without such a task people stay
//     in March.
//   - Damp takes its share of the insulation until the person is first inside
//     a heated shelter, and none from that moment on.
//   - A shelter counts as heated from the end of the first warm-up that ends
//     in it, for the rest of the drill. Until then whoever is in it stands
//     outdoors, at its spot. From then on the air there is as warm as the
//     warm-up was asked to make it (the standard's formulas take air over
//     10 C as 10 C), still, and nobody loses heat: S is at least 0.
//   - Whoever walks is in the open, whatever the spots at both ends are like.
//   - An outing ends when the person comes into a heated shelter, for however
//     short a time; an unheated one does not end it.
//   - Wind at the body is 0.65 of that at 10 m. Wind chill, frostbite and the
//     work/warm-up schedule are made for the wind at 10 m and get that. All
//     of them get it less what the spot keeps off.
//
// # What it is not
//
// The standard judges a steady exposure. Adding up over changes is our
// extension of it. It knows neither wet clothing nor fingers, feet and faces,
// nor food, drink, sleep, illness and age. It compares plans; it is not
// medical or safety advice, and no number here says that nobody comes to
// harm.
//
// Nothing here holds state: all functions are safe for concurrent use.
package cold
