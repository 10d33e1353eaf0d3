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
		var problems input.Errors
		problems.Add("limits", "give the ammonia and the nitrite to stay below", "no limits")
		return 0, problems.Err()
	}
	keeps := func(load unit.MassRate) (bool, error) {
		in.Load = []LoadStep{{TAN: load}}
		r, err := Run(nil, in)
		return r.TAN.Value <= ammonia && r.Nitrite.Value <= nitrite, err
	}
	if ok, err := keeps(0); err != nil || !ok {
		return 0, err
	}
	low, high := unit.MassRate(0), unit.GramsPerDay(in.Pond.CubicMetres()*0.01)
	for {
		ok, err := keeps(high)
		if err != nil {
			return 0, err
		}
		if !ok {
			break
		}
		if low, high = high, 2*high; high > unit.GramsPerDay(1e6) {
			return low, nil
		}
	}
	for range 60 {
		if float64(high-low) <= 1e-3*float64(high) {
			break
		}
		mid := (low + high) / 2
		if ok, err := keeps(mid); err != nil {
			return 0, err
		} else if ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low, nil
}
