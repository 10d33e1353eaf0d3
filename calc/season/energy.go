package season

import (
	"fmt"
	"math"
	"sort"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// When is the part of the year in which something runs.
type When int

// The parts of the year.
const (
	AllYear     When = iota + 1
	NotInWinter      // but for the days on which the pump is in its winter place
	Winter           // on those days alone
	LampSeason       // while green algae grow
	Feeding          // while the fish are fed
)

// A Window is part of the clock's day, past midnight where To comes before From; from 0 to 0 it is the whole day.
type Window struct{ From, To unit.Time }

// hours are how long the window is.
func (w Window) hours() float64 {
	h := (w.To - w.From).Hours()
	if h <= 0 {
		h += 24
	}
	return h
}

// holds says whether a time of the clock, in hours, lies in the window.
func (w Window) holds(h float64) bool {
	from, to := w.From.Hours(), w.To.Hours()
	if from == to {
		return true
	}
	if from < to {
		return from <= h && h < to
	}
	return h >= from || h < to
}

// A Load takes electricity.
type Load struct {
	Name      string
	Power     unit.Power
	When      When
	Clock     Window
	WarmsPond bool // it stands in the water, and all it takes ends there as warmth
}

// A Tariff is one price for part of the day.
type Tariff struct {
	Name  string
	Clock Window
	Price float64 // of a kilowatt-hour
}

// EnergyInput is a load that runs for some days.
type EnergyInput struct {
	Power unit.Power `sym:"P"`
	Daily unit.Time  `sym:"t"` // a day, in one part of the tariff
	Days  int        `sym:"n"`
}

// LoadEnergy gives the electricity a load takes.
//
//	W = P t n
//
// Source: by definition.
var LoadEnergy = working.Formula[EnergyInput, unit.Energy]{
	ID: "season.load-energy", Name: "electricity taken", Symbol: "W", Equation: "W = P t n", Source: source.Definition,
	Eval: func(in EnergyInput) unit.Energy {
		return in.Power.Over(unit.Time(float64(in.Days) * float64(in.Daily)))
	},
}

// shared is how long a day two windows have in common, in hours.
func shared(a, b Window) float64 {
	turns := []float64{0, a.From.Hours(), a.To.Hours(), b.From.Hours(), b.To.Hours(), 24}
	sort.Float64s(turns)
	sum := 0.0
	for i := 1; i < len(turns); i++ {
		if mid := (turns[i-1] + turns[i]) / 2; a.holds(mid) && b.holds(mid) {
			sum += turns[i] - turns[i-1]
		}
	}
	return sum
}

// checkTariff says where the parts of the day do not make up a day.
func checkTariff(problems *input.Errors, tariff []Tariff) {
	if len(tariff) == 0 {
		return
	}
	for i, a := range tariff {
		problems.Between(fmt.Sprintf("tariff[%d].price_per_kwh", i), a.Price, 0, 1e4, "give the price of a kilowatt-hour")
		for j, b := range tariff[:i] {
			if shared(a.Clock, b.Clock) > 0 {
				problems.Add(fmt.Sprintf("tariff[%d]", i), "let each part end where the next begins", "it shares hours with part %d", j+1)
			}
		}
	}
	sum := 0.0
	for _, a := range tariff {
		sum += a.Clock.hours()
	}
	if math.Abs(sum-24) > 1e-9 {
		problems.Add("tariff", "give a price for every hour of the day", "the parts make up %g hours", sum)
	}
}

// Energy is what the loads take.
type Energy struct {
	Year   unit.Energy
	Cost   *float64 // nil without a tariff
	Loads  []LoadUse
	Tariff []TariffUse
	Months []MonthUse
}

// LoadUse is what one load takes in the year.
type LoadUse struct {
	Days   int
	Energy unit.Energy
	Cost   float64
}

// TariffUse is what one part of the tariff sells in the year.
type TariffUse struct {
	Energy unit.Energy
	Cost   float64
}

// MonthUse is what all loads take in a month.
type MonthUse struct {
	Energy unit.Energy
	Cost   float64
}

// runs says whether a load runs on a day.
func (l Load) runs(d *Day) bool {
	switch l.When {
	case NotInWinter:
		return !d.WinterPlace
	case Winter:
		return d.WinterPlace
	case LampSeason:
		return d.Lamp
	case Feeding:
		return d.Feeding
	default:
		return true
	}
}

// use adds up what the loads take, month by month as months says.
func use(t *working.Trail, loads []Load, tariff []Tariff, y *Year) Energy {
	e := Energy{Loads: make([]LoadUse, len(loads)), Tariff: make([]TariffUse, len(tariff)), Months: make([]MonthUse, len(y.Months))}
	parts := tariff
	if len(parts) == 0 {
		parts = []Tariff{{}}
	}
	for i, l := range loads {
		for m, month := range y.Months {
			days := 0
			for d := month.From; d < month.To; d++ {
				if l.runs(&y.Days[d]) {
					days++
				}
			}
			e.Loads[i].Days += days
			for k, part := range parts {
				w := LoadEnergy.Eval(EnergyInput{Power: l.Power, Daily: unit.Hours(shared(l.Clock, part.Clock)), Days: days})
				cost := w.KilowattHours() * part.Price
				e.Loads[i].Energy += w
				e.Loads[i].Cost += cost
				e.Months[m].Energy += w
				e.Months[m].Cost += cost
				if len(tariff) > 0 {
					e.Tariff[k].Energy += w
					e.Tariff[k].Cost += cost
				}
			}
		}
		t.About(l.Name)
		for _, part := range parts {
			LoadEnergy.Run(t, EnergyInput{Power: l.Power, Daily: unit.Hours(shared(l.Clock, part.Clock)), Days: e.Loads[i].Days})
		}
		e.Year += e.Loads[i].Energy
	}
	t.About("")
	if len(tariff) > 0 {
		sum := 0.0
		for _, part := range e.Tariff {
			sum += part.Cost
		}
		e.Cost = &sum
	}
	return e
}
