package tree_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

type liveHose struct {
	Length float64 `json:"length_m"`
	Bore   float64 `json:"bore_mm"`
	Rough  float64 `json:"rough_mm"`
	K      float64 `json:"k"`
}

type liveBranch struct {
	Level float64  `json:"level_m"`
	Hose  liveHose `json:"hose"`
}

type liveCase struct {
	Viscosity float64      `json:"nu_m2_s"`
	PumpFlow  []float64    `json:"pump_m3_h"`
	PumpHead  []float64    `json:"pump_m"`
	Intakes   []liveBranch `json:"intakes"`
	Common    liveHose     `json:"common"`
	Ways      []liveHose   `json:"ways"`
	Outlets   []liveBranch `json:"outlets"`
	Flow      float64      `json:"flow_m3_h"`
	In        []float64    `json:"intake_m3_h"`
	Out       []float64    `json:"outlet_m3_h"`
	Way       []float64    `json:"way_m3_h"`
}

// Random circuits with branches and a bypass, all equations solved at once by scipy's fsolve with friction from
// python3-fluids. fsolve stops at heads that are 1e-11 m off, which is worth some 1e-9 of a flow that hardly resists.
func TestCircuitsAgainstFluidsAndScipy(t *testing.T) {
	lines := bufio.NewScanner(bytes.NewReader(reftest.Python(t, "hydraulics.py", []byte("7 60"))))
	lines.Buffer(nil, 1<<20)
	checked := 0
	for lines.Scan() {
		var c liveCase
		require.NoError(t, json.Unmarshal(lines.Bytes(), &c))
		n, err := tree.New(c.circuit(t))
		require.NoError(t, err)
		s, outcome := n.Solve(tree.Conditions{Water: water.Properties{Density: 1000, Viscosity: unit.KinematicViscosity(c.Viscosity)}})
		require.Equal(t, circuit.Meets, outcome)
		same := func(want float64, got unit.Flow, what string, i int) {
			assert.InDelta(t, want, got.CubicMetresPerHour(), 1e-8*c.Flow, "case %d, %s %d", checked, what, i)
		}
		same(c.Flow, s.Flow, "pump", 0)
		for i, q := range c.In {
			b, _ := s.Branch(fmt.Sprint("in ", i))
			same(q, b.Flow, "intake", i)
		}
		for i, q := range c.Out {
			b, _ := s.Branch(fmt.Sprint("out ", i))
			same(q, b.Flow, "outlet", i)
		}
		for i, q := range c.Way {
			p, _ := s.Part(fmt.Sprint("way ", i))
			same(q, p.Flow, "way", i)
		}
		checked++
	}
	assert.Equal(t, 60, checked)
}

func (c liveCase) circuit(t *testing.T) tree.Circuit {
	laid := func(name string, h liveHose) tree.Part { return hose(t, name, h.Length, h.Bore, h.Rough, h.K) }
	points := make([]pump.Point, len(c.PumpFlow))
	for i := range points {
		points[i] = pump.Point{Flow: unit.CubicMetresPerHour(c.PumpFlow[i]), Head: unit.Head(c.PumpHead[i])}
	}
	curve, err := pump.NewCurve(points, 0)
	require.NoError(t, err)
	in, out, ways := tree.Fork{}, tree.Fork{}, tree.Parallel{}
	for i, b := range c.Intakes {
		in = append(in, tree.Branch{Name: fmt.Sprint("in ", i), Parts: []tree.Part{laid("hose", b.Hose)}, End: tree.Surface{Level: unit.Metres(b.Level)}})
	}
	for i, b := range c.Outlets {
		out = append(out, tree.Branch{Name: fmt.Sprint("out ", i), Parts: []tree.Part{laid("hose", b.Hose)}, End: tree.Outlet{Level: unit.Metres(b.Level)}})
	}
	for i, h := range c.Ways {
		name := fmt.Sprint("way ", i)
		ways.Paths = append(ways.Paths, tree.Path{Name: name, Parts: []tree.Part{laid(name, h)}})
	}
	return tree.Circuit{
		Intake:   tree.Branch{Name: "intake", End: in},
		Pump:     []tree.Part{tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve)}},
		Delivery: tree.Branch{Name: "delivery", Parts: []tree.Part{laid("common", c.Common), ways}, End: out},
	}
}
