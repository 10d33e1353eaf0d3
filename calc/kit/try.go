package kit

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// TryHose says what keeps a hose from being calculated with.
func TryHose(h Hose) error {
	_, err := pipe.NewRun(pipe.Spec{Length: unit.Metres(1), Bore: h.Bore, TailBore: h.TailBore, Wall: h.Wall})
	return err
}

// TryFilter says what keeps a filter from being calculated with.
func TryFilter(f Filter) error {
	_, err := filter.Assess(nil, filter.AssessInput{
		Filter: f.Filter, Load: unit.GramsPerDay(1), Temperature: assume.SummerTemperature, PH: assume.PH,
	})
	return err
}

// TryLamp says what keeps a lamp unit from being calculated with.
func TryLamp(l Lamp) error {
	_, err := uv.FieldAt(nil, l.Unit, uv.Condition{Transmittance: assume.Transmittance, Age: 1})
	return err
}
