package stone

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Displacing is something that stands in the water: a boulder, a bed of gravel, planting baskets.
type Displacing struct {
	Count int
	Bulk  unit.Volume // of one, from its outside measures; 0 where it was weighed
	Void  unit.Ratio  // share of the bulk that water fills

	Mass    unit.Mass // of one, dry; 0 where it was measured
	Density unit.Density

	Under unit.Ratio // share of it that is below the water
}

// Usual shares of voids.
const (
	GravelVoid = unit.Ratio(0.35) // between rounded stones
	RubbleVoid = unit.Ratio(0.40) // between quarried stones
	// BasketVoid is the share of a planted basket that water fills: the pores of soaked loam and gravel.
	BasketVoid = unit.Ratio(0.45)
)

// Density of most stone when it is solid.
const Density = unit.Density(2650)

// Displaced is the water that things in it take the place of. The error is an input.Errors with paths such as "displacing[0].bulk_l".
func Displaced(t *working.Trail, things []Displacing) (unit.Volume, error) {
	var errs input.Errors
	for i, d := range things {
		errs.AddUnder(fmt.Sprintf("displacing[%d]", i), d.check())
	}
	if len(errs) > 0 {
		return 0, errs
	}
	var sum unit.Volume
	for _, d := range things {
		one := d.Bulk
		if d.Mass > 0 {
			one = WeighedVolume.Run(t, WeighedInput{Mass: d.Mass, Density: d.Density})
		}
		sum = DisplacedSum.Run(t, DisplacedInput{Above: sum, Count: d.Count, One: one, Void: d.Void, Under: d.Under})
	}
	return sum, nil
}

func (d Displacing) check() error {
	var errs input.Errors
	between := func(field string, v, low, high float64) {
		if !(v >= low && v <= high) {
			errs.Add(field, "look for a wrong unit", "it must lie between %g and %g, not %g", low, high, v)
		}
	}
	between("count", float64(d.Count), 1, 1e5)
	between("bulk_l", d.Bulk.Litres(), 0, 1e6)
	between("mass_kg", d.Mass.Kilograms(), 0, 1e6)
	between("void_percent", d.Void.Percent(), 0, 95)
	between("under_percent", d.Under.Percent(), 0, 100)
	switch {
	case (d.Bulk > 0) == (d.Mass > 0):
		errs.Add("", "give bulk_l or mass_kg", "it takes its outside measures or its weight, one of the two")
	case d.Mass > 0:
		between("density_kg_per_m3", d.Density.KilogramsPerCubicMetre(), 500, 4000)
	}
	return errs.Err()
}

// Displacement is the finding that says how much less water there is than the hole holds.
func Displacement(displaced, holds unit.Volume) finding.Finding {
	share := float64(displaced/holds) * 100
	return finding.Finding{
		Code: "WATER_DISPLACED", Severity: finding.Note, Subject: "volume",
		Sentence: fmt.Sprintf("Stone and baskets take the place of %s L, %.1f %% of what the pond holds.", finding.Whole(displaced.Litres()), share),
		Value:    finding.Of(displaced.Litres(), "L"),
		Change:   "Dose and stock by what is left.",
		Source:   source.Definition,
	}
}
