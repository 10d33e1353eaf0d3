package pipe_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// The fittings of this package under the names they have in the reference table.
var darbyNames = map[string]pipe.Kind{
	"elbow 90 standard r/D 1 threaded":     pipe.Elbow90,
	"bend 90 long radius r/D 1.5 threaded": pipe.Bend90,
	"elbow 45 standard threaded":           pipe.Elbow45,
	"tee run-through threaded":             pipe.TeeThrough,
	"tee through-branch threaded":          pipe.TeeBranch,
	"ball valve full bore":                 pipe.BallValve,
	"gate valve open":                      pipe.GateValve,
	"swing check valve":                    pipe.CheckValve,
}

// Reference: fluids.fittings.Darby3K of python3-fluids 1.0.22 with its own table of constants, ten digits printed.
func TestFittingsMeetDarby(t *testing.T) {
	seen := map[pipe.Kind]int{}
	w := water.At(nil, unit.Celsius(15))
	for _, row := range reftest.Table(t, "hydraulics/minor_losses.csv") {
		kind, ok := darbyNames[row.Text("fitting")]
		if !ok {
			continue
		}
		seen[kind]++
		D := unit.Millimetres(row.Float("D_mm"))
		run, err := pipe.NewRun(pipe.Spec{Length: 1, Bore: D, Wall: pipe.Smooth, Fittings: []pipe.Fitted{{Kind: kind, Count: 1}}})
		require.NoError(t, err)
		v := row.Float("Re") * w.Viscosity.SquareMetresPerSecond() / D.Metres()
		_, loss := run.Losses(unit.Flow(v*math.Pi*D.Metres()*D.Metres()/4), w)
		assert.InEpsilon(t, row.Float("K"), loss.Metres()*2*water.Gravity/(v*v), 1e-9, "%s, %s mm", kind, row.Text("D_mm"))
	}
	assert.Len(t, seen, len(darbyNames), "every fitting is held to the table")
}

// Reference: fluids.fittings contraction (TP-410) and Borda–Carnot expansion on the small pipe, python3-fluids 1.0.22, ten
// digits printed; a tail is one of each, moved to the velocity in the hose.
func TestTailIsNarrowingAndWidening(t *testing.T) {
	parts := map[[2]string][2]float64{}
	for _, row := range reftest.Table(t, "hydraulics/minor_reducers.csv") {
		up, down := row.Text("D_up_mm"), row.Text("D_down_mm")
		switch {
		case row.Text("item") == "sudden contraction" && row.Text("method") == "TP-410":
			p := parts[[2]string{up, down}]
			p[0] = row.Float("K")
			parts[[2]string{up, down}] = p
		case row.Text("item") == "sudden expansion" && strings.HasPrefix(row.Text("method"), "Borda"):
			p := parts[[2]string{down, up}]
			p[1] = row.Float("K")
			parts[[2]string{down, up}] = p
		}
	}
	checked := 0
	for bores, k := range parts {
		if k[0] == 0 || k[1] == 0 {
			continue
		}
		checked++
		big, small := millimetres(t, bores[0]), millimetres(t, bores[1])
		beta := small.Metres() / big.Metres()
		got := pipe.Tail.Eval(pipe.TailInput{Bore: big, TailBore: small})
		assert.InEpsilon(t, (k[0]+k[1])/math.Pow(beta, 4), got, 1e-9, "%v", bores)
	}
	assert.Positive(t, checked)
}

func TestNewRunNamesEveryFault(t *testing.T) {
	_, err := pipe.NewRun(pipe.Spec{
		Length: 0, Bore: unit.Millimetres(25), TailBore: unit.Millimetres(32), Wall: pipe.Smooth,
		Roughness: -1, OtherK: math.NaN(), Fittings: []pipe.Fitted{{Kind: pipe.Elbow90, Count: 0}, {Kind: 99, Count: 1}},
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
		assert.NotEmpty(t, e.Change)
	}
	assert.Equal(t, []string{"length_m", "tail_bore_mm", "roughness_mm", "other_k", "fittings[0]", "fittings[1]"}, fields)
}

// Law: more length, less bore, more fittings and ribs never lose less head. The tail is narrowed along with the hose: beside
// a tail that stays, a narrower hose is a smaller step.
func TestMoreResistanceNeverLosesLess(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	rapid.Check(t, func(t *rapid.T) {
		spec := drawSpec(t)
		q := unit.LitresPerHour(math.Pow(10, rapid.Float64Range(1, 5).Draw(t, "log flow")))
		base := loss(t, spec, q, w)

		longer := spec
		longer.Length *= 1.1
		assert.Greater(t, loss(t, longer, q, w), base)

		narrower := spec
		narrower.Bore, narrower.TailBore = narrower.Bore*0.95, narrower.TailBore*0.95
		assert.Greater(t, loss(t, narrower, q, w), base)

		bent := spec
		bent.Fittings = append([]pipe.Fitted{{Kind: pipe.Elbow90, Count: 1}}, spec.Fittings...)
		assert.Greater(t, loss(t, bent, q, w), base)

		ribbed := spec
		ribbed.Wall = pipe.Corrugated
		assert.GreaterOrEqual(t, loss(t, ribbed, q, w), base)
	})
}

// What Explain records is what Losses returns.
func TestExplainAgreesWithLosses(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	rapid.Check(t, func(t *rapid.T) {
		run, err := pipe.NewRun(drawSpec(t))
		require.NoError(t, err)
		q := unit.LitresPerHour(rapid.Float64Range(10, 1e5).Draw(t, "flow"))
		trail := new(working.Trail)
		run.Explain(trail, q, w)
		hose, fittings := run.Losses(q, w)
		recorded := map[string]float64{}
		for _, s := range trail.Steps() {
			_, out := s.Values()
			recorded[s.Entry.Describe().ID] = out[0].Number
			assert.True(t, s.Replay())
		}
		// The two roads multiply in another order, hence the last bits.
		assert.InEpsilon(t, hose.Metres(), recorded["pipe.friction-loss"], 1e-14)
		assert.InDelta(t, fittings.Metres(), recorded["pipe.minor-loss"], 1e-14*math.Max(1, fittings.Metres()))
	})
}

func drawSpec(t *rapid.T) pipe.Spec {
	bore := unit.Millimetres(rapid.Float64Range(12, 150).Draw(t, "bore"))
	spec := pipe.Spec{
		Length: unit.Metres(rapid.Float64Range(0.5, 100).Draw(t, "length")), Bore: bore,
		Wall: rapid.SampledFrom([]pipe.Wall{pipe.Smooth, pipe.Corrugated}).Draw(t, "wall"),
	}
	if rapid.Bool().Draw(t, "tailed") {
		spec.TailBore = bore * unit.Length(rapid.Float64Range(0.5, 1).Draw(t, "tail"))
	}
	for kind := pipe.Elbow90; kind <= pipe.Valve; kind++ {
		n := rapid.IntRange(-3, 3).Draw(t, "count")
		if n <= 0 {
			continue
		}
		f := pipe.Fitted{Kind: kind, Count: n}
		switch kind {
		case pipe.RoundedEntry:
			f.Radius = bore / 8
		case pipe.SuddenChange, pipe.Reducer:
			f.From, f.To = bore*1.3, bore
			if n == 1 {
				f.From, f.To = bore*0.7, bore
			}
		case pipe.Valve:
			f.Kv = unit.CubicMetresPerHour(20)
		}
		spec.Fittings = append(spec.Fittings, f)
	}
	return spec
}

func loss(t require.TestingT, spec pipe.Spec, q unit.Flow, w water.Properties) float64 {
	run, err := pipe.NewRun(spec)
	require.NoError(t, err)
	return run.Loss(q, w).Metres()
}

func BenchmarkRunLoss(b *testing.B) {
	run, err := pipe.NewRun(pipe.Spec{
		Length: 10, Bore: unit.Millimetres(32), Wall: pipe.Smooth,
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 3}, {Kind: pipe.Exit, Count: 1}},
	})
	require.NoError(b, err)
	w := water.At(nil, unit.Celsius(15))
	b.ReportAllocs()
	for b.Loop() {
		run.Loss(unit.LitresPerHour(4000), w)
	}
}

func millimetres(t *testing.T, text string) unit.Length {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return unit.Millimetres(v)
}
