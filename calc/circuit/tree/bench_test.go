package tree_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// eight is a circuit of three intakes and five returns.
func eight(t require.TestingT) tree.Circuit {
	c := usualGarden().circuit(t)
	intakes, returns := c.Intake.End.(tree.Fork), c.Delivery.End.(tree.Fork)
	c.Intake.End = append(intakes, tree.Branch{Name: "shallow", Parts: []tree.Part{hose(t, "shallow hose", 3, 45, 0.01, 2)}, End: tree.Surface{}})
	for i, name := range []string{"spout", "stream", "jet"} {
		returns = append(returns, tree.Branch{Name: name, Parts: []tree.Part{hose(t, "to the "+name, 4, 25, 0.01, 4)}, End: tree.Outlet{Level: unit.Metres(0.3 * float64(i))}})
	}
	c.Delivery.End = returns
	return c
}

func BenchmarkEightBranches(b *testing.B) {
	n, err := tree.New(eight(b))
	require.NoError(b, err)
	at := tree.Conditions{Water: water.At(nil, 15)}
	b.ReportAllocs()
	for b.Loop() {
		n.Solve(at)
	}
}

func BenchmarkOneLoop(b *testing.B) {
	n, err := tree.New(rising(b, 1.2, thePump(b, "pump", false, 0, 3, 1000, 2.83, 2000, 2.42, 3000, 1.8, 4000, 0.99, 5000, 0)))
	require.NoError(b, err)
	at := tree.Conditions{Water: water.At(nil, 15)}
	b.ReportAllocs()
	for b.Loop() {
		n.Solve(at)
	}
}

func BenchmarkWidth(b *testing.B) {
	n, err := tree.New(eight(b))
	require.NoError(b, err)
	at := tree.Conditions{Water: water.At(nil, 15)}
	b.ReportAllocs()
	for b.Loop() {
		n.Width(nil, at, pump.Usual(), tree.Sureness{}, "fall")
	}
}
