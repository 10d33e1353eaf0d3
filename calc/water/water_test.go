package water_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Reference: IAPWS-95 density, IAPWS R12-08 viscosity and IF97 vapour pressure, computed with python3-iapws 1.5.2. The
// equation for density deviates from IAPWS-95 by 1.2e-6 and that for vapour pressure from IF97 by 9.2e-5, as the heading of
// the table says; viscosity is the same formulation, and takes over the deviation of density four times at most.
func TestPropertiesMeetTheInternationalFormulations(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/water_properties.csv") {
		at := unit.Celsius(row.Float("T_C"))
		p := water.At(nil, at)
		mu := water.Viscosity.Eval(water.ViscosityInput{Temperature: at, Density: p.Density})
		pv := water.VapourPressure.Eval(water.AtTemperature{Temperature: at})
		assert.InEpsilon(t, row.Float("rho95_kg_m3"), p.Density.KilogramsPerCubicMetre(), 1.3e-6, "density at %v °C", at)
		assert.InEpsilon(t, row.Float("mu_R12_Pa_s"), mu.PascalSeconds(), 2e-6, "viscosity at %v °C", at)
		assert.InEpsilon(t, row.Float("nu_m2_s"), p.Viscosity.SquareMetresPerSecond(), 2e-6, "kinematic viscosity at %v °C", at)
		assert.InEpsilon(t, row.Float("pv_IF97_Pa"), pv.Pascals(), 9.3e-5, "vapour pressure at %v °C", at)
	}
}

// Reference: the same two short equations evaluated with python, to the ten digits of the table.
func TestShortEquationsHoldTheirCoefficients(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/water_properties.csv") {
		in := water.AtTemperature{Temperature: unit.Celsius(row.Float("T_C"))}
		assert.InEpsilon(t, row.Float("rho_Tanaka_kg_m3"), water.Density.Eval(in).KilogramsPerCubicMetre(), 1e-9)
		assert.InEpsilon(t, row.Float("pv_SR1_Pa"), water.VapourPressure.Eval(in).Pascals(), 1e-9)
	}
}

// Source: IAPWS R12-08, table 4, values for checking programs at 298.15 K (from memory), ten digits printed.
func TestViscosityMeetsTheReleaseCheckValues(t *testing.T) {
	for density, want := range map[unit.Density]float64{998: 889.735100e-6, 1200: 1437.649467e-6} {
		got := water.Viscosity.Eval(water.ViscosityInput{Temperature: unit.Celsius(25), Density: density})
		assert.InEpsilon(t, want, got.PascalSeconds(), 5e-10)
	}
}

func TestFormulasSayWhenTheyLeaveTheirRange(t *testing.T) {
	assert.Empty(t, water.Density.Outside(water.AtTemperature{Temperature: unit.Celsius(20)}))
	assert.NotEmpty(t, water.Density.Outside(water.AtTemperature{Temperature: unit.Celsius(41)}))
}
