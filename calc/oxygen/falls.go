package oxygen

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Fall is one fall, or some like it one below the other.
type Fall struct {
	Drop  unit.Length // of each, from the upper to the lower water
	Steps int
	Flow  unit.Flow
	Sill  unit.Length // width that water runs over; 0 where it is not known
	Pool  unit.Length // depth of water each falls into; 0 where it is not known
}

// Falls is what all falls bring together: Low by the less hopeful of two published roads and greasier water, High the other
// way.
type Falls struct {
	Flow      unit.Flow
	Low, High unit.Ratio // share of the missing oxygen made up, by flow
	Findings  []finding.Finding
}

// Together adds up the falls of a pond. Problems of the input are in err, an input.Errors.
func Together(t *working.Trail, falls []Fall, temperature unit.Temperature) (Falls, error) {
	if err := checkFalls(falls); err != nil || len(falls) == 0 {
		return Falls{}, err
	}
	all := Falls{Findings: []finding.Finding{twoRoads}}
	var low, high float64
	for i, f := range falls {
		t.About(fmt.Sprintf("fall %d", i+1))
		l, h := f.efficiency(t, temperature)
		all.Flow += f.Flow
		low += float64(f.Flow) * l.Float()
		high += float64(f.Flow) * h.Float()
	}
	t.About("")
	all.Low, all.High = unit.Ratio(low/float64(all.Flow)), unit.Ratio(high/float64(all.Flow))
	return all, nil
}

func (f Fall) efficiency(t *working.Trail, temperature unit.Temperature) (low, high unit.Ratio) {
	cascade := func(r unit.Ratio) unit.Ratio {
		return CascadeEfficiency.Run(t, CascadeInput{Ratio: r, Falls: f.Steps})
	}
	at := func(water, fall float64) unit.Ratio {
		return cascade(WeirRatio.Run(t, WeirInput{Drop: f.Drop, Water: water, Fall: fall, Temperature: temperature}))
	}
	low, high = at(ModeratePollution, RegularStep), at(CleanWater, SharpLip)
	if f.Sill > 0 && f.Pool > 0 {
		sheet := unit.FlowPerWidth(float64(f.Flow) / f.Sill.Metres())
		e := cascade(SheetRatio.Run(t, SheetInput{Drop: f.Drop, Sheet: sheet, Pool: f.Pool, Temperature: temperature}))
		low, high = min(low, e), max(high, e)
	}
	return low, high
}

func checkFalls(falls []Fall) error {
	var problems input.Errors
	for i, f := range falls {
		field := func(name string) string { return fmt.Sprintf("falls[%d].%s", i, name) }
		problems.Between(field("drop_m"), f.Drop.Metres(), 0.1, 3, "give the height of each step, for which the equations hold")
		problems.Between(field("steps"), float64(f.Steps), 1, 50, "give the number of like steps")
		problems.Between(field("flow_l_per_h"), f.Flow.LitresPerHour(), 1, 1e8, "give the flow over the fall")
		problems.Between(field("sill_width_cm"), f.Sill.Centimetres(), 0, 10_000, "give the width of the sill, or nothing")
		problems.Between(field("pool_depth_cm"), f.Pool.Centimetres(), 0, 1000, "give the depth of water below the fall, or nothing")
	}
	return problems.Err()
}

var twoRoads = finding.Finding{
	Code: "FALL_AERATION_UNCERTAIN", Severity: finding.Note, Subject: "fall",
	Sentence: "Published equations for the oxygen a fall brings differ by a factor of two and more, and none was made for thin garden sheets, so the answer is a band.",
	Change:   "Measure the oxygen above and below the fall.", Source: source.WeirGameson,
}
