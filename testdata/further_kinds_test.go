package testdata_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// A fitting loses within a factor of two of what the published methods give for its kind at 1 m/s: by Darby's three constants,
// of which package pipe is held to the python fluids library. Makes differ by as much.
func TestFittingsLoseWhatTheirKindLoses(t *testing.T) {
	kinds := map[string]pipe.Kind{
		"elbow_90": pipe.Elbow90, "bend_90": pipe.Bend90, "elbow_45": pipe.Elbow45, "tee": pipe.TeeThrough, "ball_valve": pipe.BallValve,
		"gate_valve": pipe.GateValve, "check_valve": pipe.CheckValve,
	}
	held := 0
	for _, r := range table(t, "fittings.csv") {
		kind, ok := kinds[r["kind"]]
		if !ok {
			continue
		}
		assertHandbook(t, r, "loss_coefficient", kind)
		if r["kind"] == "tee" {
			assertHandbook(t, r, "branch_loss_coefficient", pipe.TeeBranch)
			assert.Greater(t, r.number(t, "branch_loss_coefficient"), r.number(t, "loss_coefficient"), r["item_number"])
		}
		held++
	}
	assert.GreaterOrEqual(t, held, 10)
}

func assertHandbook(t *testing.T, r row, column string, kind pipe.Kind) {
	t.Helper()
	const v = 1.0 // m/s
	bore := unit.Millimetres(r.number(t, "bore_mm"))
	run, err := pipe.NewRun(pipe.Spec{Length: 1, Bore: bore, Wall: pipe.Smooth, Fittings: []pipe.Fitted{{Kind: kind, Count: 1}}})
	require.NoError(t, err)
	d := bore.Metres()
	_, loss := run.Losses(unit.Flow(v*math.Pi*d*d/4), water.At(nil, unit.Celsius(15)))
	ratio := r.number(t, column) / (loss.Metres() * 2 * water.Gravity / (v * v))
	assert.Greater(t, ratio, 0.5, "%s, %s", r["item_number"], column)
	assert.Less(t, ratio, 2.0, "%s, %s", r["item_number"], column)
}

// Every hose that is pushed on tails has the tail sold for it, with the narrow way through that the hose states.
func TestHoseTailsFitTheHoses(t *testing.T) {
	tails := make(map[string]string)
	for _, r := range table(t, "fittings.csv") {
		if r["kind"] == "hose_tail" {
			tails[r["wide_bore_mm"]] = r["bore_mm"]
		}
	}
	smooth := 0
	for _, r := range table(t, "hoses.csv") {
		if narrow, sold := tails[r["bore_mm"]]; sold && r["wall"] == "smooth" {
			assert.Equal(t, r["tail_bore_mm"], narrow, r["item_number"])
			smooth++
		}
	}
	assert.Equal(t, len(tails), smooth, "a tail that fits no hose")
}

// Loose medium has the surface of the same medium in a filter, within a fifth: it is the same stuff.
func TestLooseMediaAreThoseOfTheFilters(t *testing.T) {
	inFilters := make(map[string][]float64)
	for _, r := range table(t, "filters.csv") {
		inFilters[r["medium"]] = append(inFilters[r["medium"]], r.number(t, "specific_surface_m2_per_m3"))
	}
	held := 0
	for _, r := range table(t, "media.csv") {
		for _, there := range inFilters[r["medium"]] {
			if here := r.number(t, "specific_surface_m2_per_m3"); here > 0.8*there && here < 1.2*there {
				held++
				break
			}
		}
	}
	assert.Equal(t, 5, held, "all but the sand, which no filter of the demo has")
}

// Shops run out: the demo has items that are there, items that are not, and items of which it is not known.
func TestSomeItemsAreOutOfStock(t *testing.T) {
	for _, file := range []string{"pumps.csv", "filters.csv", "lamp_units.csv", "hoses.csv", "liners.csv", "fittings.csv", "media.csv", "fish_species.csv"} {
		var none, some int
		for _, r := range table(t, file) {
			switch r["in_stock"] {
			case "":
			case "0":
				none++
			default:
				assert.Positive(t, r.number(t, "in_stock"))
				some++
			}
		}
		assert.Positive(t, none, file)
		assert.Greater(t, some, none, file)
	}
}
