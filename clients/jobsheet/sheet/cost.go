package sheet

import (
	"slices"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// costFacts say what a kit costs. The total over the years is left out where energy has no price: it would be the price
// and nothing else.
func (s *sheet) costFacts(k *pondwrightv1.Kit) []fact {
	facts := []fact{
		{"Price", page.Plain(price(k))},
		{"Electricity", page.Plain(electricity(k))},
	}
	if s.anyKit(hasLampUnit) {
		facts = append(facts, fact{"New lamps", page.Plain(newLamps(k))})
	}
	if s.anyKit(hasEnergyCost) {
		facts = append(facts, overYears(k.GetCost()))
	}
	return facts
}

// costed says whether the engine worked out what a kit costs. It does not where nothing flows.
func costed(k *pondwrightv1.Kit) bool { return k.GetCost().GetYears() > 0 }

// anyKit says whether something holds for a kit of the answer. What decides on a row is asked of all of them, so that all
// have the same rows.
func (s *sheet) anyKit(holds func(*pondwrightv1.Kit) bool) bool {
	return slices.ContainsFunc(s.answer.GetKits(), holds) || holds(s.answer.GetNearestMiss())
}

func hasFilter(k *pondwrightv1.Kit) bool   { return k.GetFilter() != nil }
func hasLampUnit(k *pondwrightv1.Kit) bool { return k.GetLampUnit() != nil }

func hasEnergyCost(k *pondwrightv1.Kit) bool {
	return costed(k) && k.GetCost().EnergyCostPerYear != nil
}

func price(k *pondwrightv1.Kit) string {
	if !costed(k) {
		return "unknown"
	}
	return figure.Money(k.GetCost().GetCurrency(), k.GetCost().GetPrice())
}

func electricity(k *pondwrightv1.Kit) string {
	if !costed(k) {
		return "unknown"
	}
	c := k.GetCost()
	text := figure.With(c.GetEnergyKwhPerYear(), "kWh") + " a year"
	if hasEnergyCost(k) {
		text += ", " + figure.Money(c.GetCurrency(), c.GetEnergyCostPerYear())
	}
	if hasLampUnit(k) {
		return text + ", for pump and lamp unit every day of the year"
	}
	return text + ", for the pump every day of the year"
}

func newLamps(k *pondwrightv1.Kit) string {
	switch c := k.GetCost(); {
	case !hasLampUnit(k):
		return "none"
	case !costed(k):
		return "unknown"
	case c.LampCostPerYear == nil:
		return "not counted: the catalogue has no price of one"
	default:
		return figure.Money(c.GetCurrency(), c.GetLampCostPerYear()) + " a year"
	}
}

func overYears(c *pondwrightv1.KitCost) fact {
	label := "Over " + figure.Digits(c.GetYears(), 3) + " years"
	if c.GetYears() == 1 {
		label = "Over one year"
	}
	return fact{label, page.Plain(figure.Money(c.GetCurrency(), c.GetTotal()) + " in all")}
}
