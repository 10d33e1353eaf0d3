package kit

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// daysPerYear is the mean length of a year of the Gregorian calendar.
const daysPerYear = 365.2425

// EnergyInput is the input of YearlyEnergy.
type EnergyInput struct {
	Power unit.Power `sym:"P"`
	Daily unit.Time  `sym:"t"`
}

// YearlyEnergy gives the energy that a load takes in a year.
//
//	E = 365.2425 P t    P in W, t in s a day, E in J
//
// Source: definition.
var YearlyEnergy = working.Formula[EnergyInput, unit.Energy]{
	ID: "kit.yearly-energy", Name: "energy in a year", Symbol: "E", Equation: "E = 365.2425 P t", Source: source.Definition,
	Eval: func(in EnergyInput) unit.Energy {
		return in.Power.Over(unit.Time(daysPerYear * float64(in.Daily)))
	},
}

// LampsInput is the input of LampsPerYear.
type LampsInput struct {
	Lamps int       `sym:"n"`
	Daily unit.Time `sym:"t"`
	Life  unit.Time `sym:"L"`
}

// LampsPerYear gives how many new lamps a year takes.
//
//	N = 365.2425 n t/L    t in s a day, L in s
//
// Source: definition.
var LampsPerYear = working.Formula[LampsInput, float64]{
	ID: "kit.lamps-per-year", Name: "new lamps in a year", Symbol: "N", Equation: "N = 365.2425 n t/L", Source: source.Definition,
	Eval: func(in LampsInput) float64 {
		return daysPerYear * float64(in.Lamps) * float64(in.Daily) / float64(in.Life)
	},
}

// cost adds up what a set costs. The pump's power is that of a clean filter: it changes little as the filter clogs.
func (f *Finder) cost(t *working.Trail, set Set, power unit.Power) Cost {
	c := Cost{Price: f.price(set), Years: f.q.Years}
	if set.Lamp >= 0 {
		lamp := &f.r.Lamps[set.Lamp]
		power += lamp.WallPower
		c.LampsPerYear = lamp.LampPrice * LampsPerYear.Run(t, LampsInput{Lamps: lamp.Lamps, Daily: f.q.RunsDaily, Life: lamp.Life})
	}
	c.Energy = YearlyEnergy.Run(t, EnergyInput{Power: power, Daily: f.q.RunsDaily})
	c.EnergyPerYear = f.q.Tariff * c.Energy.KilowattHours()
	c.Total = c.Price
	if f.q.Tariff > 0 {
		c.Total += c.Years * c.PerYear()
	}
	return c
}

func (f *Finder) price(set Set) float64 {
	p := f.r.Pumps[set.Pump].Price + f.r.Hoses[set.Hose].PricePerMetre*f.q.Hose.Metres()
	if set.Filter >= 0 {
		p += f.r.Filters[set.Filter].Price
	}
	if set.Lamp >= 0 {
		p += f.r.Lamps[set.Lamp].Price
	}
	return p
}
