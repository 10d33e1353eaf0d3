package water_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

func saturation(celsius, gramsPerKilogram float64, p unit.Pressure) float64 {
	in := water.OxygenInput{Temperature: unit.Celsius(celsius), Pressure: p, Salinity: unit.Ratio(gramsPerKilogram / 1000)}
	return water.OxygenSaturation.Eval(in).MilligramsPerLitre()
}

// EN 25814 as reproduced in a sensor manual, to its last digit; three of its 31 values are printed one digit off the
// equation, 12.5 at 6 °C, 12.2 at 7 °C and 8.91 (for 8.9150) at 21 °C. Standard Methods 4500-O from memory, sure to one
// unit of the third decimal. The first column is the same equation computed elsewhere (Python), to ten digits.
func TestOxygenSaturationAgainstTables(t *testing.T) {
	printedOff := map[float64]float64{6: 0.1, 7: 0.1, 21: -0.01}
	const en, standardMethods = "en25814_published_mg_per_L", "standard_methods_published_mg_per_L"
	for _, row := range reftest.Table(t, "filtration/oxygen_saturation_1atm.csv") {
		celsius := row.Float("temp_C")
		got := saturation(celsius, 0, water.Atmosphere)
		assert.InEpsilon(t, row.Float("benson_krause_mg_per_L"), got, 5e-10)
		if row.Text(en) != "" {
			assert.InDelta(t, row.Float(en)-printedOff[celsius], got, row.HalfDigit(en), "%g °C", celsius)
		}
		if row.Text(standardMethods) != "" {
			assert.InDelta(t, row.Float(standardMethods), got, 0.0015, "%g °C", celsius)
		}
	}
}

// Computed elsewhere (Python) from the equations of Benson & Krause and ISO 2533, to ten digits: this checks that they
// were written down right. The next test holds altitude against a printed table.
func TestOxygenSaturationUnderPressureAndSalt(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_saturation_pressure.csv") {
		got := saturation(row.Float("temp_C"), 0, unit.Pressure(row.Float("pressure_mmHg")/760*101325))
		assert.InEpsilon(t, row.Float("do_mg_per_L"), got, 5e-10)
	}
	for _, row := range reftest.Table(t, "filtration/oxygen_saturation_altitude.csv") {
		p := water.AltitudePressure.Eval(water.AltitudeInput{Altitude: unit.Metres(row.Float("altitude_m"))})
		assert.InEpsilon(t, row.Float("do_mg_per_L"), saturation(row.Float("temp_C"), 0, p), 5e-10)
	}
	for _, row := range reftest.Table(t, "filtration/oxygen_saturation_salt.csv") {
		got := saturation(row.Float("temp_C"), row.Float("salinity_g_per_kg"), water.Atmosphere)
		assert.InEpsilon(t, row.Float("benson_krause_mg_per_L"), got, 5e-10)
	}
}

// ISO 2533 prints 89,874.6 Pa at 1,000 m, 79,495.2 at 2,000 and 70,108.5 at 3,000 (from memory, to the pascal here).
//
// The table has mean pressures of real air in whole millimetres of mercury: Dussart & Francis-Boeuf 1949, as reproduced.
// A mean year differs from the standard day by less than a third of the 3 % that weather does.
func TestAltitudePressureAgainstTables(t *testing.T) {
	for altitude, want := range map[float64]float64{1000: 89_875, 2000: 79_495, 3000: 70_109} {
		got := water.AltitudePressure.Eval(water.AltitudeInput{Altitude: unit.Metres(altitude)})
		assert.InDelta(t, want, got.Pascals(), 0.6)
	}
	for _, row := range reftest.Table(t, "filtration/oxygen_pressure_altitude.csv") {
		got := water.AltitudePressure.Eval(water.AltitudeInput{Altitude: unit.Metres(row.Float("altitude_m"))})
		assert.InEpsilon(t, row.Float("pressure_table_published_mmHg")/760*101325, got.Pascals(), 0.01, row.Text("altitude_m"))
	}
}

func TestWarmerSaltierAndThinnerAirHoldLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		celsius := rapid.Float64Range(0, 39).Draw(t, "celsius")
		salt := rapid.Float64Range(0, 39).Draw(t, "salt")
		p := unit.Pressure(rapid.Float64Range(60_000, 105_000).Draw(t, "p"))
		got := saturation(celsius, salt, p)
		assert.Greater(t, got, saturation(celsius+1, salt, p))
		assert.Greater(t, got, saturation(celsius, salt+1, p))
		assert.Greater(t, got, saturation(celsius, salt, p-1000))
	})
}

func BenchmarkOxygenSaturation(b *testing.B) {
	in := water.OxygenInput{Temperature: 20, Pressure: water.Atmosphere}
	b.ReportAllocs()
	for b.Loop() {
		water.OxygenSaturation.Eval(in)
	}
}
