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
//     the lookout's effort when watching, standing at rest when waiting for the
//     rest of a crew. Who is free keeps moving outdoors, at low effort unless the
//     drill says otherwise, and rests inside.
//   - Who is free goes into a warm shelter when that is worth the walks: see
//     warmby/sim/inside. The timeline does not change by it.
//   - Clothing is March until the first task marked LayersOn ends (of one that
//     each does, until the person's own). From then on it is Halt for efforts up
//     to low and for who is free or waits, March above. Lookouts stand in Halt
//     always, a task may say which ([sim.Worn]), and walking keeps on what was
//     worn before.
//   - Damp takes its share of the insulation until the person has been inside at
//     10 C or more for 30 min without a break (invented), or has done a task with
//     dry clothes.
//   - A spot in a shelter is outdoors until the first warm-up of that shelter
//     begins, or never when it is warm at the start. Inside, the air is that of the
//     heat balance of the shelter ([heat.Rooms]) in whole degrees, 10 C for all
//     above (the standard's formulas take air over 10 C as 10 C, and so its
//     surroundings here), at the least air movement of the standard.
//   - Heat over zero with nothing left to win back is sweat, at 0.675 Wh a gram
//     and 1.8 m2 of skin; not inside at efforts up to low, where people open what
//     is too warm ([Sweat]).
//   - Whoever walks is in the open, whatever the spots at both ends are like.
//   - An outing ends when the person comes into a shelter that is or was warmed,
//     for however short a time; a cold one does not end it.
//   - Three accounts make a [Verdict]: with the metabolic rate as it is, and 20 %
//     higher and lower.
//   - There is no value where the air outdoors is over 0 C, the clothing under 0.3
//     clo, or the wind at the body over 18 m/s; none for a casualty, and none from
//     then on for who is hurt.
//   - Wind at the body is 0.65 of that at 10 m. Wind chill, frostbite and the
//     work/warm-up schedule are made for the wind at 10 m and get that. All
//     of them get it less what the spot keeps off.
//
// # What it is not
//
// The standard judges a steady exposure. Adding up over changes is our
// extension of it, and its authors found it wanting for hard and varying work (see
// [Griefahn]). It knows neither wet clothing nor fingers, feet and faces,
// nor food, drink, sleep, illness and age. It compares plans; it is not
// medical or safety advice, and no number here says that nobody comes to
// harm.
//
// Nothing here holds state: all functions are safe for concurrent use.
package cold
