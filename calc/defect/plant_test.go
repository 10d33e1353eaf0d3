package defect_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"example.com/pondwright/calc/defect"
)

// plant is one defect and how it is put into a sound curve. It gives false where a curve has no room for it: a power that is not
// there cannot be wrong. others are earlier curves of the catalogue, for copies.
type plant struct {
	name  string
	codes []string // any of which counts as found
	put   func(r *rand.Rand, c *plain, earlier []plain) bool
}

func times(x []float64, k float64) {
	for i := range x {
		x[i] *= k
	}
}

// toDigits rounds a column to as many figures of its greatest as printed columns have.
func toDigits(x []float64, figures int) {
	step := math.Pow(10, math.Floor(math.Log10(slices.Max(x)))-float64(figures-1))
	for i := range x {
		x[i] = math.Round(x[i]/step) * step
	}
}

func flowIn(litresPerHour float64, digits int) func(*rand.Rand, *plain, []plain) bool {
	return func(_ *rand.Rand, c *plain, _ []plain) bool {
		if c.takes() == 0 && c.labelQ == 0 { // nothing to tell by
			return false
		}
		times(c.q, 1/litresPerHour)
		toDigits(c.q, digits)
		return distinct(c.q)
	}
}

func headIn(metres float64, digits int) func(*rand.Rand, *plain, []plain) bool {
	return func(_ *rand.Rand, c *plain, _ []plain) bool {
		if c.takes() == 0 && c.labelH == 0 {
			return false
		}
		times(c.h, 1/metres)
		toDigits(c.h, digits)
		return true
	}
}

// takes is the greatest power a curve takes; 0 where it is not known.
func (c plain) takes() float64 {
	if c.p != nil {
		return slices.Max(c.p)
	}
	return c.power
}

func (c *plain) scalePower(k float64) {
	c.power *= k
	times(c.p, k)
}

func (c plain) best() (hydraulic, efficiency float64) {
	for i := range c.q {
		p := c.power
		if c.p != nil {
			p = c.p[i]
		}
		w := c.q[i] * c.h[i] / 3.6e6 * 998.2 * 9.80665
		hydraulic, efficiency = max(hydraulic, w), max(efficiency, w/p)
	}
	return hydraulic, efficiency
}

func middle(r *rand.Rand, c *plain) int { return 1 + r.IntN(len(c.q)-2) }

func insert(x []float64, i int, v float64) []float64 {
	if x == nil {
		return nil
	}
	return slices.Insert(x, i, v)
}

func plants() []plant {
	return slices.Concat(shapePlants(), unitPlants(), powerPlants(), cataloguePlants())
}

func shapePlants() []plant {
	return []plant{
		{"axes swapped", []string{defect.AxesSwapped}, func(_ *rand.Rand, c *plain, _ []plain) bool { c.q, c.h = c.h, c.q; return true }},
		{"head rises at a point", []string{defect.HeadRises, defect.HeadDips}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i := 1 + len(c.h)/2 + r.IntN(max(1, len(c.h)/2-1))
			i = min(i, len(c.h)-2)
			c.h[i] = c.h[i-1] + uniform(r, 0.03, 0.3)*c.h[0]
			return true
		}},
		{"heads in the reverse order", []string{defect.HeadRises}, func(_ *rand.Rand, c *plain, _ []plain) bool { slices.Reverse(c.h); return true }},
		{"dip", []string{defect.HeadDips}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i := middle(r, c)
			if i == len(c.h)-2 {
				i--
			}
			c.h[i] = c.h[i+1] * uniform(r, 0.6, 0.9)
			return i > 0 && c.h[i+1]-c.h[i] > 0.02*c.h[0]
		}},
		{"droop that makes two duties", []string{defect.DroopTwoDuties, defect.HeadRises, defect.HeadDips}, func(r *rand.Rand, c *plain, _ []plain) bool {
			c.h[0] = c.h[1] * uniform(r, 0.75, 0.92)
			return slices.Max(c.h) == c.h[1]
		}},
		{"two digits transposed", []string{defect.PointOffCurve, defect.HeadRises, defect.HeadDips}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i := middle(r, c)
			text := []byte(strconv.FormatFloat(c.h[i], 'f', 2, 64))
			text[0], text[len(text)-2] = text[len(text)-2], text[0]
			y, _ := strconv.ParseFloat(string(text), 64)
			was := c.h[i]
			c.h[i] = y
			return math.Abs(y-was) > 0.15*slices.Max(c.h)
		}},
		{"point off the curve", []string{defect.PointOffCurve, defect.HeadRises, defect.HeadDips}, func(r *rand.Rand, c *plain, _ []plain) bool {
			c.h[middle(r, c)] += pick(r, -1.0, 1) * uniform(r, 0.16, 0.4) * slices.Max(c.h)
			return slices.Min(c.h) >= 0
		}},
		{"point twice", []string{defect.PointRepeated}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i := middle(r, c)
			c.q, c.h, c.p = insert(c.q, i, c.q[i]), insert(c.h, i, c.h[i]), insert(c.p, i, at(c.p, i))
			return true
		}},
		{"two heads at one flow", []string{defect.TwoHeadsAtOneFlow}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i := middle(r, c)
			c.q, c.h, c.p = insert(c.q, i, c.q[i]), insert(c.h, i, c.h[i]*uniform(r, 0.5, 0.9)), insert(c.p, i, at(c.p, i))
			return c.h[i+1] > 0
		}},
		{"points out of order", []string{defect.PointsOutOfOrder}, func(r *rand.Rand, c *plain, _ []plain) bool {
			i, j := middle(r, c), middle(r, c)
			for _, x := range [][]float64{c.q, c.h, c.p} {
				if x != nil {
					x[i], x[j] = x[j], x[i]
				}
			}
			return i != j
		}},
		{"points in reverse", []string{defect.PointsOutOfOrder}, func(_ *rand.Rand, c *plain, _ []plain) bool {
			slices.Reverse(c.q)
			slices.Reverse(c.h)
			slices.Reverse(c.p)
			return true
		}},
		{"too few points", []string{defect.TooFewPoints}, func(r *rand.Rand, c *plain, _ []plain) bool {
			keep := pick(r, []int{0, len(c.q) - 1}, []int{0, len(c.q) / 2, len(c.q) - 1}, []int{0})
			for _, x := range []*[]float64{&c.q, &c.h, &c.p} {
				if *x != nil {
					var kept []float64
					for _, i := range keep {
						kept = append(kept, (*x)[i])
					}
					*x = kept
				}
			}
			return true
		}},
		{"shut-off missing", []string{defect.ShutOffMissing}, func(_ *rand.Rand, c *plain, _ []plain) bool {
			c.cut(1, len(c.q))
			return true
		}},
		{"free flow missing", []string{defect.FreeFlowMissing}, func(_ *rand.Rand, c *plain, _ []plain) bool {
			c.cut(0, len(c.q)-1)
			return c.h[len(c.h)-1] > 0.06*c.h[0]
		}},
		{"two speeds in one", []string{defect.TwoCurvesInOne}, func(r *rand.Rand, c *plain, _ []plain) bool {
			k := uniform(r, 0.55, 0.75)
			for i, n := 0, len(c.q); i < n; i++ {
				c.q, c.h = append(c.q, c.q[i]*k), append(c.h, c.h[i]*k*k)
				if c.p != nil {
					c.p = append(c.p, c.p[i]*k*k*k)
				}
			}
			return true
		}},
		{"negative head", []string{defect.NumberNegative}, func(r *rand.Rand, c *plain, _ []plain) bool { c.h[middle(r, c)] *= -1; return true }},
		{"missing number", []string{defect.NumberMissing}, func(r *rand.Rand, c *plain, _ []plain) bool { c.q[middle(r, c)] = math.NaN(); return true }},
		{"infinite number", []string{defect.NumberNotFinite}, func(r *rand.Rand, c *plain, _ []plain) bool { c.h[middle(r, c)] = math.Inf(1); return true }},
		{"all zero", []string{defect.CurveEmpty}, func(_ *rand.Rand, c *plain, _ []plain) bool { clear(c.h); return true }},
	}
}

func at(x []float64, i int) float64 {
	if x == nil {
		return 0
	}
	return x[i]
}

func (c *plain) cut(from, to int) {
	c.q, c.h = c.q[from:to], c.h[from:to]
	if c.p != nil {
		c.p = c.p[from:to]
	}
}

func unitPlants() []plant {
	// Which gallon it is cannot always be told, and then both are said to be possible.
	gallons := []string{defect.FlowUKGallons, defect.FlowUSGallons}
	return []plant{
		{"L/min as L/h", []string{defect.FlowLitresPerMinute}, flowIn(60, 4)},
		{"m³/h as L/h", []string{defect.FlowCubicMetres}, flowIn(1000, 4)},
		{"US gallons as litres", gallons, flowIn(3.785411784, 5)},
		{"UK gallons as litres", gallons, flowIn(4.54609, 5)},
		{"any gallons as litres, to three figures", gallons, flowIn(3.785411784, 3)},
		{"feet as metres", []string{defect.HeadFeet}, headIn(0.3048, 4)},
		{"kPa as metres", []string{defect.HeadKilopascals}, headIn(1/9.80665, 4)},
		{"bar as metres", []string{defect.HeadBars}, headIn(100/9.80665, 4)},
	}
}

func powerPlants() []plant {
	needs := func(put func(r *rand.Rand, c *plain)) func(*rand.Rand, *plain, []plain) bool {
		return func(r *rand.Rand, c *plain, _ []plain) bool {
			if c.takes() == 0 {
				return false
			}
			put(r, c)
			return true
		}
	}
	return []plant{
		{"power below hydraulic", []string{defect.PowerBelowHydraulic}, needs(func(r *rand.Rand, c *plain) {
			_, e := c.best()
			c.scalePower(e / uniform(r, 1.05, 3))
		})},
		{"efficiency beyond reach", []string{defect.EfficiencyTooHigh}, needs(func(r *rand.Rand, c *plain) {
			w, e := c.best()
			reach := min(0.76, max(0.36, 1.35*w/(1.7*w+17*(1-math.Exp(-0.3*w)))))
			c.scalePower(e / uniform(r, reach+0.06, 0.97))
		})},
		{"power in kW", []string{defect.PowerUnit}, needs(func(_ *rand.Rand, c *plain) { c.scalePower(0.001) })},
		{"power falls", []string{defect.PowerFalls}, func(_ *rand.Rand, c *plain, _ []plain) bool {
			if c.p == nil || c.p[0] > 0.85*slices.Max(c.p) {
				return false
			}
			slices.Reverse(c.p)
			return true
		}},
		{"power at some points", []string{defect.PowerIncomplete}, func(r *rand.Rand, c *plain, _ []plain) bool {
			if c.p == nil {
				return false
			}
			c.p[middle(r, c)] = 0
			return true
		}},
		{"label flow", []string{defect.LabelFlowDisagrees}, func(r *rand.Rand, c *plain, _ []plain) bool {
			c.labelQ = c.q[len(c.q)-1] * pick(r, uniform(r, 1.1, 1.6), uniform(r, 0.6, 0.9))
			return true
		}},
		{"label head", []string{defect.LabelHeadDisagrees}, func(r *rand.Rand, c *plain, _ []plain) bool {
			was := slices.Max(c.h)
			c.labelH = math.Round(was*pick(r, uniform(r, 1.12, 1.6), uniform(r, 0.6, 0.88))*10) / 10
			return math.Abs(c.labelH-was) > 0.06 && math.Abs(c.labelH/was-1) > 0.1
		}},
	}
}

func cataloguePlants() []plant {
	return []plant{
		{"same curve under two numbers", []string{defect.SameCurveTwice}, func(r *rand.Rand, c *plain, earlier []plain) bool {
			number := c.number
			*c = earlier[r.IntN(len(earlier))].clone()
			c.number = number
			return true
		}},
		{"copy at another speed", []string{defect.ScaledCopy}, func(r *rand.Rand, c *plain, earlier []plain) bool {
			number, k := c.number, pick(r, 1.2, 1/1.2, uniform(r, 0.6, 0.95), uniform(r, 1.05, 1.5))
			*c = earlier[r.IntN(len(earlier))].clone()
			c.number, c.labelQ, c.labelH = number, 0, 0
			times(c.q, k)
			times(c.h, k*k)
			c.scalePower(k * k * k)
			for i := range c.q {
				c.q[i], c.h[i] = math.Round(c.q[i]), math.Round(c.h[i]*100)/100
			}
			for i := range c.p {
				c.p[i] = math.Round(c.p[i]*10) / 10
			}
			return slices.Max(c.h) > 1 && distinct(c.q)
		}},
		{"a number twice", []string{defect.ItemNumberTwice}, func(r *rand.Rand, c *plain, earlier []plain) bool {
			c.number = earlier[r.IntN(len(earlier))].number
			return true
		}},
		{"traced from a picture", []string{defect.CurveTooPrecise}, func(r *rand.Rand, c *plain, _ []plain) bool {
			for i := range c.h {
				c.h[i] = max(0, c.h[i]*(1+0.001*r.NormFloat64()))
			}
			settle(c.h)
			return true
		}},
		{"worked out by a formula", []string{defect.CurveIsFormula, defect.CurveTooPrecise}, func(r *rand.Rand, c *plain, _ []plain) bool {
			top, last, n := slices.Max(c.h), c.q[len(c.q)-1], uniform(r, 1.3, 2.5)
			for i := range c.h {
				c.h[i] = math.Round(top*(1-math.Pow(c.q[i]/last, n))*1000) / 1000
			}
			return top > 1.5 && len(c.h) >= 7
		}},
	}
}
