package stream

import (
	"slices"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Bed is what a stream runs over.
type Bed struct {
	ID, Name string
	N        Coefficients
	Source   source.Source
}

// Coefficients are the least, the usual and the most that n may be.
type Coefficients struct{ Low, Usual, High unit.ManningCoefficient }

// beds is the table.
//
// Source: Chow 1959, table 5-6, as carried by the python fluids library; the bare liner's least value is an assumption.
var beds = []Bed{
	{"liner", "bare liner", Coefficients{0.009, 0.011, 0.015}, source.BareLiner},
	{"concrete", "concrete, trowelled", Coefficients{0.011, 0.013, 0.015}, source.Chow1959},
	{"concrete-rough", "concrete, unfinished", Coefficients{0.014, 0.017, 0.020}, source.Chow1959},
	{"mortar", "cement mortar", Coefficients{0.011, 0.013, 0.015}, source.Chow1959},
	{"rubble-mortared", "rubble set in mortar", Coefficients{0.017, 0.025, 0.030}, source.Chow1959},
	{"rubble-dry", "dry rubble", Coefficients{0.023, 0.032, 0.035}, source.Chow1959},
	{"gravel", "gravel, straight and even", Coefficients{0.022, 0.025, 0.030}, source.Chow1959},
	{"gravel-between-stone", "gravel between banks of dry rubble", Coefficients{0.023, 0.033, 0.036}, source.Chow1959},
	{"cobbles", "cobbles with clean banks", Coefficients{0.030, 0.040, 0.050}, source.Chow1959},
	{"brook", "winding brook with pools and shoals", Coefficients{0.033, 0.040, 0.045}, source.Chow1959},
	{"mountain", "mountain stream over gravel and cobbles", Coefficients{0.030, 0.040, 0.050}, source.Chow1959},
	{"boulders", "mountain stream over cobbles and boulders", Coefficients{0.040, 0.050, 0.070}, source.Chow1959},
}

// shallow is what n comes to where the water is not much deeper than its stones. The usual value is the geometric mean of
// the range.
//
// Source: see source.ShallowStones.
var shallow = Coefficients{0.06, 0.095, 0.15}

// Beds is the table of beds.
func Beds() []Bed { return slices.Clone(beds) }

// BedByID finds a row of the table.
func BedByID(id string) (Bed, bool) {
	i := slices.IndexFunc(beds, func(b Bed) bool { return b.ID == id })
	if i < 0 {
		return Bed{}, false
	}
	return beds[i], true
}
