package defect_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// Sound curves are drawn from the forms in which pump characteristics are published: H = a + bQ + cQ², H = H₀ - cQⁿ, and tables
// without a form, with the scatter of a measurement and the rounding of a catalogue. Sizes, efficiencies and specific speeds are
// those of garden pumps from 10 W to 3 kW; pumps of one series share the build. Common practice, no source.
const seed = 20261125

// plain is a curve in the numbers of a catalogue.
type plain struct {
	number, series string
	q, h, p        []float64 // L/h, m, W; p nil where not known
	power          float64   // of the pump; 0
	labelQ, labelH float64
}

func (c plain) clone() plain {
	c.q, c.h, c.p = slices.Clone(c.q), slices.Clone(c.h), slices.Clone(c.p)
	return c
}

func (c plain) curve() defect.Curve {
	made := defect.Curve{
		Number: c.number, Series: c.series, Power: unit.Watts(c.power),
		LabelFlow: unit.LitresPerHour(c.labelQ), LabelHead: unit.MetresOfWater(c.labelH),
	}
	for i := range c.q {
		p := pump.Point{Flow: unit.LitresPerHour(c.q[i]), Head: unit.MetresOfWater(c.h[i])}
		if c.p != nil {
			p.Power = unit.Watts(c.p[i])
		}
		made.Points = append(made.Points, p)
	}
	return made
}

func uniform(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

func pick[T any](r *rand.Rand, from ...T) T { return from[r.IntN(len(from))] }

// build is what the pumps of a series have in common.
type build struct {
	name         string
	speed, merit float64
	shape        func(x float64) float64 // head by flow, both from 1 to 0
	still        float64                 // power at no flow by the greatest
	withSeries   bool
}

func drawBuild(r *rand.Rand, i int) build {
	b := build{name: fmt.Sprintf("%c%c", 'A'+i/26%26, 'A'+i%26), speed: math.Exp(uniform(r, math.Log(22), math.Log(105))), withSeries: r.Float64() < 0.8}
	b.merit = math.Exp(-0.75 + 0.28*r.NormFloat64())
	b.merit = min(max(b.merit, 0.2), 1.05)
	b.still = uniform(r, 0.5, 0.88)
	switch r.IntN(4) {
	case 0: // H = H₀ - cQⁿ
		n := uniform(r, 1.25, 2.6)
		b.shape = func(x float64) float64 { return 1 - math.Pow(x, n) }
	case 1: // H = a + bQ + cQ², falling throughout
		c := uniform(r, 0.25, 1)
		b.shape = func(x float64) float64 { return 1 - (1-c)*x - c*x*x }
	case 2: // the same with a droop
		d := uniform(r, 0.02, 0.22)
		b.shape = func(x float64) float64 { return 1 + d*x - (1+d)*x*x }
	default: // a table
		k, m := uniform(r, 0.3, 0.7), uniform(r, 1.4, 2.2)
		b.shape = func(x float64) float64 { return k*(1-math.Pow(x, m)) + (1-k)*math.Cos(x*math.Pi/2) }
	}
	return b
}

// drawPump draws one pump of a series: its size by its power, from which flow and head follow by efficiency and specific speed.
func drawPump(r *rand.Rand, b build, number int, watts float64) plain {
	bestX := 0.5
	for x := 0.3; x < 0.9; x += 0.01 {
		if x*b.shape(x) > bestX*b.shape(bestX) {
			bestX = x
		}
	}
	merit := b.merit * math.Exp(0.06*r.NormFloat64())
	speed := b.speed * math.Exp(0.06*r.NormFloat64())
	low, high := 0.0, watts // hydraulic power by bisection: η = merit · Pₕ/P_ref(Pₕ)
	for range 60 {
		m := (low + high) / 2
		reference := m / (1.7*m + 17*(1-math.Exp(-0.3*m)))
		if m/watts > merit*reference {
			high = m
		} else {
			low = m
		}
	}
	product := low / (998.2 * 9.80665)
	head := math.Pow(2900*math.Sqrt(product)/speed, 0.8)
	qMax, still := product/head*3.6e6/bestX, head/b.shape(bestX)

	c := plain{number: fmt.Sprintf("%s-%04d", b.name, number)}
	if b.withSeries {
		c.series = b.name
	} else {
		c.number = fmt.Sprintf("%03d%05d", r.IntN(1000), number)
	}
	n := 5 + r.IntN(8)
	noise := uniform(r, 0.002, 0.008)
	flowStep := pick(r, 1.0, 5, 10, 50)
	for flowStep > qMax/150 {
		flowStep /= 5
	}
	headStep := pick(r, 0.01, 0.01, 0.02, 0.05)
	if headStep > still/100 {
		headStep = 0.01
	}
	kilopascals := r.Float64() < 0.1
	uneven := r.Float64() < 0.5
	for i := range n {
		x := float64(i) / float64(n-1)
		if uneven && i > 0 && i < n-1 {
			x += uniform(r, -0.3, 0.3) / float64(n-1)
		}
		h := still * (b.shape(x) + noise*r.NormFloat64())
		if i == n-1 {
			h = 0
		}
		q := math.Round(x*qMax/flowStep) * flowStep
		if kilopascals {
			h = math.Round(h*9.80665*10) / 10 / 9.80665
		} else {
			h = math.Round(h/headStep) * headStep
		}
		c.q, c.h = append(c.q, q), append(c.h, max(h, 0))
	}
	settle(c.h)
	powered(r, &c, b, watts, qMax)
	if r.Float64() < 0.6 {
		c.labelQ, c.labelH = figures2(c.q[n-1]), math.Round(slices.Max(c.h)*10)/10
	}
	return c
}

// settle takes out what scatter made of a curve that falls: who draws a curve evens that out.
func settle(h []float64) {
	top := 0
	for i := range h {
		if h[i] > h[top] {
			top = i
		}
	}
	if float64(top) > 0.4*float64(len(h)-1) || h[top] > 1.055*h[0] {
		for i := 0; i < top; i++ {
			h[i] = max(h[i], h[top])
		}
	}
	for i := 1; i < top; i++ {
		h[i] = max(h[i], h[i-1])
	}
	for i := top + 1; i < len(h); i++ {
		h[i] = min(h[i], h[i-1])
	}
}

func powered(r *rand.Rand, c *plain, b build, watts, qMax float64) {
	step := pick(r, 0.1, 0.5, 1)
	if watts > 200 {
		step = pick(r, 1.0, 5)
	}
	switch r.IntN(4) {
	case 0:
	case 1:
		c.power = max(math.Round(watts/step)*step, step)
	default:
		still := b.still
		if b.speed > 75 {
			still = uniform(r, 0.9, 1.02)
		}
		for i := range c.q {
			x := c.q[i] / qMax
			w := watts * (still + (1-still)*math.Sin(min(x*1.25, 1)*math.Pi/2))
			c.p = append(c.p, max(math.Round(w*(1+0.004*r.NormFloat64())/step)*step, step))
		}
	}
}

// figures2 rounds to two figures and a half, as boxes do.
func figures2(x float64) float64 {
	step := math.Pow(10, math.Floor(math.Log10(x))-1) / 2
	return math.Round(x/step) * step
}

// soundCurves draws a catalogue.
func soundCurves(r *rand.Rand, n int) []plain {
	var all []plain
	for i := 0; len(all) < n; i++ {
		b := drawBuild(r, i)
		size := math.Exp(uniform(r, math.Log(10), math.Log(600)))
		for j := range 10 + r.IntN(20) {
			if c := drawPump(r, b, len(all), min(size*math.Pow(1.18, float64(j)*uniform(r, 0.8, 1.2)), 3000)); c.q[len(c.q)-1] >= 300 &&
				c.q[len(c.q)-1] <= 100000 && slices.Max(c.h) >= 0.5 && slices.Max(c.h) <= 20 && distinct(c.q) {
				all = append(all, c)
			}
		}
	}
	return all[:n]
}

func distinct(q []float64) bool {
	for i := 1; i < len(q); i++ {
		if q[i] <= q[i-1] {
			return false
		}
	}
	return true
}

// checked puts curves through a Checker in messages of the usual size.
func checked(all []plain) []defect.Result {
	c := defect.NewChecker(usual())
	var results []defect.Result
	for batch := range slices.Chunk(all, 200) {
		var curves []defect.Curve
		for _, p := range batch {
			curves = append(curves, p.curve())
		}
		results = append(results, c.Check(curves)...)
	}
	return results
}

func usual() pump.Grade {
	grade, err := pump.GradeNamed("usual")
	if err != nil {
		panic(err)
	}
	return grade
}
