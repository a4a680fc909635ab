package cold

import "testing"

// What a gram of water takes away as it evaporates: 2429.8 J at 30 C and 2417.9 J at
// 35 C by the steam tables (IAPWS; figures from memory), between which skin is. A
// hundredth covers what the sources of 0.675 Wh/g differ by.
func TestSweatLeavesWithTheLatentHeatOfTheSteamTables(t *testing.T) {
	const atSkin = (2429.8 + 2417.9) / 2 / 3600 // Wh/g
	near(t, "Wh/m2 that a gram takes from 1.8 m2", 1/sweat(1), atSkin/1.8, 0.01*atSkin/1.8)
}
