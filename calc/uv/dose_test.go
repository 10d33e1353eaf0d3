package uv_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/working"
)

// Invented, vendor-neutral.
func gardenUnit() uv.Unit {
	return uv.Unit{
		WallPower: unit.Watts(36), Lamps: 1, Kind: uv.LowPressure, Output254: unit.Watts(10 / 0.72),
		ArcLength: unit.Millimetres(300), ChamberLength: unit.Millimetres(300),
		SleeveDiameter: unit.Millimetres(25), ChamberDiameter: unit.Millimetres(70),
	}
}

func gardenDose() uv.DoseInput {
	return uv.DoseInput{
		Unit: gardenUnit(), Condition: uv.Condition{Transmittance: unit.Percent(85)},
		Flow: unit.CubicMetresPerHour(3), PondVolume: unit.CubicMetres(10), HoursPerDay: unit.Hours(24),
	}
}

// Every chamber of the tables whose doses are in dose_plug_flow.csv, driven from the plug: the stated output is chosen
// such that the tabled power enters the water. Radial and line source averages by scipy, printed to 10 digits; the
// careful one is good to 1e-8.
func TestDoseAgainstTables(t *testing.T) {
	careful := map[string]float64{}
	for _, row := range reftest.Table(t, "uv/annulus_average_radlsi.csv") {
		careful[row.Text("case")] = row.Float("E_radlsi_avg_mW_per_cm2")
	}
	checked := 0
	for _, row := range reftest.Table(t, "uv/annulus_average.csv") {
		f, err := uv.FieldAt(nil, unitOf(row), uv.Condition{Transmittance: unit.Percent(row.Float("UVT_10mm_pct"))})
		require.NoError(t, err)
		assert.InEpsilon(t, row.Float("P254_W"), f.Output.Watts(), 1e-12)
		assert.InEpsilon(t, row.Float("E_radial_avg_mW_per_cm2"), f.Radial.MilliwattsPerSquareCentimetre(), 1e-9)
		assert.InEpsilon(t, row.Float("E_lsi_avg_mW_per_cm2"), f.LineSource.MilliwattsPerSquareCentimetre(), 1e-9)
		want, ok := careful[row.Text("case")]
		if !ok {
			continue
		}
		checked++
		d, err := uv.DoseFrom(nil, f, unit.CubicMetresPerHour(3), 0, 0)
		require.NoError(t, err)
		stay := row.Float("volume_L") / 3000 * 3600
		assert.InEpsilon(t, want*stay, d.Mean.MillijoulesPerSquareCentimetre(), 2e-8, row.Text("case"))
		assert.Zero(t, d.Daily)
	}
	require.Greater(t, checked, 15)
}

func unitOf(row reftest.Row) uv.Unit {
	return uv.Unit{
		WallPower: unit.Watts(5 * row.Float("P254_W")), Lamps: 1, Kind: uv.Amalgam,
		Output254: unit.Watts(row.Float("P254_W") / 0.72), // sleeve 0.9, fouling 0.8
		ArcLength: unit.Metres(row.Float("arc_length_m")), ChamberLength: unit.Metres(row.Float("chamber_length_m")),
		SleeveDiameter:  unit.Metres(2 * row.Float("sleeve_outer_radius_m")),
		ChamberDiameter: unit.Metres(2 * row.Float("chamber_inner_radius_m")),
	}
}

func TestDoseShowsItsWorkings(t *testing.T) {
	trail := new(working.Trail)
	d, err := uv.DoseAt(trail, uv.DoseInput{
		Unit: uv.Unit{
			WallPower: 22, Lamps: 2, Kind: uv.LowPressure, ArcLength: 0.2, ChamberLength: 0.25,
			SleeveDiameter: 0.025, ChamberDiameter: 0.07,
		},
		Condition: uv.Condition{Transmittance: 0.8, Age: 0.5},
		Flow:      unit.CubicMetresPerHour(2), PondVolume: 8, HoursPerDay: unit.Hours(18),
	})
	require.NoError(t, err)
	var ids []string
	for _, s := range trail.Steps() {
		ids = append(ids, s.Entry.Describe().ID)
		assert.True(t, s.Replay(), s.Entry.Describe().ID)
		assert.Empty(t, s.Outside(), s.Entry.Describe().ID)
	}
	assert.Equal(t, []string{
		"lamp.efficiency", "lamp.new-output", "lamp.aged", "lamp.through-sleeve", "lamp.through-fouling",
		"field.absorption", "field.water-volume", "field.radial-average", "field.line-source-average", "field.careful-average",
		"mixing.peak-velocity", "mixing.residence", "mixing.mean-dose", "mixing.fastest-dose",
		"greenwater.passes", "greenwater.daily-dose", "greenwater.power-per-volume",
	}, ids)

	// 11 W a lamp: 0.20 + 0.08·6/13 of it is light; 0.825 left at half age; sleeve 0.9, fouling 0.8.
	assert.InEpsilon(t, 22*(0.20+0.08*6/13)*0.825*0.72, d.Output.Watts(), 1e-12)
	assert.InEpsilon(t, 2.75, d.PowerPerVolume.WattsPerCubicMetre(), 1e-12)
	assert.InEpsilon(t, 2*18/8.0, d.PassesPerDay.Float(), 1e-12)
	assert.ElementsMatch(t, []string{
		"SLEEVE_ASSUMED", "FOULING_ASSUMED", "STRAIGHT_RAYS", "AGEING_ASSUMED", "LAMP_OUTPUT_ASSUMED", "BALLAST_ASSUMED",
		"COLD_WATER_NOT_COUNTED", "LAMPS_ON_ONE_AXIS",
	}, codes(d.Findings))
}

func TestFindingsDoubtTheCatalogue(t *testing.T) {
	in := gardenDose()
	in.Unit.Output254 = unit.Watts(20)
	in.Unit.ChamberLength = unit.Millimetres(700)
	d, err := uv.DoseAt(nil, in)
	require.NoError(t, err)
	assert.Subset(t, codes(d.Findings), []string{"LAMP_OUTPUT_DOUBTFUL", "ARC_SHORT_FOR_CHAMBER"})

	in.Unit.ChamberLength = unit.Millimetres(200)
	d, err = uv.DoseAt(nil, in)
	require.NoError(t, err)
	assert.Contains(t, codes(d.Findings), "ARC_LONGER_THAN_CHAMBER")
}

func codes(fs []finding.Finding) (codes []string) {
	for _, f := range fs {
		codes = append(codes, f.Code)
	}
	return codes
}

func TestBadQuestionsAreRefusedWhole(t *testing.T) {
	nan := math.NaN()
	_, err := uv.DoseAt(nil, uv.DoseInput{
		Unit:      uv.Unit{WallPower: unit.Power(nan), Kind: 7, Output254: -1, ArcLength: unit.Length(math.Inf(1)), SleeveDiameter: 0.05, ChamberDiameter: 0.05},
		Condition: uv.Condition{Transmittance: 1.5, Age: -1, Sleeve: 2, Film: -1, EndOfLife: unit.Ratio(nan)}, Flow: 0, PondVolume: -1, HoursPerDay: unit.Hours(25),
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.ElementsMatch(t, []string{
		"lamp_unit.power_w", "lamp_unit.lamp_count", "lamp_unit.lamp", "lamp_unit.output_254_nm_w", "lamp_unit.arc_length_mm",
		"lamp_unit.chamber_diameter_mm", "lamp_unit.chamber_length_mm", "water.uv_transmittance_percent", "condition.used_life_percent",
		"condition.sleeve_transmittance_percent", "condition.film_transmittance_percent", "condition.end_of_life_output_percent",
		"flow_l_per_h", "pond_volume_l", "hours_per_day",
	}, fields)
}

func TestLampCannotGiveMoreThanItTakes(t *testing.T) {
	in := gardenDose()
	in.Unit.Output254 = in.Unit.WallPower
	_, err := uv.DoseAt(nil, in)
	require.ErrorContains(t, err, "not its electrical power")
}

func TestDoseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := gardenDose()
		in.Unit.Output254 = unit.Watts(rapid.Float64Range(0, 15).Draw(t, "P"))
		in.Unit.ArcLength = unit.Millimetres(rapid.Float64Range(100, 600).Draw(t, "L"))
		in.Condition.Transmittance = unit.Ratio(rapid.Float64Range(0.01, 1).Draw(t, "T"))
		in.Condition.Age = unit.Ratio(rapid.Float64Range(0, 0.5).Draw(t, "age"))
		in.Flow = unit.LitresPerHour(rapid.Float64Range(100, 20000).Draw(t, "Q"))
		d, err := uv.DoseAt(nil, in)
		require.NoError(t, err)
		assert.Less(t, float64(d.Fastest), float64(d.Mean))
		assert.Greater(t, float64(d.Fastest), float64(d.Mean)/2, "an annulus is never as uneven as a tube")

		faster := in
		faster.Flow *= 2
		f, err := uv.DoseAt(nil, faster)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(d.Mean)/2, float64(f.Mean), 1e-12)
		assert.InEpsilon(t, float64(d.Daily), float64(f.Daily), 1e-12, "the day's dose does not know the flow")

		older := in
		older.Condition.Age += 0.5
		o, err := uv.DoseAt(nil, older)
		require.NoError(t, err)
		assert.Less(t, float64(o.Mean), float64(d.Mean))
	})
}

func BenchmarkDose(b *testing.B) {
	in := gardenDose()
	f, err := uv.FieldAt(nil, in.Unit, in.Condition)
	require.NoError(b, err)
	b.Run("field", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = uv.FieldAt(nil, in.Unit, in.Condition)
		}
	})
	b.Run("from field", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = uv.DoseFrom(nil, f, in.Flow, in.PondVolume, in.HoursPerDay)
		}
	})
}

// Two lamps apart cannot give more than their light; here they give a little less than on the axis.
func TestLampsApartAreWeighedAgainstTheAxis(t *testing.T) {
	in := gardenDose()
	in.Unit.Lamps, in.Unit.Output254 = 2, unit.Watts(5)
	in.Unit.ChamberDiameter = unit.Millimetres(120)
	d, err := uv.DoseAt(nil, in)
	require.NoError(t, err)
	last := d.Findings[len(d.Findings)-1]
	require.Equal(t, "LAMPS_ON_ONE_AXIS", last.Code)
	require.NotNil(t, last.Value)
	assert.Greater(t, last.Value.Number, 0.7)
	assert.Less(t, last.Value.Number, 1.0)
}
