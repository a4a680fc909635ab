package scenarios

var taskKeys = &object{name: "task", say: "a piece of work (work, timed), a wait or fixed job (takes), a melt or a warm-up: exactly one of the five", keys: []key{
	{"what", textShape{long: true}, false, "its name", "a sentence for people"},
	{"work", drawn, false, "one of the five", "person-minutes at pace 1; may be drawn"},
	{"timed", &object{name: "timed", say: "work as it was timed with some people", keys: []key{
		{"people", wholeShape{1, maxPeople}, true, "", "how many people were timed, pace 1, nothing slowed"},
		{"minutes", drawn, true, "", "how long they took, with a unit; may be drawn"},
	}}, false, "one of the five", "work as it was timed with some people"},
	{"takes", drawn, false, "one of the five", "clock time: crew, pace and slowdowns do not change it; may be drawn"},
	{"day", yesShape{}, false, "false", "whether the day's factor counts for it too; takes only"},
	{"melt", meltKeys, false, "one of the five", "water from snow or an ice hole"},
	{"warm", warmKeys, false, "one of the five", "a shelter brought to a temperature"},
	{"crew", crewShape{all: true}, false, "1", "how many people; 0 needs nobody, all is everybody of the group"},
	{"who", listShape{of: nameShape{"a person"}, most: maxPeople, none: true}, false, "anybody", "the only people who may be of its crew"},
	{"each", yesShape{}, false, "false", "one task a person, \"NAME: Person\", which only that person does; work and takes only, without crew"},
	{"skills", namedShape{"skill", countShape{maxPeople, "all"}, 64}, false, "none", "so many different people, each in one role; all asks it of everyone"},
	{"tools", namedShape{"tool", countShape{1000, "each"}, 50}, false, "none", "held from the call until the task ends; each is one for each person"},
	{"needs", namesOf("an item", 200), false, "nothing", "items that must be off their load"},
	{"spot", nameOf("a spot"), false, "the centre of camp", "where it is done"},
	{"after", listShape{of: afterShape, most: 200, none: true}, false, "nothing", "tasks that must have ended, or begun, before it starts"},
	{"joinable", yesShape{}, false, "true for work and timed with a crew range", "whether free people may join once work has begun"},
	{"teamwork", teamworkShape, false, "that of the scenario", "exponent x for this task; work and timed only"},
	{"slowed", listShape{of: &object{name: "slowdown", say: "a condition that makes work or a melt take longer", keys: []key{
		{"when", conditionShape{}, true, "", "the condition; at the very value below and over do not hold"},
		{"to", quantityShape{d: inShare, low: "0 %", high: "100000 %", over: true}, true, "", "the time that it makes of the usual time"},
	}}, most: 20}, false, "never", "factors of all conditions that hold multiply; work, timed and melt only"},
	{"mishap", &object{name: "mishap", say: "something that makes a task last longer", keys: []key{
		{"chance", chanceShape, true, "", "how likely it is; another chance with a condition, if it is so at the start of the work"},
		{"adds", drawn, true, "", "clock time added after the work; may be drawn"},
		{"again", yesShape{}, false, "false", "whether it may happen again after each time"},
		{"at most", wholeShape{1, 1000}, false, "1; needed with again", "how often in all"},
	}}, false, "none", "something that may make it last longer"},
	{"makes", namedShape{"shelter", makeKeys, 50}, false, "nothing", "what is different about shelters from its end on"},
	{"puts out", namesOf("a stove", 50), false, "nothing", "kinds of stove that warm shelters and go out when it ends"},
	{"can wait", yesShape{}, false, "false", "compare also plays without it"},
	{"layers on", yesShape{}, false, "false", "from its end people put on what they wear at the halt; with each, the person who did it"},
	{"worn", wordShape{"march", "halt"}, false, "by effort, once layers are on", "what its people wear, for the cold account"},
	{"dry clothes", yesShape{}, false, "false", "from its end its people are damp no more"},
	{"felling", yesShape{}, false, "false", "trees are felled: for a caution"},
	{"effort", effort, false, "moderate for work and timed, else low", "for the cold account"},
	{"hands", wordShape{"bare", "thin", "mittens"}, false, "mittens", "what is on the hands, for the cold account"},
}}

var chanceShape = anyOf{is: "a share, or {usually: share, when: condition, then: share}", scalar: share,
	mapping: &object{name: "chance", say: "how likely a mishap is, when that hangs on a condition at the start of work on the task", keys: []key{
		{"usually", share, true, "", "the chance without the condition"},
		{"when", conditionShape{}, true, "", "the condition, as in slowed"},
		{"then", share, true, "", "the chance with it"},
	}}}

var afterShape = anyOf{is: "a task, or {task: name, from: start or end, lag: time}", scalar: nameOf("a task"),
	mapping: &object{name: "after", say: "what a task comes after", keys: []key{
		{"task", nameOf("a task"), true, "", "the task before"},
		{"from", wordShape{"start", "end"}, false, "end", "start counts from the start of work on it"},
		{"lag", lagTime, false, "0 min", "how long after; not negative"},
	}}}

var meltKeys = &object{name: "melt", say: "water made hot, from snow or an ice hole", keys: []key{
	{"water", quantityShape{d: inVolume, low: "0 L", high: "10000 L", over: true}, true, "", "how much is wanted in all"},
	{"to", quantityShape{d: inTemperature, low: "0 C", high: "100 C", word: "boil"}, true, "", "the boiling point there, or a temperature"},
	{"stove", nameOf("a stove"), true, "", "the kind of stove that it burns"},
	{"pot", quantityShape{d: inVolume, low: "0 L", high: "1000 L", over: true}, false, "as large as the water", "how much a filling holds; water / pot fillings, rounded up"},
	{"start with", quantityShape{d: inVolume, low: "0 L", high: "1000 L"}, false, "0 L", "water at 0 C that is there already and counts once"},
	{"from", wordShape{"snow", "ice hole"}, false, "snow", "an ice hole gives water at 0 C"},
	{"handling", quantityShape{d: inTime, low: "0 s", high: "24 h"}, false, "0 min", "clock time for each filling"},
}}

var warmKeys = &object{name: "warm", say: "a shelter brought to a temperature", keys: []key{
	{"shelter", nameOf("a shelter"), true, "", "which"},
	{"stove", nameOf("a stove"), true, "", "the kind of stove that it burns"},
	{"to", quantityShape{d: inTemperature, low: "-50 C", high: "60 C"}, true, "", "the temperature asked"},
	{"people", wholeShape{0, maxPeople}, false, "0", "each gives 100 W from the start"},
}}

var makeKeys = &object{name: "change to a shelter", say: "values that a task changes", keys: []key{
	{"volume", roomShape, false, "as before", "of the air inside"},
	{"skin", skinShape, false, "as before", "area through which heat is lost"},
	{"u", lossShape, false, "as before", "heat lost through the skin"},
	{"air changes", changesShape, false, "as before", "in an hour"},
	{"contents", contentsShape, false, "as before", "heat capacity besides the air"},
}}

var lookoutKeys = &object{name: "lookout", say: "a standing duty with relief", keys: []key{
	{"people", wholeShape{1, maxPeople}, false, "1", "how many places it has"},
	{"from", markShape{}, false, "0 min", "when it begins: a time, or tasks that must have ended"},
	{"until", markShape{}, false, "the end of the drill", "when it ends: a time, or tasks of which the first that starts ends it"},
	{"unless somebody works there", yesShape{}, false, "false", "whether it needs nobody while people are at work at its spot or in its shelter"},
	{"relief", quantityShape{d: inTime, low: "10 s", high: lagHigh}, false, "none: the first stays", "time from one relief to the next"},
	{"spot", nameOf("a spot"), false, "the centre of camp", "where it stands"},
	{"who", namesOf("a person", maxPeople), false, "everyone who has arrived", "who may be called"},
	{"if nobody is free", wordShape{"wait", "skip", "pull"}, false, "wait", "wait for the first to come free, skip until the next relief, or pull somebody from a joinable task"},
	{"longest", quantityShape{d: inTime, low: "0 s", high: lagHigh, over: true}, false, "no bound", "reported when somebody stands longer"},
	{"effort", effort, false, "standing at rest", "for the cold account"},
}}

var milestoneKeys = &object{name: "milestone", say: "a moment people ask about: when all its tasks have ended", keys: []key{
	{"when", namesOf("a task", 1000), false, "needed, but for finish", "tasks; unloading is named \"unpack ITEM\""},
	{"by", targetShape{}, false, "no target", "when it is wanted"},
}}

var ruleShape = wordShape{"overtake", "in turn"}

var orderKeys = &object{name: "order", say: "who does which tasks in which sequence: a sequence for all, or groups", keys: []key{
	{"sequence", listShape{of: nameShape{"a task"}, most: 1000, none: true}, false, "file order", "tasks, looked at in this sequence; also \"unpack ITEM\" and \"unpack LOAD\""},
	{"groups", namedShape{"group", &object{name: "group", say: "some people with a sequence of their own", keys: []key{
		{"people", listShape{of: nameShape{"a person"}, most: maxPeople, none: true}, false, "those whom no group names, in the first", "nobody belongs to two"},
		{"sequence", listShape{of: nameShape{"a task"}, most: 1000, none: true}, false, "nothing", "as in an order"},
		{"then", nameOf("a group, or all"), false, "nowhere", "the group that gets the people when nothing is left to start"},
		{"rule", ruleShape, false, "that of the order", "as in an order"},
	}}, 50}, false, "one, of everyone", "instead of sequence"},
	{"rule", ruleShape, false, "overtake", "whether a task that may not start is passed over, or stops the scan"},
	{"crews", namedShape{"task", crewShape{}, 500}, false, "as in the tasks", "narrows the crews of tasks"},
}}

// changeKeys declares a what-if: the same sections as the file, each with
// only what is different.
var changeKeys = &object{name: "change", say: "what is different; what is not named stays", keys: []key{
	{"site", anything{}, false, "as is", "values of the site"},
	{"spots", anything{}, false, "as is", "values of spots"},
	{"weather", anything{}, false, "as is", "other rows, or values of weather cases"},
	{"people", anything{}, false, "as is", "NAME: absent, NAME: {hurt: time, helpers: number or names, spot: name}, or values of a person"},
	{"tools", anything{}, false, "as is", "other numbers of tools"},
	{"loads", anything{}, false, "as is", "values of loads; a pack is replaced as a whole"},
	{"stoves", anything{}, false, "as is", "values of stoves"},
	{"shelters", anything{}, false, "as is", "values of shelters"},
	{"tasks", anything{}, false, "as is", "values of tasks"},
	{"lookouts", anything{}, false, "as is", "values of lookouts"},
	{"milestones", anything{}, false, "as is", "values of milestones"},
	{"teamwork", anything{}, false, "as is", "another exponent"},
	{"day", anything{}, false, "as is", "another variation"},
}}
