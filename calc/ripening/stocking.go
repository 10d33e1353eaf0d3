package ripening

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Span is how long ripening may take: the middle run, and runs that start with ten times and a tenth of the bacteria.
type Span struct {
	Early, Expected, Late Result
}

// Forecast runs the pond three times, since nobody knows what it starts with. Workings are those of the middle run.
func Forecast(t *working.Trail, in Input) (Span, error) {
	var s Span
	for _, run := range []struct {
		result *Result
		times  unit.Concentration
		trail  *working.Trail
	}{{&s.Early, 10, nil}, {&s.Expected, 1, t}, {&s.Late, 0.1, nil}} {
		varied := in
		varied.Start.AmmoniaOxidisers *= run.times
		varied.Start.NitriteOxidisers *= run.times
		var err error
		if *run.result, err = Run(run.trail, varied); err != nil {
			return Span{}, err
		}
	}
	return s, nil
}

// Findings are those of the middle run, and a warning where the latest does not ripen though the middle one does.
func (s Span) Findings() []finding.Finding {
	if !s.Expected.Ripe || s.Late.Ripe {
		return s.Expected.Findings
	}
	days := s.Expected.RipeAt.Days()
	return append(slices.Clone(s.Expected.Findings), finding.Finding{
		Code: "FILTER_MAY_NOT_RIPEN", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("With the usual bacteria the filter is ripe about day %.0f; with few it is not by the last day followed.", days),
		Value:    finding.Of(days, "days"), Change: "Seed the filter from a ripe one, and stock by the tests.", Source: source.FirstBacteria,
	})
}

// FirstStocking gives the largest constant ammonia load from day 0 that keeps ammonia and nitrite below their limits to the
// end of the run, to one part in a thousand. The load of the input is not looked at. It is nothing where even fresh water
// passes a limit.
func FirstStocking(in Input, below Limits) (unit.MassRate, error) {
	if !(below.TAN > 0 && below.Nitrite > 0) {
		return 0, input.Error{Field: "limits", Problem: "no limits", Change: "give the ammonia and the nitrite to stay below"}
	}
	keeps := func(load unit.MassRate) (bool, error) {
		in.Load = []LoadStep{{TAN: load}}
		r, err := Run(nil, in)
		return r.TAN.Value <= below.TAN && r.Nitrite.Value <= below.Nitrite, err
	}
	if ok, err := keeps(0); err != nil || !ok {
		return 0, err
	}
	return largest(keeps, unit.GramsPerDay(in.Pond.CubicMetres()*0.01), mostLoad(in.Pond))
}

// largest finds the load up to which keeps holds: doubling from a first guess until it no longer does, then halving the
// gap.
func largest(keeps func(unit.MassRate) (bool, error), guess, most unit.MassRate) (unit.MassRate, error) {
	low, high, bracketed := unit.MassRate(0), guess, false
	for range 100 {
		try := high
		if bracketed {
			if float64(high-low) <= 1e-3*float64(high) {
				break
			}
			try = (low + high) / 2
		}
		ok, err := keeps(try)
		switch {
		case err != nil:
			return 0, err
		case !ok:
			high, bracketed = try, true
		case bracketed:
			low = try
		case high >= most:
			return high, nil
		default:
			low, high = high, min(2*high, most)
		}
	}
	return low, nil
}

// mostLoad is 20 g of nitrogen a day in each cubic metre, some fifty times what a koi pond bears: above that a number is a
// slip of the pen.
func mostLoad(pond unit.Volume) unit.MassRate { return unit.GramsPerDay(20 * pond.CubicMetres()) }
