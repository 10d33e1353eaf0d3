package kit

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// Law: the best that Find leaves are the best of all sets calculated to the end, one by one, and so is the nearest miss. Hundreds
// of random catalogues, with items alike to the last bit, lamps without a price, items out of stock or owned, pumps of constant
// and of changing power and with a droop, and every practice in winter.
func TestFindEqualsBruteForce(t *testing.T) {
	feasible, missed, spared := 0, 0, int64(0)
	rapid.Check(t, func(t *rapid.T) {
		f, err := NewFinder(drawQuestion(t), drawRange(t))
		require.NoError(t, err)
		got, err := f.Find(Free(), nil)
		require.NoError(t, err)
		want := bruteForce(t, f)
		assert.Equal(t, want.Sets, got.Sets)
		sum := got.Working + got.Beaten
		for _, n := range got.Codes {
			sum += n
		}
		assert.Equal(t, got.Sets, sum, "every set is accounted for")
		assert.LessOrEqual(t, got.Working, got.Calculated)
		assert.Equal(t, want.Best, got.Best)
		assert.Equal(t, want.Miss, got.Miss)
		spared += got.Sets - got.Calculated
		if len(got.Best) > 0 {
			feasible++
		} else if got.Miss != nil {
			missed++
		}
	})
	assert.Positive(t, feasible, "some questions must have an answer, or this test shows nothing")
	assert.Positive(t, missed)
	assert.Positive(t, spared)
}

// bruteForce calculates every set to the end.
func bruteForce(t require.TestingT, f *Finder) Result {
	var r Result
	var working []Candidate
	var miss *missed
	p := f.all(Free())
	require.NoError(t, p.each(nil, func(set Set) {
		r.Sets++
		if m, broken := f.fallsShort(set); broken {
			if miss == nil || m.compare(*miss) < 0 {
				miss = &m
			}
			return
		}
		c, _ := f.judge(set, true)
		working = append(working, c)
	}))
	r.Best = unbeaten(f, working)
	if len(working) == 0 && miss != nil {
		r.Miss = &miss.Candidate
	}
	return r
}

// unbeaten is the definition of what Find returns, word for word: a set is left out where another costs at most as much to buy
// and to run and has at least as many whole percent of headroom, and is better in one of the three or stands before it.
func unbeaten(f *Finder, all []Candidate) []Candidate {
	all = slices.Clone(all)
	slices.SortFunc(all, f.order)
	var best []Candidate
	for i, c := range all {
		beaten := false
		for j, b := range all {
			asGood := b.Cost.Price <= c.Cost.Price && f.yearly(b.Cost) <= f.yearly(c.Cost) && level(b.Headroom.Float()) >= level(c.Headroom.Float())
			better := b.Cost.Price < c.Cost.Price || f.yearly(b.Cost) < f.yearly(c.Cost) || level(b.Headroom.Float()) > level(c.Headroom.Float())
			beaten = beaten || asGood && (better || j < i)
		}
		if !beaten {
			best = append(best, c)
		}
	}
	return best
}

// Laws: a set that works keeps every limit when it is calculated in full, its workings replay, and none of its findings
// stops it; a nearest miss has a finding that does.
func TestExplainAgreesWithFind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuestion(t)
		f, err := NewFinder(q, drawRange(t))
		require.NoError(t, err)
		got, err := f.Find(Free(), nil)
		require.NoError(t, err)
		for _, c := range Distinct(got.Best, 3) {
			trail := new(working.Trail)
			d, err := f.Explain(trail, c, "kit")
			require.NoError(t, err)
			assert.InEpsilon(t, c.Cost.Total, d.Cost.Total, 1e-12)
			assert.Equal(t, c.Flow[Due], d.Duties[Due].Flow.Expected)
			assert.GreaterOrEqual(t, d.Duties[Due].Flow.Low, q.Wanted.Least)
			for _, n := range d.Findings {
				assert.NotEqual(t, "stop", n.Severity.String(), n.Sentence)
				assert.NotEmpty(t, n.Sentence)
			}
			for _, s := range trail.Steps() {
				assert.True(t, s.Replay(), s.Entry.Describe().ID)
			}
		}
		if got.Miss != nil {
			d, err := f.Explain(nil, *got.Miss, "kit")
			require.NoError(t, err)
			stops := 0
			for _, n := range d.Findings {
				if n.Severity.String() == "stop" {
					stops++
				}
			}
			assert.Positive(t, stops)
		}
	})
}

func TestFindStopsWhenTold(t *testing.T) {
	f, err := NewFinder(Question{Hose: 5, Years: 1, RunsDaily: unit.Hours(24), Water: water.At(nil, 15), Tolerance: pump.Usual()},
		Range{Pumps: []Pump{{Curve: curve(t, 3000, 3)}}, Hoses: []Hose{{Bore: unit.Millimetres(32), Wall: pipe.Smooth}}})
	require.NoError(t, err)
	_, err = f.Find(Free(), func() bool { return true })
	require.ErrorIs(t, err, ErrStopped)
}

func TestLimitsHaveCodesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for l := Limit(0); l < limits; l++ {
		assert.NotEmpty(t, l.Code())
		assert.NotEmpty(t, l.String())
		assert.False(t, seen[l.Code()], l.Code())
		seen[l.Code()] = true
	}
}

// Source: one watt for a year of 365.2425 days is 8.76582 kWh, by definition of the units; a lamp of 8 765.82 h on day and
// night lasts that year.
func TestAYearOfRunning(t *testing.T) {
	year := YearlyEnergy.Eval(EnergyInput{Power: unit.Watts(1), Daily: unit.Hours(24), Days: daysPerYear})
	assert.InDelta(t, 8.76582, year.KilowattHours(), 1e-12)
	lamps := LampsPerYear.Eval(LampsInput{Lamps: 2, Daily: unit.Hours(24), Life: unit.Hours(8765.82), Days: daysPerYear})
	assert.InDelta(t, 2, lamps, 1e-12)
}
