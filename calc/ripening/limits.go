package ripening

import (
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Limits are the total ammonia and the nitrite to stay below, both as nitrogen.
type Limits struct{ TAN, Nitrite unit.Concentration }

// RipeBelow is what a test kit just shows.
const RipeBelow = unit.Concentration(0.25e-3)

// NitritePractice is what nitrite is held below by habit of the trade, as nitrogen; above NitriteToxic it is called toxic.
// Sources: common practice; FAO Technical Paper 589.
const (
	NitritePractice = unit.Concentration(0.3e-3)
	NitriteToxic    = unit.Concentration(1e-3)
)

// FishLimits are what fish are kept under in water of that temperature and pH.
func FishLimits(t *working.Trail, temperature unit.Temperature, pH float64) Limits {
	share := filter.UnionisedShare.Run(t, filter.UnionisedShareInput{Temperature: temperature, PH: pH})
	return Limits{
		TAN:     filter.TANLimit.Run(t, filter.TANLimitInput{Unionised: filter.UnionisedLimit, Total: filter.TotalLimit, Share: share}),
		Nitrite: NitritePractice,
	}
}

// RipeLimits are what a filter is called ripe below: neither more than a test kit shows nor more than fish can live with.
func RipeLimits(temperature unit.Temperature, pH float64) Limits {
	fish := FishLimits(nil, temperature, pH)
	return Limits{TAN: min(RipeBelow, fish.TAN), Nitrite: min(RipeBelow, fish.Nitrite)}
}

// Or takes the others' where there is nothing.
func (l Limits) Or(others Limits) Limits {
	if l.TAN == 0 {
		l.TAN = others.TAN
	}
	if l.Nitrite == 0 {
		l.Nitrite = others.Nitrite
	}
	return l
}
