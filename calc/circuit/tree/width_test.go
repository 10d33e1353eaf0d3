package tree_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A garden is a circuit with one of each input that may be off.
type garden struct {
	pumpFlow, pumpHead               float64 // scale
	length, bore, roughness, fitting float64 // scale, of the hose to the fall
	fall                             float64 // m
	filter                           float64 // m
}

func usualGarden() garden { return garden{1, 1, 1, 1, 1, 1, 1.3, 0.4} }

func (g garden) circuit(t require.TestingT) tree.Circuit {
	points := []pump.Point{}
	for i, h := range []float64{5.2, 5.0, 4.4, 3.5, 2.2, 0.4} {
		points = append(points, pump.Point{Flow: unit.LitresPerHour(2500 * float64(i) * g.pumpFlow), Head: unit.Head(h * g.pumpHead)})
	}
	curve, err := pump.NewCurve(points, 0)
	require.NoError(t, err)
	rising, err := pipe.NewRun(pipe.Spec{
		Length: unit.Metres(9 * g.length), Bore: unit.Millimetres(38 * g.bore), Wall: pipe.Smooth,
		Roughness: unit.Millimetres(0.05 * g.roughness), OtherK: 1 * g.fitting,
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 4}, {Kind: pipe.HoseTail, Count: 2}}, TailBore: unit.Millimetres(32),
	})
	require.NoError(t, err)
	return tree.Circuit{
		Intake: tree.Branch{Name: "intake", End: tree.Fork{
			{Name: "deep", Parts: []tree.Part{hose(t, "drain", 6, 104, 0.01, 2.7)}, End: tree.Surface{}},
			{Name: "skimmer", Parts: []tree.Part{hose(t, "skimmer hose", 4, 45, 0.01, 3.5)}, End: tree.Surface{}},
		}},
		Pump: []tree.Part{tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve)}},
		Delivery: tree.Branch{Name: "delivery", Parts: []tree.Part{
			tree.Device{Name: "filter", At: unit.LitresPerHour(8000), Clean: unit.Head(g.filter), Due: 1.5},
			tree.Parallel{Paths: []tree.Path{
				{Name: "lamp", Parts: []tree.Part{tree.Device{Name: "lamp chamber", At: unit.LitresPerHour(5000), Clean: 0.3}}},
				{Name: "bypass", Parts: []tree.Part{tree.Valve{Name: "bypass valve", Kv: unit.CubicMetresPerHour(8)}}},
			}},
		}, End: tree.Fork{
			{Name: "fall", Parts: []tree.Part{tree.Hose{Name: "rising hose", Run: rising}}, End: tree.Outlet{Level: unit.Metres(g.fall)}},
			{Name: "return", Parts: []tree.Part{hose(t, "low hose", 5, 40, 0.05, 3), tree.Valve{Name: "throttle", Bore: unit.Millimetres(40), K: 15}}, End: tree.Surface{}},
		}},
	}
}

func (g garden) flows(t require.TestingT) (pumped, fall float64) {
	n, err := tree.New(g.circuit(t))
	require.NoError(t, err)
	s, outcome := n.Solve(tree.Conditions{Water: water.At(nil, 15)})
	require.Equal(t, circuit.Meets, outcome)
	b, _ := s.Branch("fall")
	return float64(s.Flow), float64(b.Flow)
}

// Reference: the circuit solved again with the input a little less and a little more. The step of 1e-4 leaves the central
// difference good to some 1e-7.
func TestDerivativesMeetDifferences(t *testing.T) {
	n, err := tree.New(usualGarden().circuit(t))
	require.NoError(t, err)
	width := map[string]*tree.Width{}
	sure := tree.Sureness{Levels: map[string]tree.How{"fall": tree.Guessed}, Lengths: map[string]tree.How{"rising hose": tree.Paced}}
	for _, of := range []string{"", "fall"} {
		w, _ := n.Width(nil, tree.Conditions{Water: water.At(nil, 15)}, pump.Usual(), sure, of)
		width[of] = w
	}
	influence := func(of, input, subject string) float64 {
		for _, i := range width[of].Influences {
			if i.Input == input && i.Subject == subject {
				return float64(i.Flow)
			}
		}
		t.Fatalf("no influence of %s of %s", input, subject)
		return 0
	}
	for _, test := range []struct {
		input, subject string
		half           float64 // of the scale, or in m
		set            func(g *garden, by float64)
	}{
		{"pump's tolerance", "pump", 1, func(g *garden, by float64) { g.pumpFlow += 0.10 * by; g.pumpHead += 0.08 * by }},
		{"length of hose, paced", "rising hose", 0.10, func(g *garden, by float64) { g.length += by }},
		{"roughness of hose", "rising hose", math.Log(3), func(g *garden, by float64) { g.roughness *= math.Exp(by) }},
		{"bore of hose, box figure", "rising hose", 0.03, func(g *garden, by float64) { g.bore += by }},
		{"height of the end, guessed", "fall", 0.325, func(g *garden, by float64) { g.fall += by }},
		{"head lost, box figure", "filter", 0.25, func(g *garden, by float64) { g.filter *= 1 + by }},
	} {
		const step = 1e-4
		less, more := usualGarden(), usualGarden()
		test.set(&less, -step)
		test.set(&more, step)
		pumpedLess, fallLess := less.flows(t)
		pumpedMore, fallMore := more.flows(t)
		assert.InEpsilon(t, math.Abs(pumpedMore-pumpedLess)/(2*step)*test.half, influence("", test.input, test.subject), 1e-6, test.input)
		assert.InEpsilon(t, math.Abs(fallMore-fallLess)/(2*step)*test.half, influence("fall", test.input, test.subject), 1e-6, test.input)
	}
}

// The width is the root of the sum of the squares of what each input does; the shares add up to one; the input that does
// most is named; what is recorded can be replayed.
func TestWidthAddsInQuadrature(t *testing.T) {
	n, err := tree.New(usualGarden().circuit(t))
	require.NoError(t, err)
	trail := new(working.Trail)
	w, found := n.Width(trail, tree.Conditions{Water: water.At(nil, 15)}, pump.Usual(), tree.Sureness{}, "fall")
	sum, shares := 0.0, 0.0
	for i, x := range w.Influences {
		sum += float64(x.Flow) * float64(x.Flow)
		shares += x.Share.Float()
		if i > 0 {
			assert.LessOrEqual(t, x.Flow, w.Influences[i-1].Flow)
		}
	}
	assert.InDelta(t, 1, shares, 1e-12)
	for _, b := range w.Branches {
		if b.Branch == "fall" {
			assert.InEpsilon(t, math.Sqrt(sum), float64(b.Flow.High-b.Flow.Expected), 1e-12)
			assert.InEpsilon(t, math.Sqrt(sum), float64(b.Flow.Expected-b.Flow.Low), 1e-12)
		}
	}
	require.NotEmpty(t, found)
	assert.Equal(t, "MATTERS_MOST", found[0].Code)
	assert.Equal(t, w.Influences[0].Subject, found[0].Subject)
	require.Len(t, trail.Steps(), len(w.Influences))
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay())
	}
}
