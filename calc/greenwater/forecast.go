package greenwater

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/greenwater/algae"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// ForecastInput is a green pond with a lamp at work on it.
type ForecastInput struct {
	MeanDose     unit.Fluence // of one pass, plug flow
	PeakVelocity unit.Ratio   // of laminar flow in the chamber, over the mean
	Flow         unit.Flow
	HoursPerDay  unit.Time // lamp and flow together
	Volume       unit.Volume
	Temperature  unit.Temperature
	FullSun      bool
	Ratio        unit.Ratio // algae now over algae wanted: 10 from soup to a visible floor
}

// Verdict is what the lamp can be expected to do.
type Verdict int

// Verdicts. None of them is certain: no dose is published that clears a pond of green single cells.
const (
	Unlikely Verdict = iota + 1 // no road leads there, even read hopefully
	Possible                    // one road leads there, or a hopeful reading of it
	Likely                      // both roads lead there, read carefully
)

// A Case is the balance of the pond under one reading of what is not known.
type Case struct {
	Growth, Loss unit.PerTime
	Pass         unit.Fluence // dose of one pass that counts
	Share        unit.Ratio   // of the algae taken in one pass
	Removal      unit.PerTime
	Clearing     algae.ClearingTime
	// LeastLamp is how many times today's light just holds the pond at this flow, LeastFlow the flow that does it with
	// this lamp; 0 needs none, and no answer is a nil.
	LeastLamp *unit.Ratio
	LeastFlow *unit.Flow
}

// A Forecast is the answer by both roads.
type Forecast struct {
	Passes unit.Ratio   // of the whole pond a day
	Daily  unit.Fluence // mean dose the whole pond gathers in a day

	// By turnover: the share taken in one pass, times the passes.
	Hopeful, Expected, Careful Case
	// By daily dose: over the lowest dose that held an alga back, and over the one that stopped one for a week.
	OverLowest, OverStop unit.Ratio
	Lowest, Stop         kill.Response // the two published doses

	Verdict  Verdict
	Findings []finding.Finding
}

// ForecastClearing holds a lamp against the growth of a pond by two roads. Turnover: growth and loss of algae against the
// share that one pass takes, under a hopeful, an expected and a careful reading, in that order on the trail. Daily dose: what the whole pond gathers
// in a day over the doses published to hold algae back. Neither is averaged into the other.
func ForecastClearing(t *working.Trail, in ForecastInput) (Forecast, error) {
	if err := in.check().Err(); err != nil {
		return Forecast{}, err
	}
	f := Forecast{Passes: Passes.Run(t, PassesInput{Flow: in.Flow, HoursPerDay: in.HoursPerDay, Volume: in.Volume})}
	f.Daily = DailyDose.Run(t, DailyDoseInput{MeanDose: in.MeanDose, Passes: f.Passes})
	top := algae.Envelope.Run(t, algae.GrowthInput{Temperature: in.Temperature})
	hopeful, expected, careful := readings(in.FullSun)
	f.Hopeful = hopeful.solve(t, in, top)
	f.Expected = expected.solve(t, in, top)
	f.Careful = careful.solve(t, in, top)

	f.Lowest, _ = kill.Find("microcystis-suppressed")
	f.Stop, _ = kill.Find("microcystis-growth-stop")
	f.OverLowest, f.OverStop = unit.Ratio(f.Daily/f.Lowest.Low), unit.Ratio(f.Daily/f.Stop.Low)
	f.Verdict = f.verdict()
	f.Findings = f.findings(in)
	return f, nil
}

func (f Forecast) verdict() Verdict {
	switch {
	case f.Careful.Clearing.Clears && f.OverStop >= 1:
		return Likely
	case f.Hopeful.Clearing.Clears || f.OverLowest >= 1:
		return Possible
	default:
		return Unlikely
	}
}

// A reading is one choice of what is not known.
type reading struct {
	growthShare float64 // of the envelope
	loss        float64 // a day
	d10         unit.Fluence
	pass        func(mixing.Band) unit.Fluence
}

// readings spread growth over the assumed 10 to 30 % of the envelope, the lower half in shade and the upper in sun, and
// natural loss over 0.05 to 0.2 a day. What one pass takes is read from blue-greens, the only algae with a published
// reduction by a low-pressure lamp: Anabaena hopefully, Microcystis otherwise. Green cells are harder.
func readings(fullSun bool) (hopeful, expected, careful reading) {
	low, mid, high := 0.10, 0.15, 0.20
	if fullSun {
		low, mid, high = 0.20, 0.25, 0.30
	}
	d10 := func(key string) unit.Fluence {
		r, _ := kill.Find(key)
		return kill.ImpliedD10.Eval(kill.D10Input{Dose: r.Low, Log: r.Log10})
	}
	soft, hard := d10("anabaena-slow-kill"), d10("microcystis-slow-kill")
	hopeful = reading{low, 0.20, soft, func(b mixing.Band) unit.Fluence { return b.High }}
	expected = reading{mid, 0.10, hard, func(b mixing.Band) unit.Fluence { return b.Expected }}
	careful = reading{high, 0.05, hard, func(b mixing.Band) unit.Fluence { return b.Low }}
	return hopeful, expected, careful
}

// solve is the balance under a reading.
func (r reading) solve(t *working.Trail, in ForecastInput, top unit.PerTime) Case {
	c := r.balance(t, in, top, 1, 1)
	if lamp, ok := leastFactor(func(x float64) bool { return r.holds(in, top, x, 1) }); ok {
		factor := unit.Ratio(lamp)
		c.LeastLamp = &factor
	}
	if flow, ok := leastFactor(func(x float64) bool { return r.holds(in, top, 1, x) }); ok {
		q := unit.Flow(flow) * in.Flow
		c.LeastFlow = &q
	}
	return c
}

// balance is the balance with the lamp's light and the flow multiplied.
func (r reading) balance(t *working.Trail, in ForecastInput, top unit.PerTime, light, flow float64) Case {
	band := mixing.DoseBand(t, mixing.BandInput{
		MeanDose: in.MeanDose * unit.Fluence(light/flow), PeakVelocity: in.PeakVelocity, D10: r.d10, Tanks: mixing.UsualTanks,
	})
	c := Case{Growth: top * unit.PerTime(r.growthShare), Loss: unit.PerDay(r.loss), Pass: r.pass(band)}
	log := kill.LogInactivation.Run(t, kill.LogInput{Dose: c.Pass, D10: r.d10})
	c.Share = kill.Share.Run(t, kill.ShareInput{Log: log})
	c.Removal = algae.Removal.Run(t, algae.RemovalInput{
		Share: c.Share,
		Passes: Passes.Run(t, PassesInput{
			Flow: in.Flow * unit.Flow(flow), HoursPerDay: in.HoursPerDay, Volume: in.Volume,
		}),
	})
	c.Clearing = algae.Clearing.Run(t, algae.ClearingInput{Growth: c.Growth, Loss: c.Loss, Removal: c.Removal, Ratio: in.Ratio})
	return c
}

func (r reading) holds(in ForecastInput, top unit.PerTime, light, flow float64) bool {
	c := r.balance(nil, in, top, light, flow)
	return c.Removal+c.Loss >= c.Growth
}
