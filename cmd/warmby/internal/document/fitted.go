package document

// Fitted is what a stop-watch log says of a scenario.
type Fitted struct {
	Head
	Invented   bool           `json:"invented"`
	Drills     []FittedDrill  `json:"drills"`
	Work       FactorRange    `json:"all_work_factor"`
	Day        float64        `json:"day"`
	Tasks      []FittedTask   `json:"tasks"`
	Mishaps    []FittedMishap `json:"mishaps"`
	Stoves     []FittedStove  `json:"stoves"`
	Milestones []FittedMoment `json:"milestones"`
	Left       []Cover        `json:"left_out"`
	Off        []Off          `json:"off"`
	Warnings   []string       `json:"warnings"`
	Remarks    []string       `json:"remarks"`
	Repeat     string         `json:"repeat"`
}

// FittedDrill is one drill of the log.
type FittedDrill struct {
	Name      string   `json:"name"`
	Team      string   `json:"team"`
	Date      string   `json:"date"`
	Order     string   `json:"order"`
	CalledOff bool     `json:"called_off"`
	Unused    []string `json:"unused_tasks"`
}

// FactorRange is a middle value and what it lies between with 8 in 10.
type FactorRange struct {
	Middle float64 `json:"middle"`
	Low    float64 `json:"low80"`
	High   float64 `json:"high80"`
}

// FittedTask is how long one task takes: by the log, by the file, and to plan with.
type FittedTask struct {
	Name   string  `json:"name"`
	Rows   int     `json:"rows"`
	Log    Seconds `json:"log_s"`
	File   Seconds `json:"file_s"`
	Plan   Seconds `json:"plan_s"`
	Low    Seconds `json:"low80_s"`
	High   Seconds `json:"high80_s"`
	Worth  float64 `json:"file_worth_drills"`
	Median Seconds `json:"law_median_s"`
	Spread float64 `json:"law_spread"`
}

// FittedMishap is how often the mishap of a task happens.
type FittedMishap struct {
	Task     string  `json:"task"`
	When     string  `json:"when,omitempty"`
	Happened int     `json:"happened"`
	Drills   int     `json:"drills"`
	File     float64 `json:"file"`
	Plan     float64 `json:"plan"`
	Low      float64 `json:"low80"`
	High     float64 `json:"high80"`
	Adds     Seconds `json:"adds_s"`
}

// FittedStove is the efficiency of a stove.
type FittedStove struct {
	Stove  string  `json:"stove"`
	File   float64 `json:"file"`
	ByTime float64 `json:"by_time"`
	Melts  int     `json:"melts"`
	ByFuel float64 `json:"by_fuel"`
	Fuels  int     `json:"fuel_drills"`
	Plan   float64 `json:"plan"`
	Low    float64 `json:"low80"`
	High   float64 `json:"high80"`
}

// FittedMoment is when a milestone is reached, by the file and by the log.
type FittedMoment struct {
	Name       string  `json:"name"`
	FileMiddle Seconds `json:"file_median_s"`
	FileLate   Seconds `json:"file_p90_s"`
	Middle     Seconds `json:"median_s"`
	Late       Seconds `json:"p90_s"`
}

// Cover is how well ranges held of drills that were left out of the fit.
type Cover struct {
	Of     string  `json:"of"`
	Level  float64 `json:"level"`
	Held   float64 `json:"held"`
	Low    float64 `json:"low95"`
	High   float64 `json:"high95"`
	Count  int     `json:"count"`
	Drills int     `json:"drills"`
}

// Off is how far what was foretold of drills that were left out is off what came:
// the mean of the continuous ranked probability score.
type Off struct {
	Of   string  `json:"of"`
	Log  Seconds `json:"log_crps_s"`
	File Seconds `json:"file_crps_s"`
}
