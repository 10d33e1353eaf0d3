package work

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Job is what there is to do on a pond. What is 0 or false is not done.
type Job struct {
	Turf           unit.Area
	Dug            unit.Volume // in the bank
	Digger         Digger
	Spoil          bool // some is carted off
	Covered        unit.Area
	Edge           unit.Length // of stone bedded on mortar
	Stone          unit.Mass   // dry: beds, and the wall of a fall
	Sills          int         // of a fall that is built with mortar; 0 for none
	Cable          unit.Length // trench for cable
	Circuit        bool        // pump, hose and what is built into it
	Mains          bool        // a licensed person connects it
	FillTime       unit.Time
	Chlorine       bool // the water has to be made safe
	Plants         bool
	Ripening       unit.Time // until the first fish may go in; 0 for the usual
	StockingSteps  int
	StonePerHour   unit.Mass // by one person; 0 for the usual
	Cure           unit.Time // 0 for the usual
	Extra          []Task
	StockingPauses unit.Time // between two steps; 0 for the usual
}

// A Digger is how the hole is dug.
type Digger struct {
	Name    string
	PerHour unit.Volume // in the bank, by one person or by the machine
	Machine bool
}

// The ways to dig, at rates of common practice.
var (
	ByHand = Digger{Name: "by hand", PerHour: unit.CubicMetres(0.4)}
	Micro  = Digger{Name: "micro digger", PerHour: unit.CubicMetres(2.5), Machine: true}
	Mini   = Digger{Name: "mini digger", PerHour: unit.CubicMetres(6), Machine: true}
)

// Usual waiting times, of common practice.
const (
	// LeastCure is the least time before water may run over mortar: a week, longer in the cold.
	LeastCure = unit.Time(7 * 24 * 3600)
	// LeastRipening is the least wait before the first fish: four weeks.
	LeastRipening = unit.Time(28 * 24 * 3600)
	// StockingPause is the wait between two groups of fish.
	StockingPause = unit.Time(28 * 24 * 3600)
	// stonePerHour is what one person lays of dry stone and gravel in an hour.
	stonePerHour = unit.Mass(250)
)

// A fall takes some hours to set out, and as many again for each sill: common practice.
const fallBase, fallSill = unit.Time(4 * 3600), unit.Time(4 * 3600)

// Rates of common practice, by one person in an hour.
const (
	turfPerHour   = 8.0 // m²
	coverPerHour  = 12.0
	edgePerHour   = 1.5 // m, bedded
	trenchPerHour = 2.5 // m, by hand, half a metre deep
)

// Tasks lists what is done on a job, in the order a careful hand does it.
func Tasks(t *working.Trail, j Job) []Task {
	l := &list{trail: t}
	l.add("mark_out", "Mark out and find services", "Peg the outline and a level datum, look up buried services, scan, and dig by hand near any.", unit.Hours(2))
	if j.Turf > 0 {
		l.add("turf", "Lift the turf", "First of all, and stacked apart, grass to grass, off the bank and out of the sun.", l.at("turf", j.Turf.SquareMetres(), turfPerHour), "mark_out")
	}
	l.dig(j)
	if j.Cable > 0 {
		l.add("trench", "Dig the trench for cable and pipe", "Deep enough for the code that holds there, warning tape above, and drawn on the plan.", l.at("trench", j.Cable.Metres(), trenchPerHour), "dig")
	}
	l.add("level_rim", "Level the rim all round", "To 3 mm: a level line shows every error for good.", unit.Hours(2), "dig")
	l.add("underlay", "Pick the hole clean, lay bed and underlay", "No stone, no root, no step in bare feet that hurts.", l.at("underlay", j.Covered.SquareMetres(), coverPerHour), "level_rim")
	l.add("lining", "Lay the lining", "Folded to the middle, carried by enough people, let warm in the sun, creases gathered into few large folds. The edge is not cut yet.", l.at("lining", j.Covered.SquareMetres(), coverPerHour), "underlay")
	l.stone(j)
	l.circuit(j)
	l.water(j)
	l.fish(j)
	return append(l.tasks, j.Extra...)
}

// A list of tasks in the making.
type list struct {
	trail *working.Trail
	tasks []Task
	cured []string // what water may not run over before
}

func (l *list) add(id, name, sentence string, labour unit.Time, after ...string) *Task {
	l.tasks = append(l.tasks, Task{ID: id, Name: name, Sentence: sentence, Labour: labour, After: l.known(after), Source: source.Practice})
	return &l.tasks[len(l.tasks)-1]
}

// known leaves out what is not done on this job.
func (l *list) known(ids []string) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return !l.has(id) })
}

func (l *list) has(id string) bool {
	return slices.ContainsFunc(l.tasks, func(t Task) bool { return t.ID == id })
}

func (l *list) at(about string, amount, perHour float64) unit.Time {
	l.trail.About(about)
	return LabourAtRate.Run(l.trail, RateInput{Amount: amount, PerHour: perHour})
}

func (l *list) dig(j Job) {
	sentence := "Topsoil apart from subsoil, spoil back from the edge, sides watched every day; shelves as they come."
	dig := l.add("dig", "Dig, "+j.Digger.Name, sentence, l.at("dig", j.Dug.CubicMetres(), j.Digger.PerHour.CubicMetres()), "turf", "mark_out")
	dig.Machine = j.Digger.Machine
	if j.Spoil {
		l.add("cart", "Have the spoil carted off", "With its transfer note; a full load is reached by weight before it is by volume.", unit.Hours(2), "dig")
	}
}

func (l *list) stone(j Job) {
	perHour := j.StonePerHour
	if perHour <= 0 {
		perHour = stonePerHour
	}
	if j.Edge > 0 {
		l.add("edging", "Bed the edge stones on mortar", "On the lining with a strip of underlay between, lining turned up behind them so that no soil wicks water away.", l.at("edging", j.Edge.Metres(), edgePerHour), "lining")
		l.cured = append(l.cured, "edging")
	}
	if j.Sills > 0 {
		l.add("fall", "Build the fall", "From the bottom up, each lip level, lining of the fall lapped over that of the pond, foam or mortar behind so that water goes over and not under.", fallBase+unit.Time(j.Sills)*fallSill, "lining", "edging")
		l.cured = append(l.cured, "fall")
	}
	if len(l.cured) > 0 {
		cure := l.add("cure", "Let the mortar cure", "At least a week before water runs over it, kept damp and out of frost; longer in the cold. Fresh mortar makes water caustic.", 0, l.cured...)
		cure.Wait = max(j.Cure, LeastCure)
	}
	if j.Stone > 0 {
		l.add("stone", "Place stone and gravel", "Washed, on underlay, by hand in the water.", l.at("stone", j.Stone.Kilograms()/1000, perHour.Kilograms()/1000), "lining", "edging")
	}
	if j.Turf > 0 {
		l.add("relay", "Trim the lining and lay turf back", "The lining stands up behind the stones above the water; turf is watered until it grows.", l.at("relay", j.Turf.SquareMetres()/4, turfPerHour), "edging", "fall", "stone", "lining")
	}
}

func (l *list) circuit(j Job) {
	if j.Circuit {
		l.add("circuit", "Set pump, hose, filter and lamp unit", "Nothing is plugged in yet. Fittings as on the list: each one more costs flow.", unit.Hours(6), "lining", "trench", "fall")
	}
	if j.Mains {
		mains := l.add("mains", "Have the supply connected and tested", "By a licensed electrician, with a residual-current device of 30 mA, tested, and a certificate for the owner.", unit.Hours(6), "trench", "circuit")
		mains.Others = true
	}
}

func (l *list) water(j Job) {
	fill := l.add("fill", "Fill, by the meter", "The end of the hose hangs in the air. Read the meter before and after: no better volume is ever had. Pull out creases as it fills.", unit.Hours(1), "lining", "stone", "cure")
	fill.Wait = j.FillTime
	if j.Chlorine {
		treat := l.add("treat", "Make the tap water safe", "By the measured volume, then test for chlorine.", unit.Hours(0.5), "fill")
		treat.Wait = unit.Days(1)
	}
	if j.Circuit {
		l.add("run", "Run it and measure", "Flow by bucket at every outlet, power, how far the level goes down on start and up on stop; then pull the plug and watch for ten minutes.", unit.Hours(3), "fill", "treat", "cure", "circuit", "mains")
	}
	watch := l.add("watch", "Watch the level for two days", "One with the pump running and one without: a low edge, a splash or a leak shows now.", unit.Hours(0.5), "fill", "run")
	watch.Wait = unit.Days(2)
}

func (l *list) fish(j Job) {
	if j.Plants {
		l.add("plant", "Plant", "After the water is safe; in baskets, with poor soil, gravel on top.", unit.Hours(4), "watch", "treat")
	}
	if j.StockingSteps == 0 {
		return
	}
	ripen := l.add("ripen", "Let the filter ripen", "With a little ammonia or some media of a ripe filter. Test ammonia and nitrite twice a week; no fish until both stay low.", 0, "run", "treat", "watch")
	ripen.Wait = max(j.Ripening, LeastRipening)
	pause := j.StockingPauses
	if pause <= 0 {
		pause = StockingPause
	}
	before := "ripen"
	for i := range j.StockingSteps {
		id := fmt.Sprintf("stock_%d", i+1)
		step := l.add(id, fmt.Sprintf("Put in fish, group %d of %d", i+1, j.StockingSteps),
			"Bags floated, pond water let in, quarantine first where the fish are of value. Then feed little and test.", unit.Hours(1), before, "plant")
		if step.Wait = pause; i == j.StockingSteps-1 {
			step.Wait = 0
		}
		before = id
	}
}

// Weather says what frost and rain do to the order of work. Cold is whether the mean air temperature of the time it falls in is known to
// be so low that mortar may freeze.
func Weather(mortar, cold bool) []finding.Finding {
	found := []finding.Finding{{
		Code: "RAIN_DAYS", Severity: finding.Caution, Subject: "order of work",
		Sentence: "No day for rain is in the dates. A wet hole is pumped out and its sides looked at again; clay is not dug wet, and a lining is not glued wet.",
		Change:   "add the rain days that are usual there and then", Source: source.Practice,
	}}
	if !mortar {
		return found
	}
	f := finding.Finding{
		Code: "FROST_AND_MORTAR", Severity: finding.Note, Subject: "order of work",
		Sentence: "Mortar is not laid below 3 °C, or below 5 °C and falling, and is kept from frost while it cures; in the cold it takes longer than a week.",
		Change:   "cover it, or wait", Source: source.Practice,
	}
	if cold {
		f.Severity = finding.Caution
		f.Sentence = "The work falls into the cold months. " + f.Sentence
	}
	return append(found, f)
}
