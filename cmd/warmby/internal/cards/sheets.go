package cards

// Sheets is a deck as it is told: lines of words, still without a place.
type Sheets struct {
	Title  string
	Cards  []Card
	Wall   *Wall
	Sketch *Sketch
	Timing *Timing
	// Part says which of several cards of one name it is: "2 of 2".
	Part func(n, of int) string
}

// Card is what stands on one card, and goes on on a second where it does not fit.
type Card struct {
	Name  string // large, and again on each card that it goes on on
	Lines []Line
	// Leaders says that it is one of the leader's own, told on a screen as well.
	Leaders bool
}

// Line is a paragraph of a card.
type Line struct {
	Left  string // stands before it in a column of its own: minutes, a number
	Text  string
	Large bool
	Bold  bool
	Rule  bool // a rule above it
	Field bool // a blank to fill in behind it
	Joins bool // not parted from the line before it
	Flush bool // at the left edge, even where lines before it stand in
}

// Sketch is a picture of the camp, north up.
type Sketch struct {
	Title, Subtitle string
	Centre          string // what stands at the centre
	Spots           []SketchSpot
	North           string
	Rings           []Ring
	// From is where the wind comes from, degrees from north; nil when it is to be
	// drawn in.
	From *float64
	Wind string
	Note []string
}

// SketchSpot is a place on the sketch.
type SketchSpot struct {
	Text          string
	Bearing, Walk float64 // degrees from north, minutes
	Downwind      bool
}

// Ring is how far one walks in some minutes.
type Ring struct {
	Walk float64 // minutes
	Text string
}

// Timing is the sheet of whoever has the stop-watch: what is called out, with a
// blank for when, and what it was like.
type Timing struct {
	Title, Subtitle string
	Heads           []string // blanks at the top
	Calls           []string // what is called out, as a log has it
	End             string   // over the blanks behind it
	Usual           string   // over when it usually is
	Usually         []string // by call
	Blanks          []string // what it was like
	Stoves          []string // a row of blanks for each
	StoveHeads      []string
	Felt            string // over the table of how cold people felt
	FeltHeads       []string
	FeltRows        int
	Notes           []string
}

// Wall is the sheet that hangs where everybody sees it: a column a person, time
// downwards.
type Wall struct {
	Title, Subtitle string
	Columns         []string // names
	Rows            []WallRow
}

// WallRow is a stretch of time: what begins in it, by person.
type WallRow struct {
	Since, Clock string // "" where there is no clock
	Banner       string // over the whole width instead of cells: dark
	Cells        [][]WallEntry
}

// WallEntry is one thing that begins, or goes on.
type WallEntry struct {
	At      string // "" for what goes on
	Text    string
	Lookout bool
}
