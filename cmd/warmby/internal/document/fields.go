package document

import (
	"reflect"
	"slices"
	"strings"
)

// Field is a name of the documents with what it means, wherever it stands.
type Field struct{ Name, Unit, Meaning string }

// Units of fields. Most follow from the end of the name.
const (
	seconds = "s"
	ofRuns  = "share of runs"
	runs    = "runs"
	whPerM2 = "Wh/m2"
)

// Fields tells every name, by the alphabet. A name with _ci95 in it is the 95 %
// interval of the value named without: [low, high].
var Fields = []Field{
	{"a", "", "an order that is held against another, b"},
	{"a_sooner", ofRuns, "in which a comes sooner than b; ties count for neither"},
	{"account", "", "of a person: the account of cold, line by line (see below); of a split: how cold its coldest gets"},
	{"activity", "", "working, walking, lookout or waiting"},
	{"ahead", "", "the order that is sooner beyond what luck explains; null when there is no telling"},
	{"aim", "", "what was aimed at first"},
	{"aims", "", "all that was aimed at, in sequence"},
	{"air_c", "degrees C", "air around the person"},
	{"air_movement_m_s", "m/s", "air movement at the body"},
	{"all_cases", "", "by order: the latest arrival that keeps the odds in all cases"},
	{"all_targets", "0 to 1", "evenings in which every target is met, in the worst case"},
	{"all_well", "0 to 1", "evenings in which every target is met and nobody passes the cold limit, in the worst case"},
	{"arrival", "clock", "an arrival that was tried"},
	{"arrival_at", "date and time", "the same"},
	{"as_quickly", ofRuns, "in which the milestone comes at least as soon as in the drill as played"},
	{"at_end_c", "degrees C", "air in a shelter when the drill ends"},
	{"at_s", seconds, "when the most heat was lost, or the milestone came"},
	{"average_inside", "people", "inside on average, from the start of a warm-up until its stove is out"},
	{"average_warming", "people", "inside on average while the warm-up goes on"},
	{"b", "", "the order that a is held against"},
	{"b_sooner", ofRuns, "in which b comes sooner than a"},
	{"because", "", "what in the scenario calls for a caution"},
	{"before", "", "the order to beat"},
	{"before_s", seconds, "the mean of each aim under the order to beat"},
	{"behind", "", "how far an order is behind the best, by aim"},
	{"bends_least", "", "by number of people: the split that loses least in any case"},
	{"best", "", "in a row: whether it is the best split of its size; at the top: the best splits themselves"},
	{"best_s", seconds, "the mean of each aim under the best order found"},
	{"bound_ci95_s", seconds, "interval of bound_s"},
	{"bound_s", seconds, "what no order can beat in the first aim"},
	{"bounds_ci95_s", seconds, "intervals of bounds_s"},
	{"bounds_s", seconds, "what no order can beat, by aim"},
	{"busy_s", seconds, "working, in all"},
	{"by_s", seconds, "the target of a milestone; null without one; below 0 when it has passed on arrival"},
	{"call_outs", "", "the tasks whose ends are called out, by when they end"},
	{"called_s", seconds, "when the crew was called"},
	{"calls_out", "", "whether this person calls out that it is done"},
	{"can_wait", "", "what leaving out each task marked so wins"},
	{"cards", "", "how many cards there are"},
	{"case", "", "a what-if, or \"\" for the scenario as it stands"},
	{"cases", "", "the same answers for each case"},
	{"cautions", "", "what the scenario calls for to be careful about"},
	{"changes", "", "what an order changes against the order to beat"},
	{"ci95", "as its value", "the 95 % interval of the value beside it; null where there is none"},
	{"ci95_s", seconds, "the 95 % interval of the mean beside it; null where there is none"},
	{"clothing_clo", "clo", "what is worn, less what damp takes of it"},
	{"cold", "", "the account of cold; null where none can be kept"},
	{"coldest", "", "who loses most heat, with usual values"},
	{"coldest_c", "degrees C", "the coldest that a shelter gets once it is warm; null when it never is"},
	{"coldest_runs", runs, "in which nobody is colder"},
	{"column", "", "where in the line of a file, from 1"},
	{"compare", "", "the answer of compare"},
	{"count", runs, "in which it is so"},
	{"counts_on", "people", "inside, as a warm-up reckons"},
	{"crews", "people", "of an order: crews that it bounds, \"1-2\""},
	{"critical", "", "whether the task is on the critical sequence of the finish"},
	{"critical_in", ofRuns, "in which the task is on the critical sequence of the milestone"},
	{"critical_runs", runs, "behind critical_in"},
	{"dark_s", seconds, "when it grows dark; 0 when it is on arrival"},
	{"debt_wh_m2", whPerM2, "heat lost and not yet won back at the end of the line"},
	{"defer_to", "", "who knows better"},
	{"differences", "", "every two orders held against each other, by milestone"},
	{"end_s", seconds, "when a task ended"},
	{"evaluations", "drills", "how many were played in the search"},
	{"evenings", "", "in what share of evenings an order goes as it should"},
	{"exploratory", "", "nobody said beforehand that this was the question: not among those that hold together"},
	{"facts", "", "what is known of tonight, in words"},
	{"file", "", "FILE as it was given"},
	{"files", "", "what was checked"},
	{"findings", "", "mistakes, warnings and notes"},
	{"finish_s", seconds, "when the last task ended"},
	{"first", ofRuns, "in which no other order is sooner"},
	{"first_run", "", "the first run that came to a stop"},
	{"first_share", "0 to 1", "first, of the milestone that first_share_milestone names"},
	{"first_share_milestone", "", "what first_share is about"},
	{"from_s", seconds, "where a stretch or a line begins"},
	{"fuel", "", "what each kind of stove burned"},
	{"gain", "", "difference in the first aim against the order to beat: above 0 is sooner"},
	{"gains", "", "the same, by aim"},
	{"goal", "", "what was asked in a share of evenings: all well, all targets or nobody cold"},
	{"good", "", "whether a file has no mistake"},
	{"group", "", "the group that did the task"},
	{"groups", "", "parts of the team with a sequence each; in a row: how many"},
	{"hands_over_to", "", "who takes over at a lookout, or stays on at a task"},
	{"hazard", "", "what the wind chill does to bare skin"},
	{"held_up", "", "the tasks that decided the milestone, in sequence"},
	{"hint", "", "a likely cure"},
	{"humidity", "0 to 1", "of the air"},
	{"idle_s", seconds, "waiting, in all"},
	{"in_down_jacket", "", "whether most of the sweat comes in what is worn at the halt"},
	{"indoors", "", "in a warm shelter"},
	{"interrupted", "", "whether the search was ended before its time"},
	{"kilograms", "kg", "fuel burned"},
	{"kind", "", "of a finding: mistake, warning, note and the like; of worth: order, person, skilled, skill, tool, stove, packing"},
	{"known", "", "whether it is an order of the file"},
	{"language", "", "of the fixed words, as it was asked for"},
	{"later", "", "where more people are later, beyond what luck explains"},
	{"later_ci95_s", seconds, "interval of later_s"},
	{"later_in", ofRuns, "in which it is later with it"},
	{"later_s", seconds, "by how much later, on average"},
	{"latest", "clock", "the latest arrival that keeps the odds; null when none that was tried does"},
	{"latest_at", "date and time", "the same"},
	{"latest_in", "", "the case in which a split loses most"},
	{"latest_s", seconds, "the mean of the milestone in that case"},
	{"latest_sure", "clock", "the latest arrival that keeps the odds at the lower end of its interval too"},
	{"least", "", "the split that loses least in any case"},
	{"least_wh_m2", whPerM2, "the most heat lost with a metabolic rate a fifth higher"},
	{"leave_when_late", "", "tasks of this person that can wait"},
	{"left_out", "", "cases that have no part in it"},
	{"left_out_why", "", "why a case has no part in it"},
	{"length_s", seconds, "how long it lasts"},
	{"less_s", seconds, "by how much a task is made shorter"},
	{"limit_wh_m2", whPerM2, "the limit of heat lost (ISO 11079)"},
	{"line", "", "of a file, from 1"},
	{"lit_s", seconds, "when a stove first burns in a shelter, 0 where it is warm at the start; null when none does"},
	{"litres", "L", "fuel burned; null where the heat of the fuel is not known"},
	{"lookout", "", "where somebody stands"},
	{"lookout_s", seconds, "standing at lookouts, in all"},
	{"mean_ci95_s", seconds, "interval of mean_s"},
	{"mean_s", seconds, "a mean of moments or of differences: below 0 when the first is sooner, in gains when it is later; null when some run never gets there"},
	{"message", "", "what was found"},
	{"met", "", "whether the target was met; null without one"},
	{"milestone", "", "the milestone that it is about"},
	{"milestones", "", "by milestone, in file order"},
	{"most_wh_m2", whPerM2, "the most heat lost with a metabolic rate a fifth lower"},
	{"name", "", "of a person, milestone, order or group"},
	{"needs_w", "W", "what the stove makes up for on average: the heat of those who are not inside; below 0 for too many"},
	{"never", runs, "in which it never comes"},
	{"never_in", ofRuns, "in which it never comes"},
	{"no_cold_why", "", "why there is no account of cold"},
	{"no_order_before_s", seconds, "what no order can beat"},
	{"nobody_cold", "0 to 1", "evenings in which nobody passes the cold limit, in the worst case"},
	{"now_after", "", "a task comes after this one now"},
	{"now_before", "", "a task comes before this one now"},
	{"odds", "0 to 1", "how often it must be in time, as asked"},
	{"on_time", ofRuns, "in which the target is met; null without one"},
	{"order", "", "an order by its name; in improve as the file would have it"},
	{"orders", "", "by order; of a checked file: how many"},
	{"out_s", seconds, "when no stove burns in a shelter any more; null when none ever did, or one burns to the end"},
	{"over_limit", ofRuns, "in which the limit of cold is passed, by this person or by anybody"},
	{"over_limit_runs", runs, "in which this person passes it"},
	{"own_cautions", "", "topics that matter to what this person does, the most urgent first"},
	{"own_tasks", "", "what is done in a step, as people call it: without the name of who does it for himself"},
	{"p50_ci95_s", seconds, "interval of p50_s"},
	{"p50_ci95_wh_m2", whPerM2, "interval of p50_wh_m2"},
	{"p50_s", seconds, "it has come by then in half of the runs"},
	{"p50_wh_m2", whPerM2, "what the coldest person has lost at most, in half of the runs"},
	{"p80_ci95_s", seconds, "interval of p80_s"},
	{"p80_s", seconds, "it has come by then in 8 of 10 runs"},
	{"p90_ci95_s", seconds, "interval of p90_s"},
	{"p90_ci95_wh_m2", whPerM2, "interval of p90_wh_m2"},
	{"p90_s", seconds, "it has come by then in 9 of 10 runs"},
	{"p90_wh_m2", whPerM2, "what the coldest person has lost at most, in 9 of 10 runs"},
	{"p95_ci95_s", seconds, "interval of p95_s"},
	{"p95_s", seconds, "it has come by then in 19 of 20 runs"},
	{"p_holm", "0 to 1", "p value of the difference, adjusted for being one of several (Holm)"},
	{"pages", "", "of paper"},
	{"passed_at_s", seconds, "when the limit of cold is passed; null when it is not"},
	{"peak_wh_m2", whPerM2, "the most heat lost at any moment"},
	{"people", "", "who; in a row: how many; else by person, in roster order"},
	{"person", "", "who passes the limit of cold"},
	{"pieces", "", "how many of it"},
	{"points", "", "by arrival"},
	{"primary", "", "the milestones that the question is about"},
	{"rank_ci95", "-1 to 1", "interval of rank_correlation"},
	{"rank_correlation", "-1 to 1", "of the task's length with the milestone (Spearman)"},
	{"rank_runs", runs, "behind rank_correlation"},
	{"rate_w_m2", "W/m2", "metabolic rate"},
	{"rehearse", "", "the answer of rehearse"},
	{"relieve_by_s", seconds, "by when somebody should take over: when the limit is reached, if need be after the end"},
	{"relieves", "", "who stands at the lookout until then"},
	{"remarks", "", "what the facts bring about, such as a target that has passed"},
	{"repeat", "", "the command that gives this answer again"},
	{"rows", "", "by number of people and split"},
	{"rule", "", "of a group: how its sequence is taken"},
	{"run", "", "which run was drawn; null for usual values"},
	{"runs", runs, "behind the figures; 0 for usual values only"},
	{"scenario", "", "FILE as it was given"},
	{"schema_version", "", "of this document; a change of meaning makes it one more"},
	{"seed", "", "what the runs were drawn with; null for usual values"},
	{"sequence", "", "tasks in sequence"},
	{"share", "0 to 1", "count of runs"},
	{"shelter", "", "a shelter by its name"},
	{"shelters", "", "how warm each shelter was"},
	{"shorten_first", "", "the task that is best made shorter; null when none helps"},
	{"sooner_in", ofRuns, "in which it is sooner with it"},
	{"sooner_s", seconds, "by how much sooner the milestone comes, on average"},
	{"split", "", "how the team is split: best, 2 groups, or an order of the file"},
	{"spot", "", "where; where to while walking"},
	{"start_s", seconds, "when work on a task began"},
	{"steps", "", "what a person does, one thing after the other"},
	{"stopped", "", "runs that came to a stop before the end"},
	{"stored_w_m2", "W/m2", "heat that the body stores; below 0 it loses"},
	{"stove", "", "a kind of stove"},
	{"stoves_alone", "", "times of over a minute in which a stove burns in a shelter with nobody there"},
	{"stretches", "", "what the person did from when to when"},
	{"sweat_g", "g", "sweat, about"},
	{"sweats", "", "what the person sweats at, the most first"},
	{"take", "", "tools, items and the stove of a step"},
	{"task", "", "a task by its name"},
	{"tasks", "", "by task; of a checked file: how many"},
	{"text", "", "a caution in full"},
	{"than_people", "people", "the smaller team"},
	{"then", "", "which groups a group helps when it is done"},
	{"time_s", seconds, "when the milestone was reached; null for never"},
	{"times", "", "by case and split"},
	{"title", "", "what the scenario calls itself"},
	{"to_s", seconds, "where a stretch or a line ends"},
	{"told", "", "whether the difference is more than luck explains"},
	{"topic", "", "of a caution"},
	{"tried", "splits", "how many were tried"},
	{"under", "", "the order, or the best split, with which it was played"},
	{"unmet", "", "what was asked and no order reaches"},
	{"usual", seconds, "by milestone: when it comes with usual values"},
	{"usual_bound", seconds, "by milestone: what no order can beat with usual values"},
	{"values_s", seconds, "the mean of each aim"},
	{"verdict", "", "against the limit of cold: within, near, over or far over"},
	{"walk_s", seconds, "walking, in all"},
	{"warm_s", seconds, "when a shelter is warm: the end of its first warm-up; null for never"},
	{"warm_ups", "", "by warm-up that began: who was inside"},
	{"warm_with_those_s", seconds, "when the warm-up would end with so many inside as there are while it goes on; null when not in the drill"},
	{"warnings", "", "what must be known before the figures are used; of a checked file: how many"},
	{"weather", "", "the weather case that was played"},
	{"what", "", "what is added"},
	{"what_if", "", "a what-if of the file; null or \"\" for the scenario as it stands"},
	{"what_ifs", "", "by what-if; of a checked file: how many"},
	{"what_moves_it", "", "on which tasks a milestone hangs"},
	{"where", "", "the group it is added to"},
	{"why", "", "why it is so, or why there is no value"},
	{"wind_chill", "index", "the worst wind chill met outdoors"},
	{"with", "", "who else is there meanwhile"},
	{"won_ci95", "minutes", "interval of won_per_minute"},
	{"won_per_minute", "minutes", "by how much sooner the milestone comes for each minute less of the task"},
	{"won_runs", runs, "behind won_per_minute"},
	{"won_s", seconds, "how much sooner it is with it; below 0 later"},
	{"won_why", "", "why there is no won_per_minute"},
	{"worth", "", "what one more is worth"},
}

// FieldNamed returns the field of a name.
func FieldNamed(name string) (Field, bool) {
	i := slices.IndexFunc(Fields, func(f Field) bool { return f.Name == name })
	if i < 0 {
		return Field{}, false
	}
	return Fields[i], true
}

// Names returns the names that a document has at any depth, by the alphabet.
func Names(document any) []string {
	seen := map[reflect.Type]bool{}
	names := map[string]bool{}
	gather(reflect.TypeOf(document), seen, names)
	var list []string
	for n := range names {
		list = append(list, n)
	}
	slices.Sort(list)
	return list
}

func gather(t reflect.Type, seen map[reflect.Type]bool, names map[string]bool) {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || seen[t] {
		return
	}
	seen[t] = true
	for i := range t.NumField() {
		f := t.Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name != "" && name != "-" {
			names[name] = true
		}
		gather(f.Type, seen, names)
	}
}
