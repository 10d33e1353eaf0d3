package electric_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/electric"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A worked example of a course on inspection and testing (izapp.app, City & Guilds 2391, module 7, read in an excerpt): 2.5 mm², 18 mV for
// each ampere and metre, 16 A over 18 m lose 5.18 V.
func ExampleDropByTable() {
	fmt.Printf("%.2f V\n", electric.DropByTable.Eval(electric.TableDropInput{Current: 16, Length: 18, PerAmpereMetre: 18}).Volts())
	// Output: 5.18 V
}

// The wiring tables are made from the resistances of the conductors, so that each checks the other: k = 2 R₂₀ (1 + 0.00393 · 50) in mV/(A m).
// The tables print two digits: half a unit of the second is up to 1.2 % here, and 2 % of the table is let pass.
func TestResistancesGiveTheWiringTable(t *testing.T) {
	checked := 0
	for _, c := range electric.Conductors() {
		if c.Table == 0 {
			continue
		}
		checked++
		hot := electric.HotResistance.Eval(electric.HeatInput{At20: c.At20, Temperature: unit.Celsius(70)})
		assert.InEpsilon(t, c.Table, 2*hot.OhmsPerKilometre(), 0.02, "%g mm²", c.MM2)
	}
	assert.Equal(t, 7, checked)
}

// IEC 60228 table A.2, plain stranded copper at 20 °C, as a cable maker's page reprints it (kabelmetal-indonesia.com, read).
func TestResistancesAreThoseOfTheStandard(t *testing.T) {
	printed := map[float64]float64{0.75: 24.5, 1: 18.1, 1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15}
	require.Len(t, electric.Conductors(), len(printed))
	for _, c := range electric.Conductors() {
		assert.InDelta(t, printed[c.MM2], c.At20.OhmsPerKilometre(), 1e-12)
	}
}

// Correction of the resistance from 20 °C to other temperatures, as a cable seller's page gives it after IEC 60228 (uecables.com, read),
// by which a resistance at θ is multiplied to have that at 20 °C. Printed to three decimals.
func TestCopperWarms(t *testing.T) {
	for celsius, factor := range map[float64]float64{5: 1.064, 20: 1, 40: 0.926, 70: 0.833} {
		hot := electric.HotResistance.Eval(electric.HeatInput{At20: 1, Temperature: unit.Celsius(celsius)})
		// The page's factors are 250 / (230 + θ), a round form that is 0.3 % from 0.00393 for each degree at 70 °C and less nearer 20 °C.
		assert.InDelta(t, factor, 1/float64(hot), 0.003, "%g °C", celsius)
	}
}

func supply(mm2 float64) electric.Supply {
	return electric.Supply{
		Voltage: electric.UsualVoltage, Length: unit.Metres(75), Limit: unit.Percent(5), MM2: mm2,
		Loads: []electric.Load{{Name: "pump", Power: unit.Watts(1900), Factor: 1}},
	}
}

// 1.9 kW over 75 m lose 4.8 % in 2.5 mm² and 2.0 % in 6 mm² at a power factor of 1: 8.26 A times 2 · 75 m times 8.87 and 3.69 mΩ/m, by hand.
func TestALongCableByHand(t *testing.T) {
	thin, err := electric.Assess(nil, supply(2.5))
	require.NoError(t, err)
	assert.InDelta(t, 8.261, thin.Current.Amperes(), 0.001)
	assert.InDelta(t, 4.78, thin.Drops[0].Share.Percent(), 0.01)
	assert.InDelta(t, 4.85, thin.Drops[0].TableShare.Percent(), 0.01)
	thick, err := electric.Assess(nil, supply(6))
	require.NoError(t, err)
	assert.InDelta(t, 1.99, thick.Drops[0].Share.Percent(), 0.01)
	chosen, err := electric.Assess(nil, supply(0))
	require.NoError(t, err)
	assert.Equal(t, 2.5, chosen.Chosen)
}

// Laws: more copper loses less, more length more; the drop is the power lost by the current; a kept limit is kept.
func TestLawsOfACable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := electric.Supply{
			Voltage: unit.Volts(rapid.Float64Range(12, 400).Draw(t, "volts")), Length: unit.Metres(rapid.Float64Range(1, 300).Draw(t, "metres")), Limit: unit.Percent(5),
			Loads: []electric.Load{
				{Name: "pump", Power: unit.Watts(rapid.Float64Range(1, 3000).Draw(t, "pump")), Factor: unit.Ratio(rapid.Float64Range(0.3, 1).Draw(t, "factor"))},
				{Name: "lights", Power: unit.Watts(rapid.Float64Range(0, 300).Draw(t, "lights")), Factor: 1},
			},
		}
		a, err := electric.Assess(nil, s)
		require.NoError(t, err)
		last := math.Inf(1)
		for _, d := range a.Drops {
			assert.Less(t, d.Voltage.Volts(), last)
			last = d.Voltage.Volts()
			assert.LessOrEqual(t, d.Share.Percent(), d.TableShare.Percent()*1.02, "the table takes a power factor of 1")
			assert.Equal(t, d.Within, max(d.Share, d.TableShare) <= s.Limit)
			if d.MM2 == a.Chosen {
				assert.True(t, d.Within)
			}
		}
		s.Length *= 2
		longer, err := electric.Assess(nil, s)
		require.NoError(t, err)
		assert.InEpsilon(t, 2*a.Drops[0].Voltage.Volts(), longer.Drops[0].Voltage.Volts(), 1e-12)
	})
}

// 60 W at 12 V over 15 m of 1.5 mm²: 5 A lose 2.17 V, 18 % of it. Low voltage is where it bites.
func TestLowVoltageIsWhereItBites(t *testing.T) {
	a, err := electric.Assess(nil, electric.Supply{
		Voltage: unit.Volts(12), Length: unit.Metres(15), Limit: unit.Percent(5), MM2: 1.5, Loads: []electric.Load{{Name: "pump", Power: unit.Watts(60), Factor: 1}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 18.1, a.Drops[0].Share.Percent(), 0.1)
	codes := map[string]bool{}
	for _, f := range a.Findings {
		codes[f.Code] = true
	}
	assert.Equal(t, map[string]bool{"VOLTAGE_DROPS_TOO_FAR": true, "LOW_VOLTAGE_LOSES_MORE": true}, codes)
}

func TestWhatIsNoSupplyIsSaidAtOnce(t *testing.T) {
	_, err := electric.Assess(nil, electric.Supply{MM2: 3, Loads: []electric.Load{{Power: unit.Watts(math.NaN())}}})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 5, "%v", errs)
}

func TestEveryRegionNamesItsCodeAndNoneSignsOff(t *testing.T) {
	for region, code := range map[electric.Region]string{
		electric.UK: "BS 7671", electric.Europe: "IEC 60364", electric.America: "680", electric.Australia: "3000",
	} {
		found := electric.Cautions(region)
		assert.Equal(t, "MAINS_NEAR_WATER", found[0].Code)
		assert.Contains(t, found[0].Change, "licensed electrician")
		named := 0
		for _, f := range found {
			if f.Code == "WIRING_CODE" {
				named++
				assert.Contains(t, f.Sentence, code)
			}
		}
		assert.Equal(t, 1, named)
	}
	assert.Len(t, electric.Cautions(electric.Anywhere), len(electric.Cautions(electric.UK))+3)
}
