package scenarios

// Bounds that several keys share.
const (
	lagHigh  = "168 h"     // seven days: the longest drill
	drawHigh = "24000 h"   // a thousand days of work
	airLow   = "-95 C"     // colder than any air measured
	airHigh  = "60 C"      // hotter than any
	windHigh = "113.2 m/s" // the fastest gust measured at the ground
)

// Shapes that several keys share.
var (
	line    = textShape{}
	lagTime = quantityShape{d: inTime, low: "0 s", high: lagHigh}
	share   = quantityShape{d: inShare, low: "0 %", high: "100 %"}
	drawn   = lawShape{most: drawHigh}
	arrival = lawShape{most: lagHigh}
	count   = wholeShape{0, 1000}
	effort  = wordShape{"resting", "low", "moderate", "high", "very high"}
)

func nameOf(what string) shape { return nameShape{what} }
func namesOf(what string, most int) shape {
	return listShape{of: nameShape{what}, most: most}
}

// fileKeys declares the whole file.
func fileKeys() *object {
	return &object{name: "scenario", say: "one file: site, weather, people, kit, tasks, milestones, orders", keys: []key{
		{"warmby", wholeShape{1, 1}, true, "", "the version of the format, 1; the first key"},
		{"title", line, true, "", "what the scenario is called, in a line"},
		{"site", siteKeys, false, "no place, no date, no snow", "where and when the team halts"},
		{"spots", namedShape{"spot", spotKeys, 100}, false, "the centre of camp only", "places on the site"},
		{"weather", weatherShape, false, "none: no air, no wind", "rows that each hold until the next, or named cases with weights"},
		{"people", listShape{of: personKeys, most: maxPeople}, true, "", "the team, in roster order"},
		{"begin", nameOf("a spot"), false, "the centre of camp", "where everybody is on arrival who begins nowhere else"},
		{"free", idleKeys, false, "low effort, and in where it is warm", "what people do who have nothing to do, for the cold account"},
		{"tools", namedShape{"tool", count, 100}, false, "none", "how many tools are carried by hand, there from the start"},
		{"loads", namedShape{"load", loadKeys, 50}, false, "none", "sleds and packs"},
		{"stoves", namedShape{"stove", stoveKeys, 50}, false, "none", "kinds of stove"},
		{"shelters", namedShape{"shelter", shelterKeys, 50}, false, "none", "tents and huts, for warming"},
		{"tasks", namedShape{"task", taskKeys, maxTasks}, true, "", "what there is to do"},
		{"lookouts", namedShape{"lookout", lookoutKeys, 50}, false, "none", "standing duties with relief"},
		{"milestones", namedShape{"milestone", milestoneKeys, 100}, false, "finish only", "moments people ask about"},
		{"orders", namedShape{"order", orderKeys, 100}, false, "file order", "drill orders; the first is played unless another is asked for"},
		{"what if", namedShape{"change", changeKeys, 30}, false, "none", "changes of the scenario, each played under every order"},
		{"teamwork", teamworkShape, false, "0.9", "exponent x: a crew of n does n^x times the work of one"},
		{"day", quantityShape{d: inShare, low: "0 %", high: "100 %"}, false, "0 %", "how much the work of a whole run varies from day to day"},
	}}
}

var teamworkShape = numberShape{"0", "2", 6, false}

var idleKeys = &object{name: "free", say: "what people do who have nothing to do; the timeline does not change by it", keys: []key{
	{"effort", effort, false, "low", "outdoors; in a shelter they rest"},
	{"go in", yesShape{}, false, "true", "whether they go into a warm shelter"},
}}

var siteKeys = &object{name: "site", say: "where and when the team halts; t = 0 is the arrival", keys: []key{
	{"latitude", numberShape{"-90", "90", 8, false}, false, "unknown: no light, no dark", "degrees, north positive"},
	{"longitude", numberShape{"-180", "180", 8, false}, false, "unknown", "degrees, east positive"},
	{"elevation", quantityShape{d: inLength, low: "-500 m", high: "8600 m"}, false, "0 m", "above the sea; sets the boiling point (its formula ends at some 8650 m)"},
	{"arrival", momentShape{}, false, "unknown: no clock times, no dark", "as 2027-01-16 14:55 +02:00; light and clock times follow from it"},
	{"snow", &object{name: "snow", say: "the snow on the site", keys: []key{
		{"depth", quantityShape{d: inLength, low: "0 m", high: "20 m"}, false, "unknown", "for the condition snow deeper than"},
		{"density", quantityShape{d: inDensity, low: "0 kg/m3", high: "917 kg/m3", over: true}, false, "unknown", "how many pots of snow make a pot of water; at most that of ice"},
		{"temperature", quantityShape{d: inTemperature, low: "-90 C", high: "0 C"}, false, "unknown", "needed where snow is melted"},
	}}, false, "unknown", "its depth, density and temperature"},
	{"lights", wordShape{"none", "headlamps"}, false, "none", "whether the team has lights: dark, or dark with lights"},
}}

var spotKeys = &object{name: "spot", say: "a place on the site", keys: []key{
	{"walk", quantityShape{d: inTime, low: "0 s", high: "24 h"}, false, "0 min", "from the centre of camp, one way, by day and night"},
	{"bearing", numberShape{"0", "360", 6, false}, false, "0", "degrees from north, for pictures only"},
	{"sheltered", share, false, "0 %", "the share of the wind that it is spared"},
	{"in", nameOf("a shelter"), false, "outdoors", "the shelter that it lies in"},
}}

var weatherRows = listShape{of: &object{name: "weather row", say: "what it is like from a moment on", keys: []key{
	{"at", lagTime, true, "", "time since arrival; rows rise from 0 min"},
	{"air", quantityShape{d: inTemperature, low: airLow, high: airHigh}, true, "", "air temperature"},
	{"wind", quantityShape{d: inSpeed, low: "0 m/s", high: windHigh}, false, "0 m/s", "at 10 m above the ground, as forecast"},
	{"humidity", share, false, "85 %", "relative humidity"},
	{"from", numberShape{"0", "360", 6, false}, false, "unknown", "where the wind comes from, degrees from north; for the camp sketch only"},
}}, most: 500}

var weatherShape = weatherForm{anyOf{is: "a list of rows, or named cases",
	list: weatherRows,
	mapping: namedShape{"weather case", &object{name: "weather case", say: "one way in which the weather may go", keys: []key{
		{"weight", quantityShape{d: inShare, low: "0 %", high: "100 %"}, true, "", "how likely it is, against the weights of the others"},
		{"rows", weatherRows, true, "", "its rows"},
	}}, 20}}}

var clothingKeys = &object{name: "clothing", say: "basic insulation of what is worn", keys: []key{
	{"like", classShape{"clothing", clothingNames()}, false, "winter", "a class of clothing"},
	{"march", quantityShape{d: inClothing, low: "0 clo", high: "20 clo"}, false, "as the class", "until the task marked layers on has ended"},
	{"halt", quantityShape{d: inClothing, low: "0 clo", high: "20 clo"}, false, "as the class", "from then on, and on lookouts"},
}}

var personKeys = &object{name: "person", say: "one of the team", keys: []key{
	{"name", line, true, "", "no two share one"},
	{"skills", listShape{of: line, most: 64, none: true}, false, "none", "what the person may be asked for"},
	{"pace", numberShape{"0", "100", 3, true}, false, "1", "work done in a minute, 1 for most; at most three decimals"},
	{"day", quantityShape{d: inShare, low: "0 %", high: "100 %"}, false, "0 %", "how much the person's own pace varies from day to day"},
	{"clothing", clothingKeys, false, "like winter", "for the cold account"},
	{"damp", share, false, "0 %", "the share of the insulation lost until dry"},
	{"arrives", arrival, false, "0 min", "when the person gets to where he or she begins; may be drawn"},
	{"begin", nameOf("a spot"), false, "as the scenario says", "where the person is on arrival"},
	{"casualty", yesShape{}, false, "false", "in no crew and at no lookout, and without an account of cold"},
}}

var loadKeys = &object{name: "load", say: "a sled or pack whose items come off top first", keys: []key{
	{"arrives", arrival, false, "0 min", "when it gets to the centre of camp; may be drawn"},
	{"limit", quantityShape{d: inMass, low: "0 kg", high: "100000 kg", over: true}, false, "none", "what it may weigh; over it is a mistake"},
	{"crew", crewShape{}, false, "1", "the crew of each unloading; no more than its minimum is called"},
	{"pack", listShape{of: &object{name: "item", say: "a thing on a load; its unloading is the task \"unpack ITEM\"", keys: []key{
		{"item", line, true, "", "no two items share a name, nor an item and a load"},
		{"weight", quantityShape{d: inMass, low: "0 kg", high: "10000 kg"}, false, "0 kg", "counts against the limit"},
		{"takes", drawn, false, "0 min", "clock time to take it off; may be drawn"},
		{"brings", namedShape{"tool or stove", wholeShape{1, 1000}, 50}, false, "nothing", "the tools or stoves that are there once it is off"},
	}}, most: 200}, true, "", "items, top first"},
}}

var stoveKeys = &object{name: "stove", say: "a kind of stove", keys: []key{
	{"like", classShape{"stove", stoveNames()}, false, "none", "a class of stove; own values override it"},
	{"count", count, false, "all that items bring, or 1", "how many of them work; 0 is none"},
	{"power", quantityShape{d: inPower, low: "0 W", high: "200 kW", over: true}, false, "needed without like", "heat of the fuel burnt"},
	{"efficiency", quantityShape{d: inShare, low: "0 %", high: "100 %", over: true}, false, "needed without like", "the share that gets into the pot or the shelter"},
	{"fuel", wordShape(fuelNames()), false, "unknown: no fuel reported", "what it burns"},
	{"holds pots", yesShape{}, false, "false", "whether a pot may stand on it while it warms a shelter"},
	{"to pots", quantityShape{d: inShare, low: "0 %", high: "100 %", over: true}, false, "needed with holds pots", "the share of its power that a pot on it gets, also while it warms nothing"},
	{"flue", yesShape{}, false, "false", "whether its exhaust goes outdoors when it warms a shelter"},
}}

// The values of a shelter, which makes may change.
var (
	roomShape     = quantityShape{d: inRoom, low: "0 m3", high: "10000 m3", over: true}
	skinShape     = quantityShape{d: inArea, low: "0 m2", high: "10000 m2", over: true}
	lossShape     = quantityShape{d: inLoss, low: "0 W/m2K", high: "100 W/m2K", over: true}
	changesShape  = quantityShape{d: inChanges, low: "0 /h", high: "1000 /h"}
	contentsShape = quantityShape{d: inHeat, low: "0 kJ/K", high: "1000000 kJ/K"}
)

var shelterKeys = &object{name: "shelter", say: "a tent or hut as a body of air with a skin", keys: []key{
	{"like", classShape{"shelter", shelterNames()}, false, "none", "a class of shelter; own values override it"},
	{"volume", roomShape, false, "needed without like", "of the air inside"},
	{"skin", skinShape, false, "needed without like", "area through which heat is lost, floor included"},
	{"u", lossShape, false, "needed without like", "heat lost through the skin"},
	{"air changes", changesShape, false, "1 /h", "how often the air is renewed in an hour"},
	{"contents", contentsShape, false, "0 kJ/K", "heat capacity of what is warmed besides the air"},
	{"sleeps", wholeShape{0, 1000}, false, "0: unknown", "how many people"},
	{"at start", quantityShape{d: inTemperature, low: "-50 C", high: "60 C"}, false, "the air outside", "how warm it is inside on arrival"},
}}
