package tree_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Reference: two intakes, two outlets, or both, by nested scipy brentq, cross-checked with fsolve; python3-fluids 1.0.22,
// ten digits printed.
func TestBranchedCircuitsMeetScipy(t *testing.T) {
	curves := referenceCurves(t)
	for _, row := range reftest.Table(t, "hydraulics/branched_cases.csv") {
		name := row.Text("case")
		n, err := tree.New(branched(t, row, curves))
		require.NoError(t, err, name)
		s, outcome := n.Solve(tree.Conditions{Water: water.Properties{
			Density: 1000, Viscosity: unit.KinematicViscosity(row.Float("nu_m2_s")),
		}})
		require.Equal(t, circuit.Meets, outcome, name)
		assert.InEpsilon(t, row.Float("Q_total_m3_h"), s.Flow.CubicMetresPerHour(), 1e-8, name)
		assert.InEpsilon(t, row.Float("H_pump_m"), s.Head.Metres(), 1e-8, name)
		intake, _ := s.Branch("intake")
		assert.InEpsilon(t, row.Float("Hs_node_m"), intake.End.Metres(), 1e-8, name)
		delivery, _ := s.Branch("delivery")
		assert.InEpsilon(t, row.Float("Hd_node_m"), delivery.End.Metres(), 1e-8, name)
		for _, b := range []string{"S1", "S2", "R1", "R2"} {
			if row.Text("Q"+b+"_m3_h") == "" {
				continue
			}
			c, ok := s.Branch(b)
			require.True(t, ok)
			if want := row.Float("Q" + b + "_m3_h"); want == 0 {
				assert.Zero(t, c.Flow, "%s %s", name, b)
			} else {
				assert.InEpsilon(t, want, c.Flow.CubicMetresPerHour(), 1e-8, "%s %s", name, b)
			}
		}
	}
}

// Reference: the same run, branch by branch, ten digits printed.
func TestBranchesOfThoseCircuitsMeetScipy(t *testing.T) {
	curves := referenceCurves(t)
	solved := map[string]*tree.Solution{}
	for _, row := range reftest.Table(t, "hydraulics/branched_cases.csv") {
		n, err := tree.New(branched(t, row, curves))
		require.NoError(t, err)
		solved[row.Text("case")], _ = n.Solve(tree.Conditions{Water: water.Properties{
			Density: 1000, Viscosity: unit.KinematicViscosity(row.Float("nu_m2_s")),
		}})
	}
	for _, row := range reftest.Table(t, "hydraulics/branched_branch_detail.csv") {
		s, ok := solved[row.Text("case")]
		require.True(t, ok)
		name := row.Text("branch")
		p, ok := s.Part(name)
		require.True(t, ok)
		// a branch that hardly flows: ten printed digits of the greatest flow
		assert.InDelta(t, row.Float("Q_m3_h"), p.Flow.CubicMetresPerHour(), 1e-8*s.Flow.CubicMetresPerHour(), name)
		assert.InDelta(t, row.Float("v_m_s"), p.Velocity.MetresPerSecond(), 1e-8, name)
		assert.InDelta(t, row.Float("head_loss_m"), p.Lost.Metres(), 1e-8, name)
	}
}

// branched lays out one row of the table.
func branched(t *testing.T, row reftest.Row, curves map[string]*pump.Curve) tree.Circuit {
	part := func(b string) []tree.Part {
		if row.Text(b+"_L_m") == "" {
			return nil
		}
		return []tree.Part{hose(t, b, row.Float(b+"_L_m"), row.Float(b+"_D_mm"), row.Float(b+"_eps_mm"), row.Float(b+"_K"))}
	}
	level := func(b string) unit.Length { return unit.Metres(row.Float(b + "_z_m")) }
	var intakes, returns tree.Fork
	for _, b := range []string{"S1", "S2"} {
		if parts := part(b); parts != nil {
			intakes = append(intakes, tree.Branch{Name: b, Parts: parts, End: tree.Surface{Level: level(b)}})
		}
	}
	for _, b := range []string{"R1", "R2"} {
		if parts := part(b); parts != nil {
			r := tree.Branch{Name: b, Parts: parts, End: tree.Surface{Level: level(b)}}
			if row.Text(b+"_one_way") == "1" {
				r.End = tree.Outlet{Level: level(b)}
			}
			returns = append(returns, r)
		}
	}
	p := pump.AsMeasured(curves[row.Text("curve")]).AtSpeed(unit.Ratio(row.Float("speed_ratio")))
	return tree.Circuit{
		Intake:   tree.Branch{Name: "intake", Parts: part("SC"), End: intakes},
		Pump:     []tree.Part{tree.Pump{Name: "pump", Pump: p}},
		Delivery: tree.Branch{Name: "delivery", Parts: part("RC"), End: returns},
	}
}

func hose(t require.TestingT, name string, length, bore, roughness, k float64) tree.Hose {
	run, err := pipe.NewRun(pipe.Spec{
		Length: unit.Metres(length), Bore: unit.Millimetres(bore), Wall: pipe.Smooth, Roughness: unit.Millimetres(roughness), OtherK: k,
	})
	require.NoError(t, err)
	return tree.Hose{Name: name, Run: run}
}

type referenceTree struct {
	ID       string          `json:"id"`
	Kind     string          `json:"kind"`
	TempC    float64         `json:"temp_c"`
	PumpFlow []float64       `json:"pump_l_per_h"`
	PumpHead []float64       `json:"pump_m"`
	Intakes  []referenceLimb `json:"intakes"`
	Delivery []referenceRun  `json:"delivery"`
	Outlets  []referenceLimb `json:"outlets"`
	Flow     float64         `json:"flow_l_per_h"`
	Head     float64         `json:"head_m"`
	In       []float64       `json:"intake_l_per_h"`
	Out      []float64       `json:"outlet_l_per_h"`
}

type referenceLimb struct {
	Lift float64        `json:"lift_m"`
	Runs []referenceRun `json:"runs"`
}

type referenceRun struct {
	Length float64 `json:"length_m"`
	Bore   float64 `json:"bore_m"`
	Rough  float64 `json:"rough_m"`
	K      float64 `json:"k"`
}

// Reference: 60 trees with two intakes and two outlets, solved with python3-fluids, python3-iapws and scipy. The tolerance
// of 1e-6 is what the density equation's deviation from IAPWS-95 can move a flow, several times over.
func TestTreesMeetScipy(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/reference/hydraulics/duty.json")
	require.NoError(t, err)
	var cases []referenceTree
	require.NoError(t, json.Unmarshal(text, &cases))
	solved := 0
	for _, c := range cases {
		if c.Kind != "tree" {
			continue
		}
		n, err := tree.New(c.circuit(t))
		require.NoError(t, err, c.ID)
		s, outcome := n.Solve(tree.Conditions{Water: water.At(nil, unit.Celsius(c.TempC))})
		require.Equal(t, circuit.Meets, outcome, c.ID)
		assert.InEpsilon(t, c.Flow, s.Flow.LitresPerHour(), 1e-6, c.ID)
		assert.InEpsilon(t, c.Head, s.Head.Metres(), 1e-6, c.ID)
		for i, name := range []string{"in 0", "in 1"} {
			b, _ := s.Branch(name)
			assert.InEpsilon(t, c.In[i], b.Flow.LitresPerHour(), 1e-6, "%s %s", c.ID, name)
		}
		for i, name := range []string{"out 0", "out 1"} {
			b, _ := s.Branch(name)
			assert.InEpsilon(t, c.Out[i], b.Flow.LitresPerHour(), 1e-6, "%s %s", c.ID, name)
		}
		solved++
	}
	assert.Equal(t, 60, solved)
}

func (c referenceTree) circuit(t *testing.T) tree.Circuit {
	points := make([]pump.Point, len(c.PumpFlow))
	for i := range points {
		points[i] = pump.Point{Flow: unit.LitresPerHour(c.PumpFlow[i]), Head: unit.Head(c.PumpHead[i])}
	}
	curve, err := pump.NewCurve(points, 0)
	require.NoError(t, err, c.ID)
	runs := func(of []referenceRun) []tree.Part {
		var parts []tree.Part
		for _, r := range of {
			parts = append(parts, hose(t, "hose", r.Length, 1000*r.Bore, 1000*r.Rough, r.K))
		}
		return parts
	}
	in := tree.Fork{}
	for i, l := range c.Intakes {
		in = append(in, tree.Branch{Name: []string{"in 0", "in 1"}[i], Parts: runs(l.Runs), End: tree.Surface{Level: unit.Metres(l.Lift)}})
	}
	out := tree.Fork{}
	for i, l := range c.Outlets {
		out = append(out, tree.Branch{Name: []string{"out 0", "out 1"}[i], Parts: runs(l.Runs), End: tree.Outlet{Level: unit.Metres(l.Lift)}})
	}
	return tree.Circuit{
		Intake:   tree.Branch{Name: "intake", End: in},
		Pump:     []tree.Part{tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve)}},
		Delivery: tree.Branch{Name: "delivery", Parts: runs(c.Delivery), End: out},
	}
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
		c, err := pump.NewCurve(p, 0)
		require.NoError(t, err, name)
		curves[name] = c
	}
	return curves
}
