package cold

// Activity is a row of the Compendium of Physical Activities.
type Activity struct {
	Code string
	What string
	Met  float64 // multiples of the rate at rest, see [Met]
}

// Rate returns the metabolic rate in W/m2.
func (a Activity) Rate() float64 { return a.Met * Met }

// Compendium2011 returns rows of the Compendium of Physical Activities, edition
// 2011 (Ainsworth and others), that a camp may need; the edition of 2024 has
// changed some codes and values. Wording is ours.
func Compendium2011() []Activity {
	return []Activity{
		{"07021", "sitting quietly", 1.3},
		{"07040", "standing quietly", 1.3},
		{"07041", "standing, fidgeting", 1.8},
		{"08009", "carrying or stacking wood, light", 3.3},
		{"08010", "carrying or stacking wood, general", 5.5},
		{"08019", "chopping or splitting wood, moderate", 4.5},
		{"08020", "chopping or splitting wood, vigorous", 6.3},
		{"08045", "digging, light to moderate", 3.5},
		{"08050", "digging", 5.0},
		{"08052", "digging, vigorous", 7.8},
		{"08057", "felling large trees", 8.3},
		{"08058", "felling small to medium trees", 5.3},
		{"08195", "shovelling snow by hand, moderate", 5.3},
		{"08200", "shovelling snow by hand", 6.0},
		{"08202", "shovelling snow, vigorous", 7.5},
		{"09110", "camp chores: standing, walking, sitting, light to moderate", 2.5},
		{"11050", "carrying heavy loads", 8.0},
		{"11115", "cooking", 2.5},
		{"11191", "hauling water", 4.3},
		{"11250", "felling with an axe, very fast", 17.5},
		{"11475", "manual labour, light", 2.8},
		{"11476", "manual labour, moderate", 4.5},
		{"11477", "manual labour, vigorous", 6.5},
		{"11490", "moving heavy objects, 75 lb and more", 7.5},
		{"11525", "directing traffic, standing", 2.5},
		{"11540", "shovelling, digging ditches", 7.8},
		{"11550", "shovelling, more than 16 lb a minute", 8.8},
		{"11560", "shovelling, less than 10 lb a minute", 5.0},
		{"11570", "shovelling, 10 to 15 lb a minute", 6.5},
		{"11600", "standing tasks, light", 3.0},
		{"11620", "standing tasks, moderate, hitching and twisting ropes", 3.5},
		{"11766", "loading and unloading, tying loads", 6.5},
		{"11790", "heavy hand tools", 8.0},
		{"11797", "walking 2.5 mph, carrying more than 25 lb", 3.8},
		{"11820", "carrying 25 to 49 lb", 5.0},
		{"11830", "carrying 50 to 74 lb", 6.5},
		{"11840", "carrying 75 to 99 lb", 7.5},
		{"11850", "carrying 100 lb and more", 8.5},
		{"19005", "driving a dog sled", 7.5},
		{"19010", "setting up an ice house, drilling holes", 6.0},
		{"19080", "ski walking 2.5 mph, light", 6.8},
		{"19090", "skiing 4.0 to 4.9 mph, moderate", 9.0},
		{"19190", "snowshoeing, moderate", 5.3},
		{"19192", "snowshoeing, vigorous", 10.0},
		{"19200", "driving a snowmobile", 3.5},
		{"19252", "shovelling snow by hand, moderate", 5.3},
		{"19254", "shovelling snow, vigorous", 7.5},
	}
}

// ActivityOf returns the row of a code.
func ActivityOf(code string) (Activity, bool) {
	for _, a := range Compendium2011() {
		if a.Code == code {
			return a, true
		}
	}
	return Activity{}, false
}
