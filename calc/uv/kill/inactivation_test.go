package kill_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/mixing"
)

// Closed forms, printed to 10 digits, with plug flow and two tanks.
func TestShareAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/one_pass_kill.csv") {
		dose := unit.MillijoulesPerSquareCentimetre(row.Float("dose_mJ_per_cm2"))
		d10 := unit.MillijoulesPerSquareCentimetre(row.Float("D10_mJ_per_cm2"))
		assert.InDelta(t, row.Float("eta_plug_flow"), taken(dose, d10), 1e-10)
		tanks := mixing.TanksDose.Run(nil, mixing.TanksDoseInput{MeanDose: dose, D10: d10, Tanks: 2})
		assert.InDelta(t, row.Float("eta_two_tanks"), taken(tanks, d10), 1e-10)
	}
}

func taken(dose, d10 unit.Fluence) float64 {
	log := kill.LogInactivation.Run(nil, kill.LogInput{Dose: dose, D10: d10})
	return kill.Share.Run(nil, kill.ShareInput{Log: log}).Float()
}

// Desalin. Water Treat. 2015, abstract: 84 % removed, which is 0.796 by powers of ten.
func TestShareOfAPublishedReduction(t *testing.T) {
	r, ok := kill.Find("microcystis-removed")
	require.True(t, ok)
	assert.InDelta(t, 0.84, kill.Share.Run(nil, kill.ShareInput{Log: r.Log10}).Float(), 0.005)
}

// Trans. Chinese Soc. Agric. Eng. 2011, abstract: k = 0.0062 m²/J for coliforms of a fish farm, base e assumed, hence
// 371 J/m² for one in ten.
func TestImpliedD10OfColiforms(t *testing.T) {
	d10 := kill.ImpliedD10.Run(nil, kill.D10Input{Dose: 1, Log: 0.0062 / 2.302585093})
	assert.InDelta(t, 371.4, d10.JoulesPerSquareMetre(), 0.05)
	r, ok := kill.Find("coliforms-fish-farm")
	require.True(t, ok)
	assert.InDelta(t, 371, float64(kill.ImpliedD10.Run(nil, kill.D10Input{Dose: r.Low, Log: r.Log10})), 0.5)
}

// EPA 815-R-06-007 (2006), table 1.4 (from memory).
func TestDrinkingWaterCredit(t *testing.T) {
	columns := map[kill.Target]string{
		kill.Cryptosporidium: "Cryptosporidium_mJ_per_cm2", kill.Giardia: "Giardia_mJ_per_cm2", kill.Virus: "virus_mJ_per_cm2",
	}
	for _, row := range reftest.Table(t, "uv/epa_dose_table.csv") {
		for target, column := range columns {
			dose := unit.MillijoulesPerSquareCentimetre(row.Float(column))
			credit, _ := kill.DrinkingWaterCredit(target, dose)
			assert.InDelta(t, row.Float("log_inactivation"), credit.Float(), 1e-12, column)
			short, _ := kill.DrinkingWaterCredit(target, dose*0.999)
			assert.InDelta(t, row.Float("log_inactivation")-0.5, short.Float(), 1e-12, column)
		}
	}
	assert.Len(t, kill.DrinkingWaterDoses(), 24)
	for _, row := range kill.DrinkingWaterDoses() {
		credit, from := kill.DrinkingWaterCredit(row.Target, row.Dose)
		assert.Equal(t, row.Log10, credit)
		assert.Equal(t, from, row.Source)
	}
	// The European minimum is worth half a power of ten of virus.
	minimum, _ := kill.DrinkingWaterMinimum()
	credit, _ := kill.DrinkingWaterCredit(kill.Virus, minimum)
	assert.InDelta(t, 0.5, credit.Float(), 1e-12)
	none, _ := kill.DrinkingWaterCredit(0, minimum)
	assert.Zero(t, none)
}
