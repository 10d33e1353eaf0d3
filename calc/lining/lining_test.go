package lining_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Sections of the reference ponds, each with sides of its own, computed for the table independently. Ten digits of
// lengths up to 11 m are printed, and bounding rectangles to 0.1 mm.
const printed = 2e-9

func TestSectionsAgainstReference(t *testing.T) {
	profiles := make(map[string]string)
	for _, row := range reftest.Table(t, "geometry/ponds.csv") {
		profiles[row.Text("pond")] = row.Text("profile_run_drop_m")
	}
	for _, row := range reftest.Table(t, "geometry/liner.csv") {
		run, slope := section(t, profiles[row.Text("pond")])
		for _, direction := range []string{"length", "width"} {
			in := lining.SectionInput{
				Span: unit.Metres(row.Float("overall_" + direction + "_m")), Run: run, Slope: slope,
				Edge: unit.Metres(row.Float("overlap_m")),
			}
			assert.InDelta(t, row.Float("developed_"+direction+"_m"), lining.DevelopedSection.Eval(in).Metres(), printed, "%v", row)
			rule := lining.RuleInput{Span: in.Span, Depth: unit.Metres(row.Float("depth_m")), Edge: in.Edge}
			assert.InDelta(t, row.Float("rule_"+direction+"_m"), lining.SimpleRule.Eval(rule).Metres(), printed, "%v", row)
		}
	}
}

func section(t *testing.T, profile string) (run, slope unit.Length) {
	require.NotEmpty(t, profile)
	for part := range strings.SplitSeq(profile, ";") {
		r, d, _ := strings.Cut(part, ",")
		x, err := strconv.ParseFloat(r, 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(d, 64)
		require.NoError(t, err)
		run, slope = run+unit.Metres(x), slope+unit.Metres(math.Hypot(x, y))
	}
	return run, slope
}

// The reference ponds with square corners, from their measurements. One has sides that lean otherwise below its shelf.
func TestSizeAgainstReference(t *testing.T) {
	bays := map[string]outline.Bay{
		"P01_rect_vertical": {Plan: outline.Rectangle{Length: 4, Width: 2.5}, Depth: 1.2},
		"P04_rect_shelf_batter": {
			Plan: outline.Rectangle{Length: 7, Width: 4.5}, Depth: 1.25, Batter: 0.24,
			Steps: []outline.Step{{Depth: 0.25, Width: 0.3, Batter: new(unit.Ratio(0.4))}},
		},
		"P02_rect_battered_0.5":      {Plan: outline.Rectangle{Length: 6, Width: 4}, Depth: 1.2, Batter: 0.5},
		"P10_koi_rect_vertical_deep": {Plan: outline.Rectangle{Length: 6, Width: 3}, Depth: 1.8},
	}
	checked := 0
	for _, row := range reftest.Table(t, "geometry/liner.csv") {
		b, ok := bays[row.Text("pond")]
		if !ok {
			continue
		}
		checked++
		o, err := lining.Size(nil, b, lining.Edge{Overlap: unit.Metres(row.Float("overlap_m"))})
		require.NoError(t, err)
		assert.InDelta(t, row.Float("developed_sheet_area_m2"), o.Developed.Area().SquareMetres(), 3e-8)
		assert.InDelta(t, row.Float("rule_area_m2"), o.Rule.Area().SquareMetres(), 3e-8)
		// The table rounds the outer corners of the edge strip: π o² more than perimeter times o.
		edge := math.Pi * 0.3 * 0.3
		assert.InDelta(t, row.Float("true_surface_plus_edge_m2"), o.Covered.SquareMetres()+edge, 3e-8)
		assert.Equal(t, row.Float("rule_excess_length_m") > 0.1, len(o.Findings) == 1)
	}
	assert.Equal(t, len(bays), checked)
}

// By hand: upright sides, 0.1 m of freeboard, 0.3 m over the rim and a trench 0.2 m deep and 0.15 m wide.
func TestSizeWithFreeboardAndTrench(t *testing.T) {
	trail := new(working.Trail)
	o, err := lining.Size(trail, outline.Bay{Plan: outline.Rectangle{Length: 3, Width: 4}, Depth: 1, Steps: []outline.Step{{Depth: 0.3, Width: 0.25}}},
		lining.Edge{Freeboard: 0.1, Overlap: 0.3, TrenchDepth: 0.2, TrenchWidth: 0.15})
	require.NoError(t, err)
	assert.InDelta(t, 4+2*1.1+2*0.65, o.Developed.Length.Metres(), 1e-12)
	assert.InDelta(t, 3+2*1.1+2*0.65, o.Developed.Width.Metres(), 1e-12)
	assert.InDelta(t, o.Rule.Length.Metres(), o.Developed.Length.Metres(), 1e-12, "shelves cancel")
	wetted := 12 + 14*0.3 + 12*0.7
	assert.InDelta(t, wetted+14*(0.1+0.65), o.Covered.SquareMetres(), 1e-12)
	assert.InDelta(t, 1-o.Covered.SquareMetres()/(7.5*6.5), o.Waste.Float(), 1e-12)
	assert.Len(t, trail.Steps(), 4)
}

// By hand: a batter of 0.75 has a slope of 1.25 m a metre, and the rim stands 0.15 m out on each side.
func TestSizeWithBatterAndFreeboard(t *testing.T) {
	o, err := lining.Size(nil, outline.Bay{Plan: outline.Rectangle{Length: 6, Width: 5}, Depth: 1, Batter: 0.75},
		lining.Edge{Freeboard: 0.2, Overlap: 0.3})
	require.NoError(t, err)
	assert.InDelta(t, 6.3+2*(1.5-0.9)+0.6, o.Developed.Length.Metres(), 1e-12)
	assert.InDelta(t, 6.3+2*1.2+0.6, o.Rule.Length.Metres(), 1e-12)
}

func TestSizeRefuses(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 6, Width: 5}, Depth: 1}
	_, err := lining.Size(nil, bay, lining.Edge{Overlap: -1, Freeboard: unit.Length(math.NaN())})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = lining.Size(nil, outline.Bay{}, lining.Edge{})
	require.ErrorContains(t, err, "no outline")
}

// By hand: 7 x 5.5 m from a roll of 2 m with laps of 0.1 m takes 3 strips of 7 m or 4 of 5.5 m.
func TestFromRoll(t *testing.T) {
	c, err := lining.FromRoll(nil, lining.Sheet{Length: 7, Width: 5.5}, 2, 0.1)
	require.NoError(t, err)
	assert.Equal(t, 3, c.Strips)
	assert.False(t, c.Crosswise)
	assert.InDelta(t, 42, c.Bought.SquareMetres(), 1e-12)
	assert.InDelta(t, 14, c.Joins.Metres(), 1e-12)

	c, err = lining.FromRoll(nil, lining.Sheet{Length: 7, Width: 5.5}, 6, 0.1)
	require.NoError(t, err)
	assert.True(t, c.OnePiece)
	assert.InDelta(t, 42, c.Bought.SquareMetres(), 1e-12)

	c, err = lining.FromRoll(nil, lining.Sheet{Length: 7.6, Width: 2}, 4, 0.2)
	require.NoError(t, err)
	assert.True(t, c.Crosswise, "two strips of 2 m take less than one of 7.6 m")
	assert.InDelta(t, 16, c.Bought.SquareMetres(), 1e-12)

	c, err = lining.FromRoll(nil, lining.Sheet{Length: 20, Width: 3.9}, 2, 0.1)
	require.NoError(t, err)
	assert.Equal(t, 2, c.Strips, "two strips with one lap cover 3.9 m just")

	_, err = lining.FromRoll(nil, lining.Sheet{Length: 2, Width: 3}, 0, 1)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 3)
}

// By hand: 9.5 x 7 m of 1 mm rubber at 1.2 kg/m².
func TestMassAndPeople(t *testing.T) {
	m := lining.SheetMass.Eval(lining.MassInput{Area: 66.5, Thickness: unit.Millimetres(1), Density: lining.Rubber.Density})
	assert.InDelta(t, 79.8, m.Kilograms(), 1e-12)
	assert.Equal(t, 4, lining.People(m))
	assert.Equal(t, 1, lining.People(0))
}

// By hand: 12 m² of 300 g/m².
func TestArealMass(t *testing.T) {
	m := lining.ArealMass.Eval(lining.ArealInput{Area: 12, Weight: unit.GramsPerSquareMetre(300)})
	assert.InDelta(t, 3.6, m.Kilograms(), 1e-12)
}

// By hand: a box of 6 x 3 m, 1.8 m deep, 0.15 m over the rim; folded it would be the rule's 9.9 x 6.9 m.
func TestBoxSheet(t *testing.T) {
	a := lining.BoxSheet.Eval(lining.BoxInput{Length: 6, Width: 3, Depth: 1.8, Edge: 0.15})
	assert.InDelta(t, 18+18*1.95, a.SquareMetres(), 1e-12)
}

func TestBoxed(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 3, Width: 6}, Depth: 1.7}
	box, err := lining.Boxed(nil, bay, lining.Edge{Freeboard: 0.1, Overlap: 0.15})
	require.NoError(t, err)
	assert.InDelta(t, 18+18*1.95, box.Material.SquareMetres(), 1e-12)
	assert.InDelta(t, 6, box.Length.Metres(), 0)
	assert.InDelta(t, 1.8, box.Depth.Metres(), 1e-12)

	bay.Batter, bay.Steps = 0.1, []outline.Step{{Depth: 0.3, Width: 0.2}}
	_, err = lining.Boxed(nil, bay, lining.Edge{})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = lining.Boxed(nil, outline.Bay{Plan: outline.Ellipse{Length: 3, Width: 3}, Depth: 1}, lining.Edge{})
	require.ErrorContains(t, err, "for a rectangle")
}

// A pond known by a sounding has no section: the rule stands alone. By hand: 4 + 2 x 1.53 + 2 x 0.3 m.
func TestSizeBySoundings(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 4, Width: 4}, Soundings: &outline.Soundings{
		Taken: []outline.Sounding{{At: outline.Point{X: 2, Y: 2}, Depth: 1.5}},
	}}
	o, err := lining.Size(nil, bay, lining.Edge{Overlap: 0.3, Freeboard: 0.03})
	require.NoError(t, err)
	assert.Zero(t, o.Developed)
	assert.InDelta(t, 7.66, o.Sheet().Length.Metres(), 1e-12)
	assert.InDelta(t, 20+16*0.33, o.Covered.SquareMetres(), 1e-12)
	require.Len(t, o.Findings, 2)
	assert.Equal(t, "LINING_BY_RULE", o.Findings[0].Code)
	assert.Equal(t, "FREEBOARD_SMALL", o.Findings[1].Code)
	assert.Contains(t, o.Findings[1].Sentence, "480 L", "16 m² by 30 mm")
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	for _, f := range lining.Formulas() {
		assert.True(t, strings.HasPrefix(f.Describe().ID, "lining."), f.Describe().ID)
	}
}
