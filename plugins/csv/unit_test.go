package csvcatalogue

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The factors of NIST Special Publication 811, appendix B, as printed there (from memory); the tolerance is half a unit of the
// last digit, relative to it.
func TestUnitsInHeaders(t *testing.T) {
	for _, u := range []struct {
		column, other  string
		factor, within float64 // the contract's unit for one of the other
	}{
		{"flow_l_per_h", "flow_l_per_min", 60, 0},
		{"flow_l_per_h", "flow_l_per_s", 3600, 0},
		{"flow_l_per_h", "flow_m3_per_h", 1000, 0},
		{"flow_l_per_h", "flow_uk_gal_per_h", 4.546090, 0.0000005},
		{"flow_l_per_h", "flow_uk_gal_per_min", 4.546090 * 60, 0.00003},
		{"flow_l_per_h", "flow_us_gal_per_h", 3.785412, 0.0000005},
		{"flow_l_per_h", "flow_us_gal_per_min", 6.309020e-05 * 3.6e6, 5e-12 * 3.6e6},
		{"head_m", "head_ft", 0.3048, 0},
		{"head_m", "head_kpa", 1 / 9.80665, 1e-12},
		{"head_m", "head_bar", 100 / 9.80665, 1e-10},
		{"outlet_bore_mm", "outlet_bore_in", 25.4, 0},
		{"outlet_bore_mm", "outlet_bore_cm", 10, 0},
		{"roll_width_m", "roll_width_ft", 0.3048, 0},
		{"medium_l", "medium_us_gal", 3.785412, 0.0000005},
		{"medium_l", "medium_uk_gal", 4.54609, 0},
		{"medium_l", "medium_m3", 1000, 0},
		{"price_per_m", "price_per_ft", 1 / 0.3048, 1e-11},
		{"price_per_m2", "price_per_ft2", 1 / 9.290304e-02, 1e-10},
		{"power_w", "power_kw", 1000, 0},
	} {
		found := false
		for _, n := range (column{name: u.column}).names() {
			if n.name == u.other {
				found = true
				assert.InDelta(t, u.factor, tidy(n.turn(1)), u.within, u.other)
			}
		}
		assert.True(t, found, "%s for %s", u.other, u.column)
	}
}

func TestColumnsWithoutOtherUnits(t *testing.T) {
	for _, name := range []string{"item_number", "description", "price", "life_h", "mass_kg_per_m2", "in_stock", "lamp_count", "loss_coefficient", "growth_rate_per_year", "body", "wall", "material"} {
		assert.Len(t, (column{name: name}).names(), 1, name)
	}
}

// No name in another unit is that of another column, or of the same column twice.
func TestNoNameMeansTwoColumns(t *testing.T) {
	all := newTables()
	for _, table := range append(all.kinds, all.about, all.curves) {
		seen := make(map[string]string)
		for _, c := range table.columns {
			for _, n := range c.names() {
				assert.Empty(t, seen[n.name], "%s in %s", n.name, table.name)
				seen[n.name] = c.name
				assert.Equal(t, n.name, normalise(n.name))
			}
		}
	}
}

func TestHeadersAsPeopleWriteThem(t *testing.T) {
	for written, name := range map[string]string{
		"Flow (L/h)": "flow_l_per_h", "flow [m³/h]": "flow_m3_per_h", "Flow (US gal/min)": "flow_us_gal_per_min", "HEAD (kPa)": "head_kpa",
		" Item  number ": "item_number", "Price per m²": "price_per_m2", "Specific surface (m²/m³)": "specific_surface_m2_per_m3",
	} {
		assert.Equal(t, name, normalise(written))
	}
}

func TestFolderInOtherUnits(t *testing.T) {
	files := goodFiles(t)
	edit(t, files, "pump_curves.csv", "flow_l_per_h,head_m,power_w", "Flow (L/min),Head (ft),power_kw")
	edit(t, files, "pump_curves.csv", "P-1,0,3.2,52\nP-1,3000,2.2,60\nP-1,6000,0.2,66", "P-1,0,10.5,0.052\nP-1,50,7.25,0.06\nP-1,100,0.625,0.066")
	edit(t, files, "hoses.csv", "bore_mm,wall,tail_bore_mm", "bore_in,wall,tail_bore_mm")
	edit(t, files, "hoses.csv", "25.4,smooth", "1,smooth")
	edit(t, files, "pump_curves.csv", "P-2,0,4.5,\nP-2,9000,0,", "P-2,0,15,\nP-2,150,0,")
	c, err := openFiles(t, files)
	require.NoError(t, err)
	items, rejects := read(t, c)
	require.Empty(t, rejects)
	curve := items["P-1"].GetPump().GetCurve()
	assert.Equal(t, 3000.0, curve[1].GetFlowLPerH())
	assert.Equal(t, 2.2098, curve[1].GetHeadM())
	assert.Equal(t, 60.0, curve[1].GetPowerW())
	assert.Equal(t, 25.4, items["H-1"].GetHose().GetBoreMm())

	edit(t, files, "pump_curves.csv", "P-1,50,7.25,0.06", "P-1,50,7.25,0.006")
	_, rejects = read(t, must(openFiles(t, files)))
	assert.Contains(t, fmt.Sprint(rejects["P-1"]), "pump_curves.csv row 3, column power_kw: 6 W is less than")
	assert.Contains(t, fmt.Sprint(rejects["P-1"]), "(as power_w)")
}

func TestBareGallonIsRefused(t *testing.T) {
	for _, header := range []string{"flow_gpm", "flow_gal_per_h", "Flow (gal/min)", "flow (gph)"} {
		files := goodFiles(t)
		edit(t, files, "pump_curves.csv", "flow_l_per_h", header)
		_, err := openFiles(t, files)
		assert.ErrorContains(t, err, "column "+header+": is not clear: a UK gallon is 4.546 L and a US gallon 3.785 L")
	}
	files := goodFiles(t)
	edit(t, files, "pump_curves.csv", "flow_l_per_h,", "flow_l_per_h,flow_l_per_min,")
	files["pump_curves.csv"] = []byte(strings.ReplaceAll(string(files["pump_curves.csv"]), "00,", "00,50,"))
	_, err := openFiles(t, files)
	assert.ErrorContains(t, err, "column flow_l_per_min: gives what column flow_l_per_h gives already")
}
