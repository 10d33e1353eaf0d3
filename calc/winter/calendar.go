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
	fasting, beyond := 0, false
	for i, T := range months {
		_, grown, assumed, err := stock.Loads(nil, fish, stock.Feeding{Temperature: T, Protein: protein})
		if err != nil {
			return nil, nil, err
		}
		if T == slices.Max(months) {
			found = assumed // the same in every month, but for the temperature
		}
		stated := min(max(T, 1), 30) // the rate is stated from 1 to 30 °C
		beyond = beyond || T != stated
		list[i] = Month{Feed: grown.Feed, FilterRate: filter.TemperatureFactor.Run(t, filter.TemperatureFactorInput{Temperature: stated})}
		if T <= stock.FeedingStops {
			fasting++
		}
	}
	if beyond {
		found = append(found, rateHeld)
	}
	if fasting == 0 || len(fish) == 0 {
		return list, found, nil
	}
	return list, append(found, feedingStops(fasting, len(months))), nil
}

func feedingStops(fasting, months int) finding.Finding {
	return finding.Finding{
		Code: "FEEDING_STOPS", Severity: finding.Note, Subject: "feed",
		Sentence: fmt.Sprintf("In %d of %d months the water is at %.0f °C or below: the fish are not fed.", fasting, months, stock.FeedingStops.Celsius()),
		Value:    finding.Of(float64(fasting), "months"), Limit: finding.Of(stock.FeedingStops.Celsius(), "°C"),
		Change: "Go by the thermometer, not the date; in spring begin with little, since the filter wakes more slowly than the gut.", Source: source.CarpFeeding,
	}
}

var rateHeld = finding.Finding{
	Code: "FILTER_RATE_HELD", Severity: finding.Note, Subject: "filter",
	Sentence: "How fast a filter works is stated for water of 1 to 30 °C; in colder and warmer months it was taken at those ends.",
	Change:   "Count on less in water near freezing.", Source: source.NitrificationTemperature,
}
