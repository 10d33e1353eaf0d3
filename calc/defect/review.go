package defect

import (
	"math"
	"slices"

	"example.com/pondwright/calc/finding"
)

// A Review is a catalogue of curves as a whole.
type Review struct {
	Curves, Sound, Notes, Cautions, Stops int
	Defects                               map[string]int // curves that have each, by code
	Efficiency                            Distribution   // in percent
	SpecificSpeed                         Distribution
	Outliers                              []Outlier // farthest first
	Coverage                              []Duty
}

// A Distribution says how a figure is spread, as finely as its bins.
type Distribution struct {
	Count                                                 int
	Least, LowerQuartile, Median, UpperQuartile, Greatest float64
	Bins                                                  []Bin
}

// A Bin counts figures from one bound up to the next.
type Bin struct {
	From, Below float64
	Count       int
}

// An Outlier is a curve that is unlike the others of its series.
type Outlier struct {
	Place          int
	Number, Series string
	Figure         string
	Value, Median  float64
	Deviations     float64
}

// A Duty is one cell of the coverage: pumps that give the head at the flow, and no more than half as much again.
type Duty struct {
	FlowLitresPerHour, HeadMetres float64
	Pumps                         int
	Gap                           bool
}

// Duties are looked at on steps that are even in ratio, from the smallest fountain to the largest stream: ten to the decade of
// flow and of head is finer than anybody chooses by.
const (
	coverFlows, coverHeads = 27, 21
	coverFirstFlow         = 200.0              // L/h
	coverFirstHead         = 0.2                // m
	coverStep              = 1.2589254117941673 // ten to the decade
	spareTenths            = 1.7609125905568124 // 10 log 1.5: half as much head again
	mostOutliers           = 100
	outlierFrom            = 4.5 // deviations
	efficiencyBins         = 50
	efficiencyWidth        = 2.0 // %
)

// tallies is what is counted of a stream; it has one size.
type tallies struct {
	curves, sound int
	worst         [4]int
	defects       map[string]int
	efficiency    [efficiencyBins]int32
	speeds        tally
	cover         [coverFlows][coverHeads]int32
	outliers      []Outlier
	least, most   [2]float64 // of efficiency and of ln specific speed
}

func newTallies() tallies {
	return tallies{defects: map[string]int{}, least: [2]float64{math.Inf(1), math.Inf(1)}, most: [2]float64{math.Inf(-1), math.Inf(-1)}}
}

func (t *tallies) add(s *sheet, r Result, ready bool) {
	t.curves++
	worst := r.Worst()
	t.worst[worst]++
	if worst == 0 {
		t.sound++
	}
	for i, d := range r.Defects {
		if !slices.ContainsFunc(r.Defects[:i], func(e Defect) bool { return e.Code == d.Code }) {
			t.defects[d.Code]++
		}
	}
	if !ready || worst == finding.Stop || !s.shape.known {
		return
	}
	t.speeds.add(s.shape.speed, speedFrom)
	t.extremes(1, s.shape.speed)
	if s.p != nil {
		percent := 100 * s.shape.efficiency
		t.efficiency[min(max(int(percent/efficiencyWidth), 0), efficiencyBins-1)]++
		t.extremes(0, percent)
	}
	t.covers(s)
}

func (t *tallies) extremes(which int, x float64) {
	t.least[which], t.most[which] = min(t.least[which], x), max(t.most[which], x)
}

// covers counts the duties a pump is for, on straight lines between its points: that is near enough to see gaps by.
func (t *tallies) covers(s *sheet) {
	i, at := 1, 0
	flow := coverFirstFlow
	for f := range coverFlows {
		for i < len(s.q)-1 && s.q[i] < flow {
			i++
		}
		if flow >= s.q[0] && flow <= s.last {
			u := (flow - s.q[i-1]) / (s.q[i] - s.q[i-1])
			at = t.coverHead(f, s.h[i-1]+u*(s.h[i]-s.h[i-1]), at)
		}
		flow *= coverStep
	}
}

// coverHead counts the duties at one flow. at is the step that the head before was on, and the head's own step comes back: heads
// change little from flow to flow, so that looking for it from there is faster than a logarithm.
func (t *tallies) coverHead(f int, head float64, at int) int {
	for at < coverHeads && head >= coverLeast[at+1] {
		at++
	}
	for at > 0 && head < coverLeast[at] {
		at--
	}
	for h := max(at-1, 0); h <= min(at, coverHeads-1); h++ {
		if head >= coverLeast[h] && head <= coverMost[h] {
			t.cover[f][h]++
		}
	}
	return at
}

// coverLeast and coverMost are the least and the greatest head of each step, to the last bit, so that round heads, which lie on the
// borders, are counted alike everywhere.
var coverLeast, coverMost = func() (least, most [coverHeads + 1]float64) {
	tenths := func(head float64) float64 { return 10 * math.Log10(head/coverFirstHead) }
	for h := range least {
		x := coverFirstHead * math.Pow(10, float64(h)/10) * (1 - 1e-13)
		for tenths(x) < float64(h) {
			x = math.Nextafter(x, math.Inf(1))
		}
		y := 1.5 * coverFirstHead * math.Pow(10, float64(h)/10) * (1 + 1e-13)
		for tenths(y)-spareTenths > float64(h) {
			y = math.Nextafter(y, 0)
		}
		least[h], most[h] = x, y
	}
	return least, most
}()

// outlying notes a curve that lies far from its neighbours.
func (t *tallies) outlying(s *sheet, place int, near *spread) {
	if near == nil || !s.shape.known {
		return
	}
	t.outlier(s, place, "specific speed", s.shape.speed, near.speed, near.speedWidth, math.Exp)
	if s.p != nil && near.power {
		usual := s.shape.efficiency * math.Exp(near.merit-s.shape.merit)
		t.outlier(s, place, "efficiency", s.shape.merit, near.merit, near.meritWidth,
			func(x float64) float64 { return 100 * usual * math.Exp(x-near.merit) })
	}
}

func (t *tallies) outlier(s *sheet, place int, figure string, x, middle, width float64, read func(float64) float64) {
	deviations := math.Abs(x-middle) / width
	if deviations < outlierFrom || len(t.outliers) == mostOutliers && deviations <= t.outliers[mostOutliers-1].Deviations {
		return
	}
	made := Outlier{Place: place, Number: s.curve.Number, Series: s.curve.Series, Figure: figure, Value: read(x), Median: read(middle), Deviations: deviations}
	at, _ := slices.BinarySearchFunc(t.outliers, made, func(a, b Outlier) int {
		switch {
		case a.Deviations > b.Deviations:
			return -1
		case a.Deviations < b.Deviations:
			return 1
		}
		return a.Place - b.Place
	})
	t.outliers = slices.Insert(t.outliers, at, made)
	if len(t.outliers) > mostOutliers {
		t.outliers = t.outliers[:mostOutliers]
	}
}

// Review is the catalogue so far.
func (c *Checker) Review() Review {
	t := &c.review
	r := Review{
		Curves: t.curves, Sound: t.sound, Notes: t.worst[finding.Note], Cautions: t.worst[finding.Caution], Stops: t.worst[finding.Stop],
		Defects: map[string]int{}, Outliers: slices.Clone(t.outliers),
	}
	for code, n := range t.defects {
		r.Defects[code] = n
	}
	r.Efficiency = distribution(t.efficiency[:], func(i float64) float64 { return i * efficiencyWidth }, t.least[0], t.most[0])
	r.SpecificSpeed = distribution(t.speeds.bins[:], func(i float64) float64 { return math.Exp(speedFrom + i*tallyWidth) }, math.Exp(t.least[1]), math.Exp(t.most[1]))
	r.Coverage = t.coverage()
	return r
}

// distribution reads bins; bound is the lower bound of a bin by its number.
func distribution(bins []int32, bound func(float64) float64, least, most float64) Distribution {
	var d Distribution
	first, last := len(bins), -1
	for i, n := range bins {
		d.Count += int(n)
		if n > 0 {
			first, last = min(first, i), i
		}
	}
	if d.Count == 0 {
		return d
	}
	for i := first; i <= last; i++ {
		d.Bins = append(d.Bins, Bin{bound(float64(i)), bound(float64(i + 1)), int(bins[i])})
	}
	quantile := func(share float64) float64 {
		rank, below := share*float64(d.Count), 0.0
		for i, n := range bins {
			if n > 0 && below+float64(n) >= rank {
				return min(max(bound(float64(i)+(rank-below)/float64(n)), least), most)
			}
			below += float64(n)
		}
		return most
	}
	d.Least, d.LowerQuartile, d.Median, d.UpperQuartile, d.Greatest = least, quantile(0.25), quantile(0.5), quantile(0.75), most
	return d
}

// coverage lists the duties that some pump is for, and the gaps among them: duties no pump is for, with pumps on both sides of them
// in flow or in head.
func (t *tallies) coverage() []Duty {
	var duties []Duty
	any := func(f0, f1, h0, h1 int) bool {
		for f := max(f0, 0); f <= min(f1, coverFlows-1); f++ {
			for h := max(h0, 0); h <= min(h1, coverHeads-1); h++ {
				if t.cover[f][h] > 0 {
					return true
				}
			}
		}
		return false
	}
	for f := range coverFlows {
		for h := range coverHeads {
			n := t.cover[f][h]
			gap := n == 0 && (any(0, f-1, h, h) && any(f+1, coverFlows, h, h) || any(f, f, 0, h-1) && any(f, f, h+1, coverHeads))
			if n == 0 && !gap {
				continue
			}
			duties = append(duties, Duty{
				FlowLitresPerHour: coverFirstFlow * math.Pow(coverStep, float64(f)), HeadMetres: coverFirstHead * math.Pow(coverStep, float64(h)),
				Pumps: int(n), Gap: gap,
			})
		}
	}
	return duties
}
