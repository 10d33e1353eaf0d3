package tree_test

import (
	"fmt"
	"math/rand/v2"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A dice draws the numbers of a random circuit, for properties and for plain tests alike.
type dice interface {
	between(lo, hi float64) float64
	upTo(n int) int // 0 to n
}

type rapidDice struct{ *rapid.T }

func (d rapidDice) between(lo, hi float64) float64 {
	return rapid.Float64Range(lo, hi).Draw(d.T, "number")
}
func (d rapidDice) upTo(n int) int { return rapid.IntRange(0, n).Draw(d.T, "choice") }

type plainDice struct{ *rand.Rand }

func (d plainDice) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }
func (d plainDice) upTo(n int) int                 { return d.IntN(n + 1) }

// A drawer draws circuits.
type drawer struct {
	dice
	t     require.TestingT
	named int
}

func (d *drawer) name(what string) string {
	d.named++
	return fmt.Sprintf("%s %d", what, d.named)
}

func (d *drawer) chance(in int) bool { return d.upTo(in-1) == 0 }

func (d *drawer) circuit() tree.Circuit {
	c := tree.Circuit{
		Intake:   d.branch("intake", true, 1),
		Pump:     []tree.Part{d.pump()},
		Delivery: d.branch("delivery", false, 1),
	}
	switch d.upTo(9) {
	case 0: // two in series
		c.Pump = append(c.Pump, d.pump())
	case 1: // two side by side
		c.Pump = []tree.Part{tree.Parallel{Paths: []tree.Path{
			{Name: "left", Parts: []tree.Part{d.pump(), d.hose()}}, {Name: "right", Parts: []tree.Part{d.pump(), d.hose()}},
		}}}
	}
	return c
}

func (d *drawer) branch(what string, intake bool, depth int) tree.Branch {
	b := tree.Branch{Name: d.name(what), Parts: []tree.Part{d.hose()}}
	for range d.upTo(2) {
		b.Parts = append(b.Parts, d.part())
	}
	level := unit.Metres(d.between(-0.1, 3))
	switch {
	case depth > 0 && d.chance(2):
		fork := tree.Fork{}
		for range 1 + d.upTo(3) {
			fork = append(fork, d.branch(what, intake, depth-1))
		}
		b.End = fork
	case intake:
		b.End = tree.Surface{Level: unit.Metres(d.between(-0.1, 0.1))}
	case d.chance(3):
		b.End = tree.Surface{Level: level}
	case d.chance(4):
		outlet := tree.Branch{Name: d.name("from box"), Parts: []tree.Part{d.hose()}, End: tree.Surface{Level: level - 0.3}}
		b.End = tree.Box{Inlet: level, Rim: level + 0.2, Outlet: outlet}
	default:
		b.End = tree.Outlet{Level: level}
	}
	return b
}

func (d *drawer) hose() tree.Hose {
	run, err := pipe.NewRun(pipe.Spec{
		Length: unit.Metres(d.between(0.3, 60)), Bore: unit.Millimetres(d.between(12, 110)),
		Wall: []pipe.Wall{pipe.Smooth, pipe.Smooth, pipe.Corrugated}[d.upTo(2)], Roughness: unit.Millimetres(d.between(0.001, 0.3)),
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 1 + d.upTo(3)}, {Kind: pipe.TeeBranch, Count: 1}}, OtherK: d.between(0, 5),
	})
	require.NoError(d.t, err)
	return tree.Hose{Name: d.name("hose"), Run: run}
}

func (d *drawer) part() tree.Part {
	switch d.upTo(4) {
	case 0:
		return tree.Device{Name: d.name("filter"), At: unit.LitresPerHour(d.between(1000, 20000)), Clean: unit.Head(d.between(0.01, 0.5)), Due: unit.Head(d.between(0.3, 2))}
	case 1:
		return tree.Valve{Name: d.name("valve"), Bore: unit.Millimetres(d.between(20, 60)), K: d.between(0.1, 60)}
	case 2:
		return tree.Check{Name: d.name("check"), Bore: unit.Millimetres(d.between(20, 60)), K: d.between(0, 5)}
	case 3:
		lamp := tree.Path{Name: d.name("through"), Parts: []tree.Part{d.hose(), d.device()}}
		bypass := tree.Path{Name: d.name("round"), Parts: []tree.Part{tree.Valve{Name: d.name("bypass"), Kv: unit.CubicMetresPerHour(d.between(1, 40))}}}
		return tree.Parallel{Paths: []tree.Path{lamp, bypass}}
	}
	return d.hose()
}

func (d *drawer) device() tree.Part {
	return tree.Device{Name: d.name("lamp chamber"), At: unit.LitresPerHour(d.between(1000, 10000)), Clean: unit.Head(d.between(0.01, 0.5))}
}

func (d *drawer) pump() tree.Pump {
	n := 2 + d.upTo(7)
	points := make([]pump.Point, n)
	q, h := 0.0, d.between(0.5, 15)
	step := d.between(100, 8000)
	for i := range points {
		points[i] = pump.Point{Flow: unit.LitresPerHour(q), Head: unit.Head(h), Power: unit.Watts(50)}
		q += step
		if i == 0 && n > 4 && d.chance(5) {
			h *= d.between(1.01, 1.1)
		} else {
			h *= d.between(0.3, 0.98)
		}
	}
	if d.chance(2) {
		points[n-1].Head = 0
	}
	curve, err := pump.NewCurve(points, 0)
	require.NoError(d.t, err)
	return tree.Pump{Name: d.name("pump"), Pump: pump.AsMeasured(curve), Check: d.chance(2)}
}
