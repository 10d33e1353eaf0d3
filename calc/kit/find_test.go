package kit

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// Law: what Find discards early and what it keeps is what trying every set to the end discards and keeps.
func TestFindEqualsBruteForce(t *testing.T) {
	feasible := 0
	rapid.Check(t, func(t *rapid.T) {
		f, err := NewFinder(drawQuestion(t), drawRange(t))
		require.NoError(t, err)
		got, err := f.Find(nil)
		require.NoError(t, err)

		var working []Candidate
		var sets, ruledOut int64
		require.NoError(t, f.each(nil, func(set Set) {
			sets++
			c, s := f.judge(set, true)
			if _, broken := s.broken(); broken {
				ruledOut++
				return
			}
			working = append(working, c)
		}))
		assert.Equal(t, sets, got.Sets)
		assert.Equal(t, int64(len(working)), got.Working)
		sum := int64(0)
		for _, n := range got.Codes {
			sum += n
		}
		assert.Equal(t, ruledOut, sum)
		assert.ElementsMatch(t, unbeaten(f.q, working), got.Best)
		for i := 1; i < len(got.Best); i++ {
			assert.LessOrEqual(t, got.Best[i-1].Cost.Total, got.Best[i].Cost.Total)
		}
		if len(working) > 0 {
			feasible++
			assert.Nil(t, got.Miss)
		} else if sets > 0 {
			assert.NotNil(t, got.Miss)
		}
	})
	assert.Positive(t, feasible, "some questions must have an answer, or this test shows nothing")
}

// unbeaten is the definition of the Pareto set, word for word.
func unbeaten(q Question, all []Candidate) []Candidate {
	running := func(c Candidate) float64 {
		if q.Tariff > 0 {
			return c.Cost.PerYear()
		}
		return c.Cost.Energy.KilowattHours()
	}
	var best []Candidate
	for i, c := range all {
		beaten := false
		for j, b := range all {
			asGood := b.Cost.Price <= c.Cost.Price && running(b) <= running(c) && b.Headroom >= c.Headroom
			better := b.Cost.Price < c.Cost.Price || running(b) < running(c) || b.Headroom > c.Headroom
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
		got, err := f.Find(nil)
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
	_, err = f.Find(func() bool { return true })
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
	year := YearlyEnergy.Eval(EnergyInput{Power: unit.Watts(1), Daily: unit.Hours(24)})
	assert.InDelta(t, 8.76582, year.KilowattHours(), 1e-12)
	lamps := LampsPerYear.Eval(LampsInput{Lamps: 2, Daily: unit.Hours(24), Life: unit.Hours(8765.82)})
	assert.InDelta(t, 2, lamps, 1e-12)
}

func drawQuestion(t *rapid.T) Question {
	q := Question{
		Volume: unit.Litres(rapid.Float64Range(500, 30000).Draw(t, "litres")), Stocking: filter.GoldfishPond,
		Water: water.At(nil, unit.Celsius(20)), Warmest: unit.Celsius(20), PH: 7.8, UV: unit.Percent(75),
		Lift: unit.Head(rapid.Float64Range(0, 2).Draw(t, "lift")), Hose: unit.Metres(rapid.Float64Range(2, 20).Draw(t, "hose")),
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 3}},
		Filter:   rapid.Bool().Draw(t, "filter"), Lamp: rapid.Bool().Draw(t, "lamp"),
		Margin: 0.25, RunsDaily: unit.Hours(rapid.SampledFrom([]float64{8, 24}).Draw(t, "hours")), Years: 5, Tolerance: pump.Usual(),
	}
	if rapid.Bool().Draw(t, "tariff") {
		q.Tariff = 0.3
	}
	if rapid.Bool().Draw(t, "budget") {
		q.Budget = rapid.Float64Range(100, 1500).Draw(t, "most")
	}
	q.Load = stock.Load{TAN: unit.GramsPerDay(rapid.Float64Range(0, 4).Draw(t, "ammonia"))}
	least := rapid.Float64Range(200, 5000).Draw(t, "least")
	q.Wanted = Wanted{Least: unit.LitresPerHour(least), Most: unit.LitresPerHour(least * rapid.Float64Range(1.3, 3).Draw(t, "span"))}
	return q
}

func drawRange(t *rapid.T) Range {
	var r Range
	for i := range rapid.IntRange(0, 5).Draw(t, "pumps") {
		q := rapid.Float64Range(1000, 12000).Draw(t, "free flow")
		r.Pumps = append(r.Pumps, Pump{Curve: curve(t, q, rapid.Float64Range(1, 5).Draw(t, "shut-off")), Price: 50 + q/50 + float64(i)})
	}
	for range rapid.IntRange(0, 4).Draw(t, "hoses") {
		bore := rapid.SampledFrom([]float64{20, 25, 32, 40, 50, 63}).Draw(t, "bore")
		wall := rapid.SampledFrom([]pipe.Wall{pipe.Smooth, pipe.Corrugated}).Draw(t, "wall")
		r.Hoses = append(r.Hoses, Hose{Bore: unit.Millimetres(bore), Wall: wall, PricePerMetre: bore / 10})
	}
	for range rapid.IntRange(0, 4).Draw(t, "filters") {
		area := rapid.Float64Range(1, 60).Draw(t, "surface")
		item := Filter{Filter: filter.Filter{Medium: filter.Foam, Surface: unit.SquareMetres(area)}, MaxFlow: unit.LitresPerHour(2000 + 300*area), Price: 20 * area}
		if item.Open = rapid.Bool().Draw(t, "open"); item.Open {
			item.InletAboveOutlet = unit.Metres(0.2)
		} else {
			at := unit.LitresPerHour(4000)
			item.Clean = circuit.Device{Name: "filter", At: at, Loss: 0.3}
			item.Due = circuit.Device{Name: "filter", At: at, Loss: 0.9}
		}
		r.Filters = append(r.Filters, item)
	}
	for range rapid.IntRange(0, 4).Draw(t, "lamps") {
		watts := rapid.Float64Range(5, 80).Draw(t, "watts")
		r.Lamps = append(r.Lamps, Lamp{
			Unit: uv.Unit{
				WallPower: unit.Watts(watts), Lamps: 1, Kind: uv.LowPressure, Output254: unit.Watts(watts / 4),
				ArcLength: unit.Millimetres(12 * watts), SleeveDiameter: unit.Millimetres(28),
				ChamberDiameter: unit.Millimetres(90), ChamberLength: unit.Millimetres(14 * watts),
			},
			Loss: circuit.Device{Name: "lamp unit", At: unit.LitresPerHour(4000), Loss: 0.2}, MaxFlow: unit.LitresPerHour(200 * watts),
			Life: unit.Hours(9000), Price: 40 + 3*watts, LampPrice: 20,
		})
	}
	return r
}

// curve is a falling curve from shut-off to free flow, with power.
func curve(t require.TestingT, freeLitresPerHour, shutOff float64) *pump.Curve {
	points := make([]pump.Point, 6)
	for i := range points {
		u := float64(i) / 5
		points[i] = pump.Point{
			Flow: unit.LitresPerHour(u * freeLitresPerHour), Head: unit.Head(shutOff * (1 - u*u)),
			Power: unit.Watts(10 + freeLitresPerHour*shutOff/200*(1+u)),
		}
	}
	made, err := pump.NewCurve(points, 0)
	require.NoError(t, err, fmt.Sprint(points))
	return made
}
