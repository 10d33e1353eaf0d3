package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/protobuf/proto"

	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

func duty(watts float64) *pondwrightv1.Duty {
	return &pondwrightv1.Duty{
		FlowLPerH: &pondwrightv1.Band{Low: 900, Expected: 1000, High: 1100}, PowerW: &watts,
		HeadM:      &pondwrightv1.Band{Low: 2, Expected: 2, High: 2},
		HeadShares: []*pondwrightv1.HeadShare{{Element: "lift", HeadM: 1.48}, {Element: "hose", HeadM: 0.52}},
	}
}

func clean(d *pondwrightv1.Duty) *pondwrightv1.StateDuty {
	return &pondwrightv1.StateDuty{State: pondwrightv1.RunningState_RUNNING_STATE_CLEAN, Duty: d}
}

func due(d *pondwrightv1.Duty) *pondwrightv1.StateDuty {
	return &pondwrightv1.StateDuty{State: pondwrightv1.RunningState_RUNNING_STATE_DUE, Duty: d}
}

func lampUnit(watts float64) *pondwrightv1.CataloguedItem {
	return &pondwrightv1.CataloguedItem{Item: &equipmentv1.Item{
		Kind: &equipmentv1.Item_LampUnit{LampUnit: &equipmentv1.LampUnit{PowerW: watts}}}}
}

func filterOf(body equipmentv1.FilterBody) *pondwrightv1.CataloguedItem {
	return &pondwrightv1.CataloguedItem{Item: &equipmentv1.Item{Kind: &equipmentv1.Item_Filter{Filter: &equipmentv1.Filter{Body: body}}}}
}

// printed is the sheet of one kit on a page of 120, in one line, so that a test need not know where lines end.
func printed(b *pondwrightv1.Brief, k *pondwrightv1.Kit) string {
	text := Render(b, &pondwrightv1.SuggestKitsResponse{Kits: []*pondwrightv1.Kit{k}}, Options{Width: 120})
	return strings.Join(strings.Fields(text), " ")
}

func TestWithoutAFilterThereIsNoCleaning(t *testing.T) {
	dose := &pondwrightv1.LampDose{DailyMjPerCm2: 50}
	for name, states := range map[string][]*pondwrightv1.StateDuty{
		"one state":            {clean(duty(40))},
		"two that are the one": {clean(duty(40)), due(duty(40))},
	} {
		text := printed(nil, &pondwrightv1.Kit{States: states, LampDose: dose, LampUnit: lampUnit(11)})
		assert.Contains(t, text, "The best kit brings 1,000 L/h; ", name)
		assert.Contains(t, text, " Flow 1,000 L/h (900 to 1,100) at the outlet Head 2.00 m ", name)
		assert.NotContains(t, text, "due", name)
		assert.NotContains(t, text, "clean", name)
	}
}

func TestThePowerOfPumpAndLampUnitIsToldApart(t *testing.T) {
	k := &pondwrightv1.Kit{
		Filter: filterOf(equipmentv1.FilterBody_FILTER_BODY_PRESSURE), LampUnit: lampUnit(42),
		States: []*pondwrightv1.StateDuty{clean(duty(148)), due(duty(148))},
		Cost:   &pondwrightv1.KitCost{Currency: "GBP", EnergyKwhPerYear: 1665, Years: 5},
	}
	assert.Contains(t, printed(nil, k), "Power 148 W for the pump, 42 W for the lamp unit ")
	assert.Contains(t, printed(nil, k), "Electricity 1,665 kWh a year, for pump and lamp unit every day of the year ")
	k.States[1].Duty.PowerW = proto.Float64(151)
	assert.Contains(t, printed(nil, k), "Power 148 W clean and 151 W due for the pump, 42 W for the lamp unit ")
	k.LampUnit = nil
	assert.Contains(t, printed(nil, k), "Power 148 W clean and 151 W due for the pump Speed")
	assert.Contains(t, printed(nil, k), "Electricity 1,665 kWh a year, for the pump every day of the year ")
}

func TestTheDoseOfADayStandsBesideWhatIsWanted(t *testing.T) {
	k := &pondwrightv1.Kit{
		Filter:   filterOf(equipmentv1.FilterBody_FILTER_BODY_PRESSURE),
		LampDose: &pondwrightv1.LampDose{DailyMjPerCm2: 47.1, PassesPerDay: 9, PassMeanMjPerCm2: 5, PassLeastMjPerCm2: 3},
	}
	text := printed(nil, k)
	assert.Contains(t, text, "Lamp dose 47.1 mJ/cm² a day for the whole pond, in 9 passes. In one pass, at the flow with the filter due for "+
		"cleaning: 5 mJ/cm² on average, 3 mJ/cm² for the fastest water were the flow laminar. ")
	assert.NotContains(t, text, "per 1,000 L")
	k.LampDose.WantedDailyMjPerCm2, k.LampDose.PowerWPerM3 = proto.Float64(37), proto.Float64(2.89)
	text = printed(nil, k)
	assert.Contains(t, text, "Lamp dose 47.1 of at least 37 mJ/cm² a day for the whole pond, ")
	assert.Contains(t, text, "The unit takes 2.89 W of electricity per 1,000 L.")
}

func TestWithoutAPriceOfEnergyOnlyThePriceIsAdded(t *testing.T) {
	k := &pondwrightv1.Kit{
		States: []*pondwrightv1.StateDuty{clean(duty(40))},
		Cost:   &pondwrightv1.KitCost{Currency: "GBP", Price: 90, EnergyKwhPerYear: 350, Years: 5, Total: 90},
	}
	text := printed(nil, k)
	assert.Contains(t, text, "it costs GBP 90.00 to buy. ")
	assert.NotContains(t, text, "Over 5 years")
	k.Cost.EnergyCostPerYear, k.Cost.Total = proto.Float64(98), 580
	text = printed(nil, k)
	assert.Contains(t, text, "it costs GBP 90.00 to buy and GBP 98.00 a year for electricity. ")
	assert.Contains(t, text, "Over 5 years GBP 580.00 in all")
}

// Where nothing flows the engine sends no cost, or one of nothing over no years.
func TestACostThatWasNotWorkedOutIsUnknown(t *testing.T) {
	for _, cost := range []*pondwrightv1.KitCost{nil, {Currency: "GBP", EnergyCostPerYear: new(float64)}} {
		text := printed(nil, &pondwrightv1.Kit{LampUnit: lampUnit(42), Cost: cost})
		assert.Contains(t, text, "Price unknown Electricity unknown New lamps unknown Headroom ")
		assert.Contains(t, text, "what it costs is not known.")
		assert.NotContains(t, text, "GBP")
	}
}

func TestNewLampsWithoutAPriceAreSaidNotToCount(t *testing.T) {
	k := &pondwrightv1.Kit{Cost: &pondwrightv1.KitCost{Currency: "GBP", Years: 5}}
	assert.NotContains(t, printed(nil, k), "New lamps")
	k.LampUnit = lampUnit(42)
	assert.Contains(t, printed(nil, k), "New lamps not counted: the catalogue has no price of one ")
	k.Cost.LampCostPerYear = proto.Float64(24)
	assert.Contains(t, printed(nil, k), "New lamps GBP 24.00 a year ")
}

func TestTheLiftToAnOpenFilterIsParted(t *testing.T) {
	fall := &pondwrightv1.Brief{Fall: &pondwrightv1.Fall{HeightM: proto.Float64(1.15)}}
	outlet := &pondwrightv1.Brief{Delivery: &pondwrightv1.Delivery{OutletHeightM: proto.Float64(0.15)}}
	k := &pondwrightv1.Kit{
		Filter: filterOf(equipmentv1.FilterBody_FILTER_BODY_OPEN),
		States: []*pondwrightv1.StateDuty{clean(duty(40)), due(duty(40))},
	}
	assert.Contains(t, printed(fall, k), "lift 1.48 m (74 %), of it 1.15 m to the fall and 0.33 m to the filter's inlet; hose 0.52 m (26 %)")
	assert.Contains(t, printed(outlet, k), "lift 1.48 m (74 %), of it 0.15 m to the outlet and 1.33 m to the filter's inlet; hose")
	k.Filter = filterOf(equipmentv1.FilterBody_FILTER_BODY_PRESSURE)
	assert.Contains(t, printed(fall, k), "lift 1.48 m (74 %); hose 0.52 m (26 %)")
}

func TestAMissIsSaidInWords(t *testing.T) {
	miss := &pondwrightv1.Kit{
		FilterVerdict: &pondwrightv1.FilterVerdict{HeadroomPercent: -12}, HeadroomPercent: -43.4, Tightest: "budget",
		Findings: []*pondwrightv1.Finding{{
			Severity: pondwrightv1.Severity_SEVERITY_STOP, Subject: "budget", Sentence: "the set costs 618.40, more than the 350.00 there is",
		}},
	}
	render := func() string {
		return Render(nil, &pondwrightv1.SuggestKitsResponse{NearestMiss: miss}, Options{Width: 120})
	}
	assert.Contains(t, render(), "STOP     Budget: The set costs 618.40, more than the 350.00 there is.")
	assert.Contains(t, render(), "wanted for the grown fish with the margin: short of that.")
	assert.NotContains(t, render(), "%")
	assert.NotContains(t, render(), "Headroom")
	miss.Findings = nil
	assert.Contains(t, render(), "Headroom             none, it breaks a limit: budget")
	assert.NotContains(t, render(), "%")
}

func TestHowFewOfTheSetsAreShownIsSaidOnce(t *testing.T) {
	answer := &pondwrightv1.SuggestKitsResponse{
		Kits: []*pondwrightv1.Kit{{}, {}}, Searched: &pondwrightv1.SearchCount{Sets: 9000, Working: 108, Beaten: 1000, Calculated: 120},
	}
	text := Render(nil, answer, Options{Width: 132})
	assert.Equal(t, 1, strings.Count(text, "\n  2 shown, each with another pump, filter or lamp unit: of the 9,000 sets there are, none that works beats one of them"))
	answer.Searched.Working, answer.Searched.Beaten = 2, 0
	text = Render(nil, answer, Options{Width: 132})
	assert.Contains(t, text, "\n  Every set that works is shown.\n")
	assert.NotContains(t, text, "shown of")
}
