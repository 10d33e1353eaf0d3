package testdata_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/stat"
)

// A curve is one pump's, point by point. Series are told by the first two figures of the item number.
type curve struct {
	item              string
	flow, head, power []float64 // L/h, m, W
}

func (c curve) series() string { return c.item[3:5] }

// hydraulic is what the pump puts into water of 20 °C at a point, in W: ρ g Q H with ρ = 998.2 kg/m³.
func (c curve) hydraulic(i int) float64 {
	return 998.2 * 9.80665 * c.flow[i] / 3.6e6 * c.head[i]
}

// best is the point of greatest efficiency and that efficiency, from wire to water.
func (c curve) best() (point int, efficiency float64) {
	for i := range c.flow {
		if e := c.hydraulic(i) / c.power[i]; e > efficiency {
			point, efficiency = i, e
		}
	}
	return point, efficiency
}

func curves(t *testing.T) []curve {
	t.Helper()
	var all []curve
	for _, r := range table(t, "pump_curves.csv") {
		if n := len(all); n == 0 || all[n-1].item != r["item_number"] {
			all = append(all, curve{item: r["item_number"]})
		}
		c := &all[len(all)-1]
		c.flow = append(c.flow, r.number(t, "flow_l_per_h"))
		c.head = append(c.head, r.number(t, "head_m"))
		c.power = append(c.power, r.number(t, "power_w"))
	}
	return all
}

func TestCurvesRunFromShutOffToFreeFlow(t *testing.T) {
	all := curves(t)
	pumps := table(t, "pumps.csv")
	require.Len(t, all, len(pumps), "each pump has one curve, in one piece")
	for i, c := range all {
		assert.Equal(t, pumps[i]["item_number"], c.item)
		assert.GreaterOrEqual(t, len(c.flow), 6, c.item)
		assert.LessOrEqual(t, len(c.flow), 8, c.item)
		assert.Zero(t, c.flow[0], c.item)
		assert.Zero(t, c.head[len(c.head)-1], c.item)
		for j := 1; j < len(c.flow); j++ {
			assert.Greater(t, c.flow[j], c.flow[j-1], "%s point %d", c.item, j)
			assert.Less(t, c.head[j], c.head[j-1], "%s point %d", c.item, j)
		}
	}
}

// Points that lie on one power law, H = H₀ (1 - (Q/Q₀)ⁿ), were calculated and not measured: all give one n. Reading heads to
// the centimetre alone moves n by some 2 % at the points near shut-off.
func TestNoCurveIsAFormula(t *testing.T) {
	for _, c := range curves(t) {
		var exponents []float64
		last := len(c.flow) - 1
		for i := 1; i < last; i++ {
			n := math.Log(1-c.head[i]/c.head[0]) / math.Log(c.flow[i]/c.flow[last])
			exponents = append(exponents, n)
		}
		assert.Greater(t, slices.Max(exponents)/slices.Min(exponents), 1.04, c.item)
	}
}

// A radial wheel draws more power the more it delivers; the low-head series 13 has a mixed-flow wheel, which hardly does.
func TestPowerRisesWithFlow(t *testing.T) {
	for _, c := range curves(t) {
		lowest, highest := slices.Min(c.power), slices.Max(c.power)
		switch c.series() {
		case "13":
			assert.Less(t, highest/lowest, 1.1, c.item)
		case "15": // falls a little again beyond the best point
			assert.Equal(t, lowest, c.power[0], c.item)
		default:
			assert.True(t, slices.IsSorted(c.power), c.item)
		}
	}
}

// No pump here beats the average small circulator at its best point, whose wire-to-water efficiency is P/P_ref with
// P_ref = 1.7 P + 17 (1 - exp(-0.3 P)), P hydraulic from 1 to 2500 W. Below 1 W the value at 1 W, 16 %, is the bound.
// Source: Regulation (EC) 641/2009 as amended by (EU) 622/2012, annex II (formula from memory; range read in article 2).
func TestEfficiencyStaysBelowTheReferenceCirculator(t *testing.T) {
	for _, c := range curves(t) {
		for i := range c.flow {
			P := max(c.hydraulic(i), 1)
			require.LessOrEqual(t, P, 2500.0, c.item)
			reference := P / (1.7*P + 17*(1-math.Exp(-0.3*P)))
			assert.LessOrEqual(t, c.hydraulic(i)/c.power[i], reference, "%s point %d", c.item, i)
		}
	}
}

// Small wet-rotor pumps 8 to 25 %, good low-head pumps 30 to 45 %, large ones 40 to 55 %: common practice, no source.
func TestBestEfficiencyIsThatOfItsKind(t *testing.T) {
	bands := map[string][2]float64{"10": {0.08, 0.25}, "13": {0.30, 0.45}, "15": {0.40, 0.55}}
	for _, c := range curves(t) {
		if band, ok := bands[c.series()]; ok {
			_, efficiency := c.best()
			assert.GreaterOrEqual(t, efficiency, band[0], c.item)
			assert.LessOrEqual(t, efficiency, band[1], c.item)
		}
	}
}

// Within a series the larger pump lifts more at every flow that the smaller one reaches.
func TestCurvesOfASeriesDoNotCross(t *testing.T) {
	all := curves(t)
	for i, larger := range all[1:] {
		smaller := all[i]
		if smaller.series() != larger.series() {
			continue
		}
		var head interp.PiecewiseLinear
		require.NoError(t, head.Fit(larger.flow, larger.head))
		for j, q := range smaller.flow {
			assert.Greater(t, head.Predict(q), smaller.head[j], "%s under %s at %g L/h", larger.item, smaller.item, q)
		}
	}
}

// A box overstates by a few per cent at most here; what it leaves unsaid is that both figures are never had at once.
func TestLabelsAgreeWithTheCurve(t *testing.T) {
	pumps := table(t, "pumps.csv")
	for i, c := range curves(t) {
		assert.InEpsilon(t, c.flow[len(c.flow)-1], pumps[i].number(t, "label_flow_l_per_h"), 0.05, c.item)
		assert.InEpsilon(t, c.head[0], pumps[i].number(t, "label_head_m"), 0.05, c.item)
	}
}

// Price goes with what a pump can put into the water, as in TestPriceFollowsSize, and a thrifty one (series 12) costs more
// for the same work than a plain one (series 11).
func TestPumpPriceFollowsPower(t *testing.T) {
	var power, price []float64
	perWatt := make(map[string]float64)
	pumps := table(t, "pumps.csv")
	for i, c := range curves(t) {
		best, _ := c.best()
		power = append(power, c.hydraulic(best))
		price = append(price, pumps[i].number(t, "price"))
		if w := price[i] / power[i]; c.series() == "11" {
			perWatt["plain"] = max(perWatt["plain"], w)
		} else if c.series() == "12" {
			perWatt["thrifty"] = max(perWatt["thrifty"], w)
		}
	}
	assert.GreaterOrEqual(t, stat.Kendall(power, price, nil), 0.8)
	assert.Greater(t, perWatt["thrifty"], perWatt["plain"])
}
