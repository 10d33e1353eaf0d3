package stock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

// tenDigits is half a unit of the last digit of a table printed to ten significant digits, at its widest.
const tenDigits = 5e-10

// bodyMass is the mass of one fish of the kind, seen through Loads.
func bodyMass(t assert.TestingT, s stock.Species, l unit.Length) float64 {
	now, _, _, err := stock.Loads(nil, []stock.Group{{Species: s, Count: 1, Length: l}}, stock.Feeding{Temperature: 20})
	assert.NoError(t, err)
	return now.Mass.Grams()
}

// The first two blocks of the table hold the relation to its parameters as computed elsewhere. The third is another
// relation for carp from other fish: Bister et al. 2000 (from memory), made so that a fish in good condition weighs as
// much. Two relations from different waters are held to agree within 5 %; the largest difference is 4.5 %, at 20 cm.
func TestBodyMassAgainstTables(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/fish_length_weight.csv") {
		l, want := unit.Centimetres(row.Float("length_cm")), row.Float("mass_g")
		switch row.Text("species") {
		case "common_carp_koi":
			assert.InEpsilon(t, want, bodyMass(t, stock.Koi, l), tenDigits)
			assert.InEpsilon(t, want, bodyMass(t, stock.Carp, l), tenDigits)
		case "goldfish":
			assert.InEpsilon(t, want, bodyMass(t, stock.Goldfish, l), tenDigits)
		case "common_carp_standard_weight_Ws":
			assert.InEpsilon(t, want, bodyMass(t, stock.Carp, l), 0.05, "%v", l)
		default:
			assert.Fail(t, "unknown block", row.Text("species"))
		}
	}
}

// W = a L^b: a fish k times as long weighs k^b as much.
func TestBodyMassScalesWithLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Float64Range(0.05, 0.5).Draw(t, "l")
		ratio := bodyMass(t, stock.Koi, unit.Metres(2*l)) / bodyMass(t, stock.Koi, unit.Metres(l))
		assert.InEpsilon(t, 7.94474, ratio, 1e-6) // 2^2.99 to six digits
	})
}

func TestSpeciesSayTheirNames(t *testing.T) {
	assert.Equal(t, "koi", stock.Koi.String())
	assert.Equal(t, "unknown fish", stock.Species(0).String())
	assert.Zero(t, stock.Species(9).GrownLength())
}
