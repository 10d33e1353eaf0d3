package season

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// meals is what the fish eat and leave at every whole degree: between them all of it goes in straight lines, since the ration
// does and its corners lie at whole degrees.
type meals struct {
	feed, tan, dirt [warmest + 1]float64
	clogging        float64 // kg of dirt that fill the filter to its due; 0 without a filter
	found           []finding.Finding
}

const warmest = 40

func (in Input) meals(t *working.Trail) (meals, error) {
	var m meals
	if len(in.Fish) == 0 {
		return m, nil
	}
	for degree := range m.feed {
		// The ration is stated up to FeedRangeEnds and held from there.
		T := min(unit.Temperature(degree), stock.FeedRangeEnds)
		load, _, found, err := stock.Loads(nil, in.Fish, stock.Feeding{Temperature: T, Protein: in.Protein})
		if err != nil {
			return m, err
		}
		m.feed[degree], m.tan[degree], m.dirt[degree] = float64(load.Feed), float64(load.TAN), float64(load.Solids)
		if degree == 20 {
			m.found = found
		}
	}
	return m, in.clogging(t, &m)
}

// clogging finds what dirt the filter holds, from the time it takes to fill in warm water.
func (in Input) clogging(t *working.Trail, m *meals) error {
	if in.Bed == nil {
		return nil
	}
	bed, warm := *in.Bed, 24
	bed.Fish, bed.Protein, bed.Pond = in.Fish, in.Protein, in.Shape.Full()
	for i := range bed.Months {
		bed.Months[i] = unit.Temperature(warm)
	}
	year, err := solids.OverYear(nil, bed)
	if err != nil {
		return err
	}
	// solids takes the fish as grown, which is how they are given here.
	m.clogging = year.Months[0].Expected.Seconds() * float64(year.Months[0].Solids)
	for _, f := range year.Findings {
		if f.Code == "OPEN_SHARE_ASSUMED" || f.Code == "DUE_HEAD_ASSUMED" || f.Code == "CLEAN_IN_POND_WATER" {
			m.found = append(m.found, f)
		}
	}
	return nil
}

// at reads a line of the table at a temperature.
func at(table *[warmest + 1]float64, celsius float64) float64 {
	c := min(max(celsius, 0), warmest)
	low := min(int(c), warmest-1)
	return table[low] + (c-float64(low))*(table[low+1]-table[low])
}
