package circuit_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// Reference: scipy.optimize.brentq on the same circuits, with friction from python3-fluids and water from python3-iapws;
// ten digits printed. The two corrugated rows use a relative roughness beyond Colebrook's law and are left out.
func TestDutyPointsMeetScipy(t *testing.T) {
	curves := referenceCurves(t)
	solved := 0
	for _, row := range reftest.Table(t, "hydraulics/duty_points.csv") {
		curve := curves[row.Text("curve")]
		if row.Float("eps_mm")/row.Float("D_mm") > 0.05 {
			continue
		}
		run, err := pipe.NewRun(pipe.Spec{
			Length: unit.Metres(row.Float("L_m")), Bore: unit.Millimetres(row.Float("D_mm")), Wall: pipe.Smooth,
			Roughness: unit.Millimetres(row.Float("eps_mm")), OtherK: row.Float("sumK"),
		})
		require.NoError(t, err)
		w := water.Properties{
			Density: unit.Density(row.Float("rho_kg_m3")), Viscosity: unit.KinematicViscosity(row.Float("nu_m2_s")),
		}
		loop := &circuit.Loop{Lift: unit.Head(row.Float("H_static_m")), Runs: []*pipe.Run{run}}
		p := pump.AsMeasured(curve).AtSpeed(unit.Ratio(row.Float("speed_ratio")))
		q, h, outcome := circuit.Solve(p, loop, w)
		if row.Text("Q_m3_h") == "" {
			assert.Equal(t, circuit.BeyondCurve, outcome, row.Text("case"))
			continue
		}
		if row.Float("Q_m3_h") == 0 {
			assert.Contains(t, []circuit.Outcome{circuit.CannotLift, circuit.CannotStart}, outcome, row.Text("case"))
			continue
		}
		require.Equal(t, circuit.Meets, outcome, row.Text("case"))
		solved++
		assert.InEpsilon(t, row.Float("Q_m3_h"), q.CubicMetresPerHour(), 1e-8, row.Text("case"))
		assert.InEpsilon(t, row.Float("H_m"), h.Metres(), 1e-8, row.Text("case"))
		assert.InEpsilon(t, row.Float("v_m_s"), run.Velocity(q).MetresPerSecond(), 1e-8, row.Text("case"))
	}
	assert.Greater(t, solved, 20)
}

// On a curve that droops the greater of two flows is found; where much resists the water the pump works on the rising part,
// and there too head meets demand.
func TestDroopingCurves(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	p := pump.AsMeasured(referenceCurves(t)["P7"])
	narrow := &circuit.Loop{Lift: 2, Runs: []*pipe.Run{mustRun(t, pipe.Spec{Length: 40, Bore: unit.Millimetres(16), Wall: pipe.Smooth})}}
	q, h, outcome := circuit.Solve(p, narrow, w)
	require.Equal(t, circuit.Meets, outcome)
	assert.Less(t, q, p.Crest())
	pumped, _ := p.Head(q)
	assert.InDelta(t, h.Metres(), pumped.Metres(), 1e-12)

	high := &circuit.Loop{Lift: 6.99, Runs: []*pipe.Run{mustRun(t, pipe.Spec{Length: 5, Bore: unit.Millimetres(63), Wall: pipe.Smooth})}}
	duty, found := circuit.Assess(nil, p, pump.Usual(), high, w)
	require.NotNil(t, duty)
	assert.Greater(t, duty.Flow.Expected, p.Crest())
	codes := map[string]bool{}
	for _, f := range found {
		codes[f.Code] = true
	}
	assert.True(t, codes["TWO_FLOWS_AT_ONE_HEAD"])
}

type referenceLoop struct {
	ID       string    `json:"id"`
	Kind     string    `json:"kind"`
	TempC    float64   `json:"temp_c"`
	PumpFlow []float64 `json:"pump_l_per_h"`
	PumpHead []float64 `json:"pump_m"`
	Runs     []struct {
		Length float64 `json:"length_m"`
		Bore   float64 `json:"bore_m"`
		Rough  float64 `json:"rough_m"`
		K      float64 `json:"k"`
	} `json:"runs"`
	Lift float64 `json:"lift_m"`
	Flow float64 `json:"flow_l_per_h"`
	Head float64 `json:"head_m"`
}

// Reference: 100 circuits solved with python3-fluids, python3-iapws and scipy. The tolerance of 1e-6 is what the density
// equation's deviation from IAPWS-95 can move a flow, several times over.
func TestLoopsOfSeveralRunsMeetScipy(t *testing.T) {
	text, err := os.ReadFile("../../testdata/reference/hydraulics/duty.json")
	require.NoError(t, err)
	var cases []referenceLoop
	require.NoError(t, json.Unmarshal(text, &cases))
	solved := 0
	for _, c := range cases {
		if c.Kind != "loop" {
			continue
		}
		points := make([]pump.Point, len(c.PumpFlow))
		for i := range points {
			points[i] = pump.Point{Flow: unit.LitresPerHour(c.PumpFlow[i]), Head: unit.Head(c.PumpHead[i])}
		}
		curve, err := pump.NewCurve(points, 0)
		require.NoError(t, err, c.ID)
		loop := &circuit.Loop{Lift: unit.Head(c.Lift)}
		for _, r := range c.Runs {
			run, err := pipe.NewRun(pipe.Spec{
				Length: unit.Metres(r.Length), Bore: unit.Metres(r.Bore), Wall: pipe.Smooth,
				Roughness: unit.Metres(r.Rough), OtherK: r.K,
			})
			require.NoError(t, err, c.ID)
			loop.Runs = append(loop.Runs, run)
		}
		q, h, outcome := circuit.Solve(pump.AsMeasured(curve), loop, water.At(nil, unit.Celsius(c.TempC)))
		require.Equal(t, circuit.Meets, outcome, c.ID)
		assert.InEpsilon(t, c.Flow, q.LitresPerHour(), 1e-6, c.ID)
		assert.InEpsilon(t, c.Head, h.Metres(), 1e-6, c.ID)
		solved++
	}
	assert.Equal(t, 100, solved)
}

func TestWherePumpAndLoopMissEachOther(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	run := mustRun(t, pipe.Spec{Length: 5, Bore: unit.Millimetres(40), Wall: pipe.Smooth})
	full := mustCurve(t, points(0, 3, 3000, 2, 6000, 0))
	short := mustCurve(t, points(2000, 2.5, 3000, 2))
	drooping := mustCurve(t, points(0, 3, 2000, 3.2, 4000, 2.5, 6000, 0))
	for code, test := range map[string]struct {
		curve *pump.Curve
		lift  unit.Head
	}{
		"CANNOT_LIFT":  {full, 3},
		"BELOW_CURVE":  {short, 2.48},
		"BEYOND_CURVE": {short, 0.1},
		"CANNOT_START": {drooping, 3.1},
	} {
		duty, found := circuit.Assess(nil, pump.AsMeasured(test.curve), pump.Usual(), &circuit.Loop{Lift: test.lift, Runs: []*pipe.Run{run}}, w)
		assert.Nil(t, duty, code)
		require.Len(t, found, 1)
		assert.Equal(t, code, found[0].Code)
		assert.NotEmpty(t, found[0].Change)
	}
}

// Laws: energy closes round the loop; more lift or loss never gives more flow; the tolerance brackets the expected flow; the
// shares add up to the head; what is recorded can be replayed.
func TestLoopLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := water.At(nil, unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "temperature")))
		p := pump.AsMeasured(drawCurve(t))
		loop := drawLoop(t)
		q, h, outcome := circuit.Solve(p, loop, w)
		if outcome != circuit.Meets {
			assert.Zero(t, q)
			assert.Zero(t, h)
			return
		}
		pumped, ok := p.Head(q)
		require.True(t, ok)
		assert.InDelta(t, pumped.Metres(), h.Metres(), 1e-9*(1+h.Metres()), "energy closes")

		harder := *loop
		harder.Lift += unit.Head(rapid.Float64Range(0, 1).Draw(t, "more lift"))
		harder.Devices = append([]circuit.Device{{Name: "strainer", At: unit.LitresPerHour(1000), Loss: 0.1}}, loop.Devices...)
		less, _, outcome := circuit.Solve(p, &harder, w)
		if outcome == circuit.Meets {
			assert.Less(t, less, q)
		}

		trail := new(working.Trail)
		duty, _ := circuit.Assess(trail, p, pump.Usual(), loop, w)
		assert.LessOrEqual(t, duty.Flow.Low, duty.Flow.Expected)
		assert.GreaterOrEqual(t, duty.Flow.High, duty.Flow.Expected)
		sum := 0.0
		for _, s := range duty.Shares {
			assert.GreaterOrEqual(t, s.Head.Metres(), 0.0)
			sum += s.Head.Metres()
		}
		assert.InDelta(t, duty.Head.Expected.Metres(), sum, 1e-12*(1+sum))
		assert.NotEmpty(t, trail.Steps())
		for _, s := range trail.Steps() {
			assert.True(t, s.Replay(), s.Entry.Describe().ID)
		}
	})
}

func drawLoop(t *rapid.T) *circuit.Loop {
	loop := &circuit.Loop{Lift: unit.Head(rapid.Float64Range(0, 6).Draw(t, "lift"))}
	for range rapid.IntRange(1, 3).Draw(t, "runs") {
		run, err := pipe.NewRun(pipe.Spec{
			Length:   unit.Metres(rapid.Float64Range(0.5, 60).Draw(t, "length")),
			Bore:     unit.Millimetres(rapid.Float64Range(15, 110).Draw(t, "bore")),
			Wall:     rapid.SampledFrom([]pipe.Wall{pipe.Smooth, pipe.Corrugated}).Draw(t, "wall"),
			Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 2}, {Kind: pipe.Exit, Count: 1}},
		})
		require.NoError(t, err)
		loop.Runs = append(loop.Runs, run)
	}
	if rapid.Bool().Draw(t, "filter") {
		loop.Devices = []circuit.Device{{Name: "filter", At: unit.LitresPerHour(5000), Loss: unit.Head(rapid.Float64Range(0.05, 3).Draw(t, "loss"))}}
	}
	return loop
}

func drawCurve(t *rapid.T) *pump.Curve {
	n := rapid.IntRange(2, 10).Draw(t, "points")
	points := make([]pump.Point, n)
	q, h := 0.0, rapid.Float64Range(0.5, 15).Draw(t, "shut-off")
	step := rapid.Float64Range(100, 8000).Draw(t, "step")
	for i := range points {
		points[i] = pump.Point{Flow: unit.LitresPerHour(q), Head: unit.Head(h), Power: unit.Watts(50)}
		q += step
		h *= rapid.Float64Range(0.3, 0.98).Draw(t, "fall")
	}
	if rapid.Bool().Draw(t, "to no head") {
		points[n-1].Head = 0
	}
	curve, err := pump.NewCurve(points, 0)
	require.NoError(t, err)
	return curve
}

// points makes a curve of pairs of L/h and m.
func points(pairs ...float64) []pump.Point {
	var made []pump.Point
	for i := 0; i < len(pairs); i += 2 {
		made = append(made, pump.Point{Flow: unit.LitresPerHour(pairs[i]), Head: unit.Head(pairs[i+1])})
	}
	return made
}

func mustRun(t require.TestingT, s pipe.Spec) *pipe.Run {
	run, err := pipe.NewRun(s)
	require.NoError(t, err)
	return run
}

func mustCurve(t require.TestingT, points []pump.Point) *pump.Curve {
	curve, err := pump.NewCurve(points, 0)
	require.NoError(t, err)
	return curve
}

func referenceCurves(t *testing.T) map[string]*pump.Curve {
	t.Helper()
	points := map[string][]pump.Point{}
	for _, row := range reftest.Table(t, "hydraulics/pump_curves.csv") {
		name := row.Text("curve")
		points[name] = append(points[name], pump.Point{
			Flow: unit.CubicMetresPerHour(row.Float("Q_m3_h")), Head: unit.Head(row.Float("H_m")),
		})
	}
	curves := map[string]*pump.Curve{}
	for name, p := range points {
		curves[name] = mustCurve(t, p)
	}
	return curves
}

func BenchmarkSolve(b *testing.B) {
	curve := mustCurve(b, points(0, 3, 1000, 2.83, 2000, 2.42, 3000, 1.8, 4000, 0.99, 5000, 0))
	loop := &circuit.Loop{Lift: 1.2, Runs: []*pipe.Run{mustRun(b, pipe.Spec{
		Length: 8, Bore: unit.Millimetres(25), Wall: pipe.Smooth,
		Fittings: []pipe.Fitted{
			{Kind: pipe.Bend90, Count: 3}, {Kind: pipe.Elbow90, Count: 2}, {Kind: pipe.BallValve, Count: 1}, {Kind: pipe.Exit, Count: 1},
		},
	})}, Devices: []circuit.Device{{Name: "filter", At: unit.LitresPerHour(4000), Loss: 0.5}, {Name: "lamp unit", At: unit.LitresPerHour(3000), Loss: 0.3}}}
	w := water.At(nil, unit.Celsius(15))
	b.ReportAllocs()
	for b.Loop() {
		circuit.Solve(pump.AsMeasured(curve), loop, w)
	}
}
