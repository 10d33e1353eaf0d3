package ripening

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A Span is how long ripening may take: the middle run, and runs that start with ten times and a tenth of the bacteria.
type Span struct {
	Early, Expected, Late Result
}

// Forecast runs the pond three times, since nobody knows what it starts with.
func Forecast(in Input) (Span, error) {
	var s Span
	for _, run := range []struct {
		result *Result
		times  unit.Concentration
	}{{&s.Early, 10}, {&s.Expected, 1}, {&s.Late, 0.1}} {
		varied := in
		varied.Start.AmmoniaOxidisers *= run.times
		varied.Start.NitriteOxidisers *= run.times
		var err error
		if *run.result, err = Run(nil, varied); err != nil {
			return Span{}, err
		}
	}
	return s, nil
}

// FirstStocking gives the largest constant ammonia load from day 0 that keeps ammonia and nitrite below their limits to the
// end of the run, to one part in a thousand. The load of the input is not looked at. It is nothing where even fresh water
// passes a limit.
func FirstStocking(in Input, ammonia, nitrite unit.Concentration) (unit.MassRate, error) {
	if !(ammonia > 0 && nitrite > 0) {
		return 0, input.Error{Field: "limits", Problem: "no limits", Change: "give the ammonia and the nitrite to stay below"}
	}
	keeps := func(load unit.MassRate) (bool, error) {
		in.Load = []LoadStep{{TAN: load}}
		r, err := Run(nil, in)
		return r.TAN.Value <= ammonia && r.Nitrite.Value <= nitrite, err
	}
	if ok, err := keeps(0); err != nil || !ok {
		return 0, err
	}
	return largest(keeps, unit.GramsPerDay(in.Pond.CubicMetres()*0.01))
}

// largest finds the load up to which keeps holds: doubling from a first guess until it no longer does, then halving the
// gap.
func largest(keeps func(unit.MassRate) (bool, error), guess unit.MassRate) (unit.MassRate, error) {
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
		case high >= mostLoad:
			return high, nil
		default:
			low, high = high, min(2*high, mostLoad)
		}
	}
	return low, nil
}

// mostLoad is a tonne a day, above which a number is a slip of the pen.
const mostLoad = unit.MassRate(1e6 / 1000.0 / 86400)
