package testdata_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Output at 254 nm for each centimetre of arc, share of the power, and life.
//
// Source: EPA UV Disinfection Guidance Manual 2006 (EPA 815-R-06-007), table 2.1, from memory: about 0.2 W/cm, at most 38 %
// and 8,000 to 10,000 h for low-pressure lamps; 0.5 to 3.5 W/cm, at most 35 % and 8,000 to 12,000 h for amalgam lamps.
// "About" is taken as a quarter either way. The table's shares are of the lamp's own power, so the unit's must be less.
func TestLampsGiveThePlausibleLight(t *testing.T) {
	type lamp struct{ leastPerCm, mostPerCm, share, longest float64 }
	kinds := map[string]lamp{
		"low_pressure": {0.15, 0.25, 0.38, 10_000},
		"amalgam":      {0.5, 3.5, 0.35, 12_000},
	}
	stated := 0
	for _, r := range table(t, "lamp_units.csv") {
		item, kind := r["item_number"], kinds[r["lamp"]]
		assert.GreaterOrEqual(t, r.number(t, "life_h"), 8_000.0, item)
		assert.LessOrEqual(t, r.number(t, "life_h"), kind.longest, item)
		if r["output_254_nm_w"] == "" {
			continue // a merchant does not always know it
		}
		stated++
		output := r.number(t, "output_254_nm_w")
		perCm := output / (r.number(t, "arc_length_mm") / 10)
		assert.GreaterOrEqual(t, perCm, kind.leastPerCm, item)
		assert.LessOrEqual(t, perCm, kind.mostPerCm, item)
		assert.Less(t, output*r.number(t, "lamp_count")/r.number(t, "power_w"), kind.share, item)
	}
	assert.GreaterOrEqual(t, stated, 10)
}

func TestLampsFitTheirChambers(t *testing.T) {
	for _, r := range table(t, "lamp_units.csv") {
		item := r["item_number"]
		sleeve, chamber := r.number(t, "sleeve_diameter_mm"), r.number(t, "chamber_diameter_mm")
		assert.Greater(t, r.number(t, "chamber_length_mm"), r.number(t, "arc_length_mm"), item)
		assert.GreaterOrEqual(t, sleeve, 20.0, item)
		assert.LessOrEqual(t, sleeve, 30.0, item)
		assert.GreaterOrEqual(t, chamber, 60.0, item)
		assert.LessOrEqual(t, chamber, 200.0, item)
		// The loss is measured within what the housing is made for.
		assert.LessOrEqual(t, r.number(t, "loss_flow_l_per_h"), r.number(t, "max_flow_l_per_h"), item)
	}
}

// Surface that bacteria can use in a cubic metre of medium.
//
// Source: design bands from memory (Timmons & Ebeling, Recirculating Aquaculture; Malone & Beecher 2000, Aquac. Eng. 22:57;
// Rusten et al. 2006, Aquac. Eng. 34:322).
func TestMediaHaveTheSurfaceOfTheirKind(t *testing.T) {
	bands := map[string][2]float64{
		"foam": {200, 700}, "matting": {200, 700}, "moving_carriers": {500, 900}, "trickling": {100, 300},
		"floating_beads": {1050, 1150},
	}
	for _, r := range table(t, "filters.csv") {
		band, known := bands[r["medium"]]
		assert.True(t, known, "%s: %s", r["item_number"], r["medium"])
		surface := r.number(t, "specific_surface_m2_per_m3")
		assert.GreaterOrEqual(t, surface, band[0], r["item_number"])
		assert.LessOrEqual(t, surface, band[1], r["item_number"])
	}
}

func TestFiltersLoseHeadAsTheirBodyDoes(t *testing.T) {
	bodies := make(map[string]int)
	for _, r := range table(t, "filters.csv") {
		item := r["item_number"]
		bodies[r["body"]]++
		switch r["body"] {
		case "pressure":
			assert.Empty(t, r["inlet_above_outlet_m"], item)
			assert.Equal(t, r["clean_loss_flow_l_per_h"], r["due_loss_flow_l_per_h"], item)
			assert.Less(t, r.number(t, "clean_loss_flow_l_per_h"), r.number(t, "max_flow_l_per_h"), item)
			// Two to four times as much when due: common practice, no source.
			dirt := r.number(t, "due_loss_head_m") / r.number(t, "clean_loss_head_m")
			assert.GreaterOrEqual(t, dirt, 2.0, item)
			assert.LessOrEqual(t, dirt, 4.0, item)
		case "open":
			assert.Empty(t, r["clean_loss_head_m"]+r["due_loss_head_m"], item)
			// Boxes stand a little higher than they let out; a tower needs its height for the water to trickle.
			assert.Equal(t, r["medium"] == "trickling", r.number(t, "inlet_above_outlet_m") > 1, item)
		}
	}
	assert.GreaterOrEqual(t, bodies["pressure"], 7)
	assert.GreaterOrEqual(t, bodies["open"], 7)
}
