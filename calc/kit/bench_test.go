package kit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
)

// largeRange is an invented range of that size. Pumps, filters and lamp units are spread evenly by ratio over the sizes that
// ponds take, dearer as they are larger but not in step, and no two alike.
func largeRange(t require.TestingT, pumps, hoses, filters, lamps int, seed uint64) Range {
	draw := rand.New(rand.NewPCG(seed, 1))
	between := func(a, b float64) float64 { return a + (b-a)*draw.Float64() }
	byRatio := func(a, b float64) float64 { return a * math.Pow(b/a, draw.Float64()) }
	money := func(x float64) float64 { return math.Round(100*x*between(0.75, 1.25)) / 100 }
	r := Range{Currency: "EUR"}
	for i := range pumps {
		free, shutOff := byRatio(800, 40000), byRatio(1.5, 9)
		points := make([]pump.Point, 7)
		best := free / 3.6e6 * shutOff * 9810 * 0.385 / between(0.12, 0.42) // at the best point of the curve
		for j := range points {
			u := float64(j) / 6
			points[j] = pump.Point{Flow: unit.LitresPerHour(u * free), Head: unit.Head(shutOff * (1 - u*u))}
			if i%3 > 0 {
				points[j].Power = unit.Watts(best * (0.7 + 0.5*u))
			}
		}
		constant := unit.Watts(0)
		if i%3 == 0 {
			constant = unit.Watts(best)
		}
		curve, err := pump.NewCurve(points, constant)
		require.NoError(t, err)
		r.Pumps = append(r.Pumps, Pump{Curve: curve, Price: money(30 + 0.8*math.Pow(free*shutOff, 0.55))})
	}
	bores := []float64{20, 25, 32, 40, 50, 63, 25, 40}
	for i := range hoses {
		wall := pipe.Smooth
		if i >= 6 {
			wall = pipe.Corrugated
		}
		r.Hoses = append(r.Hoses, Hose{Bore: unit.Millimetres(bores[i%8]), Wall: wall, PricePerMetre: money(bores[i%8] / 9)})
	}
	for range filters {
		area := byRatio(1, 150)
		item := Filter{
			Filter:  filter.Filter{Medium: filter.Foam, Surface: unit.SquareMetres(area)},
			MaxFlow: unit.LitresPerHour(between(0.7, 1.3) * (3000 + 250*area)), Price: money(40 + 9*area),
		}
		if item.Open = draw.IntN(2) == 0; item.Open {
			item.InletAboveOutlet = unit.Metres(between(0.1, 0.5))
		} else {
			item.Clean = circuit.Device{Name: "filter", At: item.MaxFlow, Loss: unit.Head(between(0.2, 0.8))}
			item.Due = circuit.Device{Name: "filter", At: item.MaxFlow, Loss: 2.5 * item.Clean.Loss}
		}
		r.Filters = append(r.Filters, item)
	}
	for range lamps {
		watts := byRatio(5, 130)
		r.Lamps = append(r.Lamps, Lamp{
			Unit: uv.Unit{
				WallPower: unit.Watts(watts), Lamps: 1, Kind: uv.LowPressure, Output254: unit.Watts(watts * between(0.2, 0.32)),
				ArcLength: unit.Millimetres(9 * watts), SleeveDiameter: unit.Millimetres(28),
				ChamberDiameter: unit.Millimetres(between(70, 120)), ChamberLength: unit.Millimetres(11 * watts),
			},
			Loss:    circuit.Device{Name: "lamp unit", At: unit.LitresPerHour(6000), Loss: unit.Head(between(0.05, 0.3))},
			MaxFlow: unit.LitresPerHour(4000 + 250*watts), Life: unit.Hours(9000), Price: money(40 + 3*watts), LampPrice: money(10 + watts/2),
		})
	}
	return r
}

// gardenQuestion is a pond of 12,000 L with koi and a fall.
func gardenQuestion() Question {
	return Question{
		Volume: unit.Litres(12000), Stocking: filter.KoiPond, Load: stock.Load{TAN: unit.GramsPerDay(3), Count: 8},
		Water: water.At(nil, 15), Warmest: 20, PH: 8, UV: unit.Percent(70), Lift: unit.Head(0.9), Hose: unit.Metres(8),
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 3}},
		Wanted:   Wanted{Least: unit.LitresPerHour(6000), Most: unit.LitresPerHour(12000)},
		Filter:   true, Lamp: true, Margin: 0.25, RunsDaily: unit.Hours(24), Tariff: 0.28, Years: 5, Tolerance: pump.Usual(),
	}
}

// Law: as TestFindEqualsBruteForce, where most sets lie close together and hundreds work.
func TestFindEqualsBruteForceInADenseRange(t *testing.T) {
	for seed := range uint64(60) {
		q := gardenQuestion()
		q.Wanted.Most *= unit.Flow(1 + seed%3)
		r := largeRange(t, 16, 3, 14, 12, seed)
		switch seed % 4 {
		case 1:
			q.Winter = &Winter{Practice: Moved, Days: 90, Water: water.At(nil, 4), Hose: unit.Metres(6), Lift: 0.5, Filter: seed > 4}
		case 2:
			q.Tariff = 0
		case 3:
			q.Budget = 1400
		}
		f, err := NewFinder(q, r)
		require.NoError(t, err)
		got, err := f.Find(Free(), nil)
		require.NoError(t, err)
		want := bruteForce(t, f)
		assert.Equal(t, want.Best, got.Best)
		assert.Equal(t, want.Miss, got.Miss)
	}
}

// The light in the chambers of the lamp units depends on the clearness of the water alone, and a catalogue remembers it: "warm"
// is a question after others of the same clearness, "cold" the first.
func BenchmarkFind(b *testing.B) {
	for _, size := range []struct{ pumps, hoses, filters, lamps int }{{16, 6, 10, 8}, {200, 8, 60, 40}, {2000, 8, 300, 200}} {
		r := largeRange(b, size.pumps, size.hoses, size.filters, size.lamps, 7)
		for _, warm := range []bool{true, false} {
			name := map[bool]string{true: "warm", false: "cold"}[warm]
			b.Run(fmt.Sprintf("%dx%dx%dx%d/%s", size.pumps, size.hoses, size.filters, size.lamps, name), func(b *testing.B) {
				r := r
				if warm {
					remember(b, &r)
				}
				var last Result
				b.ReportAllocs()
				for b.Loop() {
					f, err := NewFinder(gardenQuestion(), r)
					require.NoError(b, err)
					last, err = f.Find(Free(), nil)
					require.NoError(b, err)
				}
				b.ReportMetric(float64(last.Sets), "sets")
				b.ReportMetric(float64(last.Calculated), "calculated")
				b.ReportMetric(float64(last.Sets)/float64(max(last.Calculated, 1)), "sets/calculated")
				b.ReportMetric(float64(len(last.Best)), "best")
			})
		}
	}
}

// remember works the light of every lamp unit out once.
func remember(t require.TestingT, r *Range) {
	lamps := make([]Lamp, len(r.Lamps))
	for i, lamp := range r.Lamps {
		field, err := uv.FieldAt(nil, lamp.Unit, uv.Condition{Transmittance: gardenQuestion().UV, Age: 1})
		require.NoError(t, err)
		lamp.Light = func(uv.Condition) (uv.Field, error) { return field, nil }
		lamps[i] = lamp
	}
	r.Lamps = lamps
}
