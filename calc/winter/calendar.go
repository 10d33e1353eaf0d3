package winter

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Month is how fish and filter take its water.
type Month struct {
	Feed       unit.MassRate // of all fish as grown; nothing where feeding stops
	FilterRate unit.Ratio    // of nitrification, by that at 20 °C
}

// Calendar gives the feeding and the filter of each month, January first, by the temperature of its water. Problems of the
// input are in err, an input.Errors.
func Calendar(t *working.Trail, fish []stock.Group, protein unit.Ratio, months []unit.Temperature) ([]Month, []finding.Finding, error) {
	list := make([]Month, len(months))
	var found []finding.Finding
	fasting := 0
	for i, T := range months {
		_, grown, assumed, err := stock.Loads(nil, fish, stock.Feeding{Temperature: T, Protein: protein})
		if err != nil {
			return nil, nil, err
		}
		if T == slices.Max(months) {
			found = assumed // the same in every month, but for the temperature
		}
		coldest := max(T, 1) // the rate is stated down to 1 °C
		list[i] = Month{Feed: grown.Feed, FilterRate: filter.TemperatureFactor.Run(t, filter.TemperatureFactorInput{Temperature: coldest})}
		if T <= stock.FeedingStops {
			fasting++
		}
	}
	if fasting == 0 || len(fish) == 0 {
		return list, found, nil
	}
	return list, append(found, finding.Finding{
		Code: "FEEDING_STOPS", Severity: finding.Note, Subject: "feed",
		Sentence: fmt.Sprintf("In %d months the water is at %.0f °C or below: the fish are not fed.", fasting, stock.FeedingStops.Celsius()),
		Value:    finding.Of(float64(fasting), "months"), Limit: finding.Of(stock.FeedingStops.Celsius(), "°C"),
		Change: "Go by the thermometer, not the date; in spring begin with little, since the filter wakes more slowly than the gut.", Source: source.CarpFeeding,
	}), nil
}
