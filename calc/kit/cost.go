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
	Days  float64    `sym:"n"`
}

// YearlyEnergy gives the energy that a load takes in the days of a year it runs: 365.2425 where it is not stopped in winter.
//
//	E = n P t    n in days, P in W, t in s a day, E in J
//
// Source: definition.
var YearlyEnergy = working.Formula[EnergyInput, unit.Energy]{
	ID: "kit.yearly-energy", Name: "energy in a year", Symbol: "E", Equation: "E = n P t", Source: source.Definition,
	Eval: func(in EnergyInput) unit.Energy {
		return in.Power.Over(unit.Time(in.Days * float64(in.Daily)))
	},
}

// LampsInput is the input of LampsPerYear.
type LampsInput struct {
	Lamps int       `sym:"N"`
	Daily unit.Time `sym:"t"`
	Life  unit.Time `sym:"L"`
	Days  float64   `sym:"n"`
}

// LampsPerYear gives how many new lamps a year takes, in the days of it that they burn.
//
//	Nʸ = n N t/L    n in days, t in s a day, L in s
//
// Source: definition.
var LampsPerYear = working.Formula[LampsInput, float64]{
	ID: "kit.lamps-per-year", Name: "new lamps in a year", Symbol: "Nʸ", Equation: "Nʸ = n N t/L", Source: source.Definition,
	Eval: func(in LampsInput) float64 {
		return in.Days * float64(in.Lamps) * float64(in.Daily) / float64(in.Life)
	},
}

// cost adds up what a set costs. The pump's power in summer is that of a clean filter: it changes little as the filter clogs.
func (f *Finder) cost(t *working.Trail, set Set, power [states]unit.Power) Cost {
	c := Cost{Price: f.price(set), Years: f.q.Years}
	c.Energy, c.LampsPerYear = f.running(t, set.Lamp, power[Clean], power[Cold])
	c.EnergyPerYear = f.q.Tariff * c.Energy.KilowattHours()
	c.Total = c.Price
	if f.q.Tariff > 0 {
		c.Total += c.Years * c.PerYear()
	}
	return c
}

// running is the energy of a year and the cost of its lamps, with what the pumps take in summer and in winter.
func (f *Finder) running(t *working.Trail, lamp int, summer, winter unit.Power) (energy unit.Energy, lamps float64) {
	var bright unit.Power
	if lamp >= 0 {
		bright, lamps = f.r.Lamps[lamp].WallPower, f.lamps(t, lamp)
	}
	return f.burnt(t, summer, winter, bright), lamps
}

// burnt is the energy of a year.
func (f *Finder) burnt(t *working.Trail, summer, winter, lamp unit.Power) unit.Energy {
	w := f.q.Winter
	if w == nil {
		return f.energy(t, summer+lamp, daysPerYear)
	}
	e := f.energy(t, summer+lamp, daysPerYear-w.Days)
	switch {
	case w.runs() && w.lit():
		e += f.energy(t, winter+lamp, w.Days)
	case w.runs():
		e += f.energy(t, winter, w.Days)
	}
	return e
}

// lamps is what new lamps cost a year; 0 where the catalogue does not say.
func (f *Finder) lamps(t *working.Trail, lamp int) float64 {
	unit := &f.r.Lamps[lamp]
	return unit.LampPrice * LampsPerYear.Run(t, LampsInput{Lamps: unit.Lamps, Daily: f.q.RunsDaily, Life: unit.Life, Days: f.lampDays()})
}

func (f *Finder) energy(t *working.Trail, p unit.Power, days float64) unit.Energy {
	return YearlyEnergy.Run(t, EnergyInput{Power: p, Daily: f.q.RunsDaily, Days: days})
}

// lampDays are the days of the year on which the lamps burn.
func (f *Finder) lampDays() float64 {
	if f.q.Winter.lit() {
		return daysPerYear
	}
	return daysPerYear - f.q.Winter.Days
}

func (f *Finder) price(set Set) float64 {
	p := f.pairPrice(set.Pump, set.Hose)
	if set.Filter >= 0 {
		p += f.r.Filters[set.Filter].Price
	}
	if set.Lamp >= 0 {
		p += f.r.Lamps[set.Lamp].Price
	}
	return p
}

// pairPrice is the price of pump and hose.
func (f *Finder) pairPrice(pump, hose int) float64 {
	return float64(f.q.pumps())*f.r.Pumps[pump].Price + f.r.Hoses[hose].PricePerMetre*f.q.Hose.Metres()
}

// yearlyOf is yearly, from its parts.
func (f *Finder) yearlyOf(summer, winter, lamp unit.Power, lamps float64) float64 {
	e := f.burnt(nil, summer, winter, lamp).KilowattHours()
	if f.q.Tariff > 0 {
		return f.q.Tariff*e + lamps
	}
	return e
}

// yearly is what sets are compared by in running cost: in money where energy has a price, else in kilowatt-hours.
func (f *Finder) yearly(c Cost) float64 {
	if f.q.Tariff > 0 {
		return c.PerYear()
	}
	return c.Energy.KilowattHours()
}
