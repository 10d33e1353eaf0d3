package uv_test

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/mixing"
)

// randomChambers are as testdata/crosscheck/uv.py reads them, in SI units.
func randomChambers(n int) []map[string]float64 {
	random := rand.New(rand.NewPCG(6, 254))
	between := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	cases := make([]map[string]float64, n)
	for i := range cases {
		rs, L := between(0.006, 0.03), between(0.1, 1.2)
		cases[i] = map[string]float64{
			"P": between(1, 100), "L": L, "H": L * between(0.6, 1.6), "rs": rs, "R": rs * between(1.3, 5),
			"a": between(0, 120), "z": L * between(0, 0.7), "D": between(10, 1000), "D10": between(50, 2000),
		}
	}
	return cases
}

// Random chambers against nested adaptive quadrature by scipy, asked for 1e-8: both models summed over the water as they
// are defined. The field averages are claimed to 1e-6, a point to 1e-9, the doses that count to 1e-8.
func TestCrosscheckWithScipy(t *testing.T) {
	cases := randomChambers(8)
	var in bytes.Buffer
	for _, c := range cases {
		require.NoError(t, json.NewEncoder(&in).Encode(c))
	}
	answers := json.NewDecoder(bytes.NewReader(reftest.Python(t, "uv.py", in.Bytes())))
	for i, c := range cases {
		var want struct{ Line, Careful, Point, Flat, Laminar float64 }
		require.NoError(t, answers.Decode(&want))
		chamber := field.Chamber{
			Output: unit.Watts(c["P"]), ArcLength: unit.Metres(c["L"]), ChamberLength: unit.Metres(c["H"]),
			SleeveRadius: unit.Metres(c["rs"]), ChamberRadius: unit.Metres(c["R"]), Absorption: unit.AbsorptionCoefficient(c["a"]),
		}
		assert.InEpsilon(t, want.Line, float64(field.LineSourceAverage.Run(nil, chamber)), 1e-6, "%d", i)
		assert.InEpsilon(t, want.Careful, float64(field.CarefulAverage.Run(nil, chamber)), 1e-6, "%d", i)
		assert.InEpsilon(t, want.Point, float64(field.LineSourceAt.Run(nil, field.Point{
			Output: chamber.Output, ArcLength: chamber.ArcLength, SleeveRadius: chamber.SleeveRadius, Absorption: chamber.Absorption,
			Radius: (chamber.SleeveRadius + chamber.ChamberRadius) / 2, Height: unit.Metres(c["z"]),
		})), 1e-9, "%d", i)
		unmixed := mixing.UnmixedDoseInput{
			MeanDose: unit.Fluence(c["D"]), D10: unit.Fluence(c["D10"]), SleeveRadius: chamber.SleeveRadius,
			ChamberRadius: chamber.ChamberRadius, Absorption: chamber.Absorption,
		}
		assert.InEpsilon(t, want.Flat, float64(mixing.UnmixedDose.Run(nil, unmixed)), 1e-8, "%d", i)
		unmixed.Laminar = true
		assert.InEpsilon(t, want.Laminar, float64(mixing.UnmixedDose.Run(nil, unmixed)), 1e-8, "%d", i)
	}
}
