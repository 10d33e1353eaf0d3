package season

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// NightInput is what a warm night asks besides the year: what brings air.
type NightInput struct {
	Falls []oxygen.Fall
	Air   oxygen.Air
}

// A Night is the oxygen of one night. The water is taken to stay as warm as at dusk, and the air still.
type Night struct {
	Day    int
	Water  unit.Temperature
	Length unit.Time
	Oxygen oxygen.Night
}

// WarmestNight follows the night after the warmest day of the year, and the same night in a hot spell. Fish breathe what they
// burn their feed with, and no less than unfed. Workings are those of the usual year. Problems of the input are in err, an
// input.Errors.
func (y *Year) WarmestNight(t *working.Trail, in Input, n NightInput) (usual, hot Night, findings []finding.Finding, err error) {
	t.About("warmest night")
	if usual, findings, err = y.night(t, in, n, y.Days[y.Warmest].Dusk); err != nil {
		return usual, hot, nil, err
	}
	t.About("")
	hot, more, err := y.night(nil, in, n, y.HotDusk)
	// What the hot spell adds is said once: the usual night's verdicts give way to its own.
	return usual, hot, merge(more, findings), err
}

func (y *Year) night(t *working.Trail, in Input, n NightInput, water unit.Temperature) (Night, []finding.Finding, error) {
	dark := unit.Hours(24) - y.Days[y.Warmest].Sky.Daylight
	made := Night{Day: y.Warmest, Water: water, Length: min(max(dark, unit.Hours(0.5)), unit.Hours(24))}
	asked := oxygen.NightInput{
		Pond: in.Shape.Full(), Surface: in.Shape.Surface(), Temperature: min(water, 40), Altitude: in.Site.Altitude, Night: made.Length,
	}
	var found []finding.Finding
	if len(in.Fish) > 0 {
		fed := min(water, stock.FeedRangeEnds)
		load, _, _, err := stock.Loads(t, in.Fish, stock.Feeding{Temperature: fed, Protein: in.Protein})
		if err != nil {
			return made, nil, err
		}
		resting, stretched, err := stock.RestingOxygen(t, in.Fish, water)
		if err != nil {
			return made, nil, err
		}
		asked.Fish, asked.TAN = load.OxygenDemand, load.TAN
		if resting > asked.Fish {
			asked.Fish, found = resting, stretched
		}
	}
	var err error
	if asked.Falls, err = oxygen.Together(t, n.Falls, asked.Temperature); err != nil {
		return made, nil, err
	}
	if asked.AirLow, asked.AirHigh, err = oxygen.Bubbles(t, n.Air, asked.Temperature); err != nil {
		return made, nil, err
	}
	made.Oxygen, err = oxygen.AtDawn(t, asked)
	return made, append(found, made.Oxygen.Findings...), err
}

// merge keeps the first finding of each code.
func merge(lists ...[]finding.Finding) []finding.Finding {
	var all []finding.Finding
	seen := map[string]bool{}
	for _, list := range lists {
		for _, f := range list {
			if !seen[f.Code] {
				seen[f.Code] = true
				all = append(all, f)
			}
		}
	}
	return all
}
