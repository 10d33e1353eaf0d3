package defect

import (
	"errors"
	"maps"
	"math"
	"slices"
)

// State is all that a Checker knows, so that a stream can be taken up again where it broke off. It has no pointers into the Checker.
type State struct {
	Place     int
	Catalogue Sketch
	Series    map[string]Sketch
	Imprints  []Imprint // oldest first
	Numbers   []string  // item numbers remembered, oldest first, and the place of each
	Places    []int32
	Counts    Counts
}

// Sketch is how often each figure came in a series.
type Sketch struct{ Merits, Speeds []int32 }

// Imprint is one curve in little.
type Imprint struct {
	Place             int32
	Points            uint8
	Name              string
	Flow, Head, Power float32
	Flows, Heads      [keptPoints]uint16
}

// ImprintPoints is how many points an Imprint has.
const ImprintPoints = keptPoints

// Counts is what was counted for the Review.
type Counts struct {
	Curves, Sound int
	Worst         []int
	Defects       map[string]int
	Efficiency    []int32
	Speeds        []int32
	Cover         []int32
	Outliers      []Outlier
	Least, Most   [2]float64
}

// State gives all that the Checker knows.
func (c *Checker) State() State {
	s := State{Place: c.place, Catalogue: c.near.all.state(), Series: map[string]Sketch{}}
	for name, k := range c.near.series {
		s.Series[name] = k.state()
	}
	for i := range c.copies.ring {
		m := c.copies.ring[(c.copies.next+i)%len(c.copies.ring)]
		s.Imprints = append(s.Imprints, Imprint{m.place, m.points, m.name, m.flow, m.head, m.top, m.q, m.h})
	}
	for i := range c.copies.order {
		number := c.copies.order[(c.copies.oldID+i)%len(c.copies.order)]
		s.Numbers, s.Places = append(s.Numbers, number), append(s.Places, c.copies.ids[number])
	}
	t := &c.review
	s.Counts = Counts{
		Curves: t.curves, Sound: t.sound, Worst: slices.Clone(t.worst[:]), Defects: maps.Clone(t.defects),
		Efficiency: slices.Clone(t.efficiency[:]), Speeds: slices.Clone(t.speeds.bins[:]),
		Outliers: slices.Clone(t.outliers), Least: t.least, Most: t.most,
	}
	for f := range t.cover {
		s.Counts.Cover = append(s.Counts.Cover, t.cover[f][:]...)
	}
	return s
}

func (k *sketch) state() Sketch {
	return Sketch{Merits: slices.Clone(k.merits.bins[:]), Speeds: slices.Clone(k.speeds.bins[:])}
}

// errState is the error of a state that no Checker gave.
var errState = errors.New("is not a state of this engine's checks")

// Restore takes up a state. The Checker must be new. The state may come from anywhere: it is refused where it is out of bounds, and at
// worst makes wrong findings for whoever sent it.
func (c *Checker) Restore(s State) error {
	sized := s.Place >= 0 && len(s.Counts.Worst) == len(c.review.worst) && len(s.Counts.Efficiency) == efficiencyBins && len(s.Counts.Speeds) == tallyBins &&
		len(s.Counts.Cover) == coverFlows*coverHeads && len(s.Imprints) <= mostKept && len(s.Numbers) <= rememberIDs && len(s.Places) == len(s.Numbers) &&
		len(s.Series) <= mostSeries && len(s.Counts.Outliers) <= mostOutliers && len(s.Counts.Defects) <= len(severities)
	if !sized || !c.near.all.restore(s.Catalogue) {
		return errState
	}
	for name, k := range s.Series {
		made := new(sketch)
		if !made.restore(k) {
			return errState
		}
		c.near.series[name] = made
	}
	for _, m := range s.Imprints {
		if m.Points < 2 || !(m.Flow > 0) || !(m.Head > 0) || !(m.Power >= 0) || math.IsInf(float64(m.Flow), 0) || math.IsInf(float64(m.Head), 0) {
			return errState
		}
		c.copies.keep(imprint{m.Place, m.Points, short(m.Name), m.Flow, m.Head, m.Power, m.Flows, m.Heads})
	}
	for i, number := range s.Numbers {
		if _, twice := c.copies.again(number, int(s.Places[i])); twice {
			return errState
		}
	}
	return c.restoreCounts(s)
}

func (c *Checker) restoreCounts(s State) error {
	t := &c.review
	for code := range s.Counts.Defects {
		if _, known := severities[code]; !known {
			return errState
		}
	}
	for _, o := range s.Counts.Outliers {
		if math.IsNaN(o.Value) || math.IsNaN(o.Median) || math.IsNaN(o.Deviations) {
			return errState
		}
	}
	for i := range s.Counts.Least {
		if math.IsNaN(s.Counts.Least[i]) || math.IsNaN(s.Counts.Most[i]) {
			return errState
		}
	}
	c.place, t.curves, t.sound, t.defects = s.Place, s.Counts.Curves, s.Counts.Sound, maps.Clone(s.Counts.Defects)
	if t.defects == nil {
		t.defects = map[string]int{}
	}
	copy(t.worst[:], s.Counts.Worst)
	copy(t.efficiency[:], s.Counts.Efficiency)
	copy(t.speeds.bins[:], s.Counts.Speeds)
	for f := range t.cover {
		copy(t.cover[f][:], s.Counts.Cover[f*coverHeads:])
	}
	t.outliers, t.least, t.most = slices.Clone(s.Counts.Outliers), s.Counts.Least, s.Counts.Most
	return nil
}

func (k *sketch) restore(s Sketch) bool {
	return k.merits.restore(s.Merits) && k.speeds.restore(s.Speeds)
}

func (t *tally) restore(bins []int32) bool {
	if len(bins) != tallyBins {
		return false
	}
	copy(t.bins[:], bins)
	t.count = 0
	for _, n := range bins {
		if n < 0 {
			return false
		}
		t.count += n
	}
	return true
}
