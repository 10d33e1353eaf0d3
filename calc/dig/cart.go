package dig

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Vehicle carts spoil: a barrow, a skip or a lorry. With wet clay the payload is reached long before it is full.
type Vehicle struct {
	Capacity unit.Volume
	Payload  unit.Mass
}

// Cart counts the loads, by volume or by weight, whichever is more. The mass is that of the spoil in the bank, damp. The
// error is an input.Errors with the paths "loose_m3", "mass_kg", "vehicle.capacity_m3" and "vehicle.payload_kg".
func Cart(t *working.Trail, loose unit.Volume, mass unit.Mass, v Vehicle) (int, error) {
	var errs input.Errors
	for _, part := range []struct {
		field     string
		amount    float64
		low, high float64
	}{
		{"loose_m3", loose.CubicMetres(), 0, 1e6}, {"mass_kg", mass.Kilograms(), 0, 1e10},
		{"vehicle.capacity_m3", v.Capacity.CubicMetres(), 0.01, 1e3}, {"vehicle.payload_kg", v.Payload.Kilograms(), 10, 1e6},
	} {
		if !(part.amount >= part.low && part.amount <= part.high) {
			errs.Add(part.field, "look for a wrong unit", "it must lie between %g and %g, not %g", part.low, part.high, part.amount)
		}
	}
	if len(errs) > 0 {
		return 0, errs
	}
	return int(Loads.Run(t, LoadsInput{Loose: loose, Mass: mass, Capacity: v.Capacity, Payload: v.Payload})), nil
}
