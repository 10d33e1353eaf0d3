package tree_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// energyCloses is how near heads round a loop must add up to nothing, in proportion to the heads at work.
const energyCloses = 1e-9

// A judge follows a solution through the description of its circuit and works every loss out for itself.
type judge struct {
	s     *tree.Solution
	w     water.Properties
	scale float64 // of heads, in m
	part  int
	worst float64 // energy left over in a loop, by scale
	split float64 // flow left over at a junction, by the greatest flow
}

func judged(c tree.Circuit, s *tree.Solution, w water.Properties) *judge {
	j := &judge{s: s, w: w, scale: 1}
	for _, p := range s.Parts {
		j.scale = max(j.scale, math.Abs(p.Lost.Metres()))
	}
	suction := j.branch(c.Intake, true)
	lost := j.parts(c.Pump, s.Flow)
	delivered := j.branch(c.Delivery, false)
	j.energy(suction - lost - delivered)
	return j
}

func (j *judge) energy(left float64) { j.worst = max(j.worst, math.Abs(left)/j.scale) }

func (j *judge) continuity(left unit.Flow) {
	greatest := j.s.Flow
	for _, p := range j.s.Parts {
		greatest = max(greatest, unit.Flow(math.Abs(float64(p.Flow))))
	}
	j.split = max(j.split, math.Abs(float64(left/greatest)))
}

// branch gives the head at the root of a branch by the way from its end.
func (j *judge) branch(b tree.Branch, intake bool) float64 {
	carried, _ := j.s.Branch(b.Name)
	lost := j.parts(b.Parts, carried.Flow)
	if intake {
		lost = -lost
	}
	head := 0.0
	switch end := b.End.(type) {
	case tree.Surface:
		head = end.Level.Metres()
	case tree.Outlet:
		head = end.Level.Metres()
	case tree.Box:
		head = max(end.Inlet.Metres(), j.branch(end.Outlet, false))
	case tree.Fork:
		head = j.fork(carried, end, intake)
	}
	root := head + lost
	if carried.Flow == 0 { // held shut, or at rest: its own head may lie anywhere below
		return carried.Head.Metres()
	}
	j.energy(root - carried.Head.Metres())
	return root
}

func (j *judge) fork(carried tree.Carried, fork tree.Fork, intake bool) float64 {
	left := carried.Flow
	for _, b := range fork {
		c, _ := j.s.Branch(b.Name)
		left -= c.Flow
		root := j.branch(b, intake)
		if c.Flow != 0 {
			j.energy(root - carried.End.Metres())
		}
	}
	j.continuity(left)
	return carried.End.Metres()
}

// parts gives what a row of parts loses at a flow.
func (j *judge) parts(parts []tree.Part, q unit.Flow) float64 {
	lost := 0.0
	for _, p := range parts {
		passed := j.s.Parts[j.part]
		j.part++
		j.continuity(passed.Flow - q)
		if ways, ok := p.(tree.Parallel); ok {
			left := q
			for _, path := range ways.Paths {
				through := j.s.Parts[j.part].Flow
				left -= through
				if one := j.parts(path.Parts, through); through != 0 {
					j.energy(one - passed.Lost.Metres())
				}
			}
			j.continuity(left)
			lost += passed.Lost.Metres()
			continue
		}
		lost += math.Copysign(1, float64(q)) * lossOf(p, q, j.w)
	}
	return lost
}

// lossOf is the head lost in a part without branches, whichever way the water runs.
func lossOf(p tree.Part, q unit.Flow, w water.Properties) float64 {
	x := unit.Flow(math.Abs(float64(q)))
	square := func(k float64, bore unit.Length) float64 {
		v := 4 * float64(x) / (math.Pi * bore.Metres() * bore.Metres())
		return k * v * v / (2 * water.Gravity)
	}
	switch p := p.(type) {
	case tree.Hose:
		return p.Run.Loss(x, w).Metres()
	case tree.Device:
		return p.Clean.Metres() * math.Pow(float64(x/p.At), 2)
	case tree.Valve:
		if p.Kv > 0 {
			return pipe.KvLoss.Eval(pipe.KvLossInput{Flow: x, Kv: p.Kv}).Metres()
		}
		return square(p.K, p.Bore)
	case tree.Check:
		return square(p.K, p.Bore)
	case tree.Pump:
		h, _ := p.Pump.Head(x)
		return -h.Metres()
	}
	panic("a part with branches")
}

// Laws: what flows into a junction flows out of it; heads round every loop add up to nothing; nothing runs back where it
// cannot; the search is bounded.
func TestCircuitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &drawer{dice: rapidDice{t}, t: t}
		c := d.circuit()
		w := water.At(nil, unit.Celsius(d.between(0, 40)))
		n, err := tree.New(c)
		require.NoError(t, err)
		s, outcome := n.Solve(tree.Conditions{Water: w})
		if outcome != circuit.Meets {
			assert.Nil(t, s)
			return
		}
		j := judged(c, s, w)
		assert.Less(t, j.worst, energyCloses)
		assert.Less(t, j.split, 1e-12)
		again, _ := n.Solve(tree.Conditions{Water: w})
		assert.Equal(t, s, again)
	})
}

// Law: more resistance anywhere never lets more water through there, and none on the way of all the water more through the
// pump.
func TestMoreResistanceNeverLetsMoreFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &drawer{dice: rapidDice{t}, t: t}
		c := d.circuit()
		w := water.At(nil, 15)
		before := solve(t, c, w)
		if before == nil {
			return
		}
		extra := tree.Valve{Name: "extra", Bore: unit.Millimetres(40), K: d.between(0.1, 30)}
		throttled := c
		throttled.Delivery.Parts = append([]tree.Part{extra}, c.Delivery.Parts...)
		if after := solve(t, throttled, w); after != nil {
			assert.LessOrEqual(t, float64(after.Flow), float64(before.Flow)*(1+1e-12))
		}
		fork, ok := c.Delivery.End.(tree.Fork)
		if !ok {
			return
		}
		one := slices.Clone(fork)
		one[0].Parts = append([]tree.Part{extra}, one[0].Parts...)
		c.Delivery.End = one
		if after := solve(t, c, w); after != nil {
			was, _ := before.Branch(one[0].Name)
			is, _ := after.Branch(one[0].Name)
			assert.LessOrEqual(t, math.Abs(float64(is.Flow)), math.Abs(float64(was.Flow))*(1+1e-9)+1e-15)
		}
	})
}

// Law: there is one solution. The search starts elsewhere and goes another way when the parts of each branch and the
// branches of each fork are described in another order, and ends at the same flows.
func TestSolutionIsUnique(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &drawer{dice: rapidDice{t}, t: t}
		c := d.circuit()
		w := water.At(nil, 15)
		one := solve(t, c, w)
		if one == nil {
			return
		}
		c.Intake, c.Delivery = turned(c.Intake), turned(c.Delivery)
		other := solve(t, c, w)
		require.NotNil(t, other)
		for _, b := range one.Branches {
			again, ok := other.Branch(b.Branch)
			require.True(t, ok)
			assert.InDelta(t, float64(b.Flow), float64(again.Flow), 1e-9*float64(one.Flow), b.Branch)
		}
	})
}

func turned(b tree.Branch) tree.Branch {
	b.Parts = slices.Clone(b.Parts)
	slices.Reverse(b.Parts)
	if fork, ok := b.End.(tree.Fork); ok {
		other := tree.Fork{}
		for i := range fork {
			other = append(other, turned(fork[len(fork)-1-i]))
		}
		b.End = other
	}
	return b
}

func solve(t require.TestingT, c tree.Circuit, w water.Properties) *tree.Solution {
	n, err := tree.New(c)
	require.NoError(t, err)
	s, _ := n.Solve(tree.Conditions{Water: w})
	return s
}

// mostSteps is how many losses a circuit of up to a dozen branches may need, several times what most do.
const mostSteps = 150_000

func TestHundredThousandCircuitsConverge(t *testing.T) {
	circuits := 100_000
	if testing.Short() {
		circuits = 2_000
	}
	const workers = 4
	for worker := range workers {
		t.Run(fmt.Sprintf("part %d", worker+1), func(t *testing.T) {
			t.Parallel()
			converge(t, uint64(worker), circuits/workers)
		})
	}
}

func converge(t *testing.T, seed uint64, circuits int) {
	d := &drawer{dice: plainDice{rand.New(rand.NewPCG(1, seed))}, t: t}
	w := water.At(nil, 15)
	outcomes := map[circuit.Outcome]int{}
	most, worst, split := 0, 0.0, 0.0
	for range circuits {
		d.named = 0
		c := d.circuit()
		n, err := tree.New(c)
		require.NoError(t, err)
		s, outcome := n.Solve(tree.Conditions{Water: w})
		outcomes[outcome]++
		if outcome != circuit.Meets {
			continue
		}
		j := judged(c, s, w)
		worst, split, most = max(worst, j.worst), max(split, j.split), max(most, s.Steps)
	}
	t.Logf("outcomes %v, at most %d losses, energy left over %.2g, flow %.2g", outcomes, most, worst, split)
	assert.Zero(t, outcomes[circuit.NotCalculable])
	assert.Greater(t, outcomes[circuit.Meets], circuits/2)
	assert.Less(t, worst, energyCloses)
	assert.Less(t, split, 1e-12)
	assert.Less(t, most, mostSteps)
}
