// Package calendar says what is done when in the year of a pond: by the temperature of the water, and by the date on which an ordinary
// year comes to it.
package calendar

import (
	"cmp"
	"slices"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry { return []working.Entry{&Crossing} }

// CrossingInput is a temperature between those of the middles of two months.
type CrossingInput struct {
	Day0 float64          `sym:"d₀"` // middle of the first month, day of the year
	Day1 float64          `sym:"d₁"` // middle of the next
	T0   unit.Temperature `sym:"T₀"`
	T1   unit.Temperature `sym:"T₁"`
	At   unit.Temperature `sym:"T"`
}

// Crossing gives the day of the year on which the water passes a temperature, by a straight line between the means of two months that
// are put in their middles:
//
//	d = d₀ + (d₁ - d₀) (T - T₀) / (T₁ - T₀)
//
// For T between T₀ and T₁, which differ. Source: linear interpolation.
var Crossing = working.Formula[CrossingInput, float64]{
	ID: "calendar.crossing", Name: "day on which the water passes a temperature", Symbol: "d",
	Equation: "d = d₀ + (d₁ - d₀) (T - T₀) / (T₁ - T₀)", Source: source.Definition,
	Eval: func(in CrossingInput) float64 {
		return in.Day0 + (in.Day1-in.Day0)*float64((in.At-in.T0)/(in.T1-in.T0))
	},
}

// middles are the middles of the months of a common year, as days of the year, and beyond.
var middles = [13]float64{16, 45.5, 75, 105.5, 136, 166.5, 197, 228, 258.5, 289, 319.5, 350, 381}

// year is a common year.
const year = 365

// A Job of the year.
type Job struct {
	ID, Name, Sentence string
	At                 unit.Temperature // of the water
	Warming            bool             // and not cooling
	Source             source.Source
}

// An Entry is a job with its day of the year, from 1; 0 where it is not known or the water never comes to it.
type Entry struct {
	Job
	Day int
}

// Owner is what there is to look after.
type Owner struct{ Fish, Filter, Lamp, Pump, Fall, WinterRoute bool }

// Jobs are those of a pond, at temperatures that are common practice.
func Jobs(o Owner) []Job {
	var all []Job
	add := func(on bool, id, name string, at unit.Temperature, warming bool, sentence string) {
		if on {
			all = append(all, Job{ID: id, Name: name, Sentence: sentence, At: at, Warming: warming, Source: source.Practice})
		}
	}
	add(o.Pump, "pump_back", "Pump back to its summer place, first clean", 6, true, "Clean cage and chambers, measure the flow by bucket and set it against the baseline, and have the residual-current device tested.")
	add(o.Fish, "feed_begins", "Begin to feed, lightly", 10, true, "Light food, a little; the filter wakes slower than the fish. Test ammonia and nitrite every week.")
	add(o.Lamp, "lamp_on", "New lamp where it is due, sleeve cleaned, lamp on", 10, true, "Unplugged before it is opened. A lamp that still glows may have no light left that counts.")
	add(true, "plants_out", "Divide and set plants", 12, true, "Green water now is ordinary; it passes as plants and lamp get ahead.")
	add(o.Fish, "feed_full", "Feed in full", 16, true, "As much as is eaten in a few minutes. Rinse the filter in pond water as its days come round, never all of it at once.")
	add(o.Fish, "night_air", "Air at night in hot spells", 22, true, "Oxygen is least at dawn: leave pump and air on day and night, feed little, and kill no algae in the heat.")
	add(true, "top_ups", "Watch the level and top up", 18, true, "Treat what comes in. A fall that is not the sun's is looked for with the pump on one day and off the next.")
	add(true, "net_on", "Net on, plants cut back", 12, false, "Before the leaves fall; taut, and no cover for children. Take sludge out by thirds.")
	add(o.Fish, "feed_down", "Less feed, lighter", 14, false, "What the fish do not digest in the cold stays in them.")
	add(o.Fish, "feed_stops", "Stop feeding", 8, false, "Two camps: some stop at 10 °C, some at 5 °C. What is not digested does harm.")
	add(o.Lamp, "lamp_off", "Lamp off and drained", 8, false, "Water left in it bursts the sleeve in frost.")
	add(o.Pump, "pump_winter", winterName(o), 6, false, winterSentence(o))
	add(o.Fall, "fall_off", "Fall off, or watched in frost", 3, false, "A dam of ice throws the pond out of itself: a fall that runs in frost is looked at every day.")
	add(o.Fish, "ice", "Keep a hole open in the ice", 1, false, "With air or a float, never by hammering. No child on the ice.")
	return all
}

func winterName(o Owner) string {
	if o.WinterRoute {
		return "Pump to its winter place"
	}
	return "Pump up from the bottom, or out"
}

func winterSentence(o Owner) string {
	if o.WinterRoute {
		return "The deep lies still and keeps near 4 °C. Drain what no longer runs. Whether to pump in winter at all is disputed."
	}
	return "Raise it so that the deep lies still, or take it out and keep it in water. Whether to pump in winter at all is disputed."
}

// Year dates the jobs by the water temperatures of an ordinary year, January first; with none, nothing is dated. They come in the order
// of their days, and those without one last.
func Year(t *working.Trail, jobs []Job, water []unit.Temperature) []Entry {
	made := make([]Entry, len(jobs))
	for i, j := range jobs {
		made[i] = Entry{Job: j}
		if len(water) == len(middles)-1 {
			t.About(j.Name)
			made[i].Day = passes(t, water, j.At, j.Warming)
		}
	}
	slices.SortStableFunc(made, func(a, b Entry) int {
		if a.Day == 0 || b.Day == 0 {
			return cmp.Compare(b.Day, a.Day)
		}
		return cmp.Compare(a.Day, b.Day)
	})
	return made
}

// passes is the first day of the year on which the water passes a temperature in one direction.
func passes(t *working.Trail, water []unit.Temperature, at unit.Temperature, warming bool) int {
	for m := range water {
		t0, t1 := water[m], water[(m+1)%len(water)]
		if warming && t0 < at && t1 >= at || !warming && t0 > at && t1 <= at {
			d := Crossing.Run(t, CrossingInput{Day0: middles[m], Day1: middles[m+1], T0: t0, T1: t1, At: at})
			return (int(d)-1+year)%year + 1
		}
	}
	return 0
}
