package mixing_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/mixing"
)

// Closed forms, printed to 10 digits.
func TestBandAgainstTable(t *testing.T) {
	peak := mixing.PeakVelocity.Run(nil, mixing.AnnulusInput{SleeveRadius: 0.35, ChamberRadius: 1})
	for _, row := range reftest.Table(t, "uv/mixing_log_inactivation.csv") {
		mean := unit.MillijoulesPerSquareCentimetre(row.Float("mean_dose_mJ_per_cm2"))
		d10 := unit.MillijoulesPerSquareCentimetre(row.Float("D10_mJ_per_cm2"))
		for _, n := range []int{1, 2, 3, 4, 6, 10, 20} {
			red := mixing.TanksDose.Run(nil, mixing.TanksDoseInput{MeanDose: mean, D10: d10, Tanks: n})
			assert.InEpsilon(t, row.Float(fmt.Sprintf("log_tanks_%d", n)), float64(red/d10), 1e-9, "%s, %d tanks", row.Text("case"), n)
		}
		b := mixing.DoseBand(nil, mixing.BandInput{MeanDose: mean, PeakVelocity: peak, D10: d10, Tanks: mixing.UsualTanks})
		assert.InEpsilon(t, row.Float("log_plug_flow"), float64(b.High/d10), 1e-9, row.Text("case"))
		assert.InEpsilon(t, row.Float("log_tanks_2"), float64(b.Expected/d10), 1e-9, row.Text("case"))
		want := min(row.Float("log_fastest_path_annulus_k0.35"), row.Float("log_tanks_2"))
		assert.InEpsilon(t, want, float64(b.Low/d10), 1e-9, row.Text("case"))
	}
}

func TestBandIsAlwaysOrdered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := mixing.BandInput{
			MeanDose:     unit.Fluence(rapid.Float64Range(1e-6, 1e5).Draw(t, "D")),
			PeakVelocity: unit.Ratio(rapid.Float64Range(1.5, 2).Draw(t, "u")),
			D10:          unit.Fluence(rapid.Float64Range(1, 1e5).Draw(t, "D10")),
			Tanks:        rapid.IntRange(1, 50).Draw(t, "N"),
		}
		b := mixing.DoseBand(nil, in)
		assert.LessOrEqual(t, float64(b.Low), float64(b.Expected))
		assert.LessOrEqual(t, float64(b.Expected), float64(b.High))
		assert.LessOrEqual(t, float64(b.Low), float64(in.MeanDose)/float64(in.PeakVelocity))

		more := in
		more.Tanks++
		assert.GreaterOrEqual(t, float64(mixing.DoseBand(nil, more).Expected), float64(b.Expected)*(1-1e-12), "more tanks are nearer plug flow")
	})
}

func BenchmarkDoseBand(b *testing.B) {
	in := mixing.BandInput{MeanDose: 100, PeakVelocity: 1.517, D10: 2000, Tanks: 2}
	b.ReportAllocs()
	for b.Loop() {
		mixing.DoseBand(nil, in)
	}
}
