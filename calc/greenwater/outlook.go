package greenwater

import "example.com/pondwright/calc/unit"

// An Outlook is the forecast for the same lamp and pond at another temperature, in shade or in sun.
type Outlook struct {
	Temperature unit.Temperature
	FullSun     bool
	Verdict     Verdict
	// Soonest is by the hopeful reading, Latest by the careful one; nil where that reading does not clear.
	Soonest, Latest *unit.Time
}

// Outlooks forecasts the pond from spring to high summer, in shade and in sun.
func Outlooks(in ForecastInput) ([]Outlook, error) {
	var all []Outlook
	for _, sun := range []bool{false, true} {
		for _, T := range []float64{5, 10, 15, 20, 25, 30} {
			in.Temperature, in.FullSun = unit.Celsius(T), sun
			f, err := ForecastClearing(nil, in)
			if err != nil {
				return nil, err
			}
			all = append(all, Outlook{
				Temperature: in.Temperature, FullSun: sun, Verdict: f.Verdict,
				Soonest: f.Hopeful.days(), Latest: f.Careful.days(),
			})
		}
	}
	return all, nil
}

func (c Case) days() *unit.Time {
	if !c.Clearing.Clears {
		return nil
	}
	return &c.Clearing.Time
}
