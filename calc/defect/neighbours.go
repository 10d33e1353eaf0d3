package defect

import "math"

// sketch is what is kept of all the curves of a series, or of a catalogue: how often each efficiency and each specific speed came.
// It has one size however many curves there are.
type sketch struct {
	merits, speeds tally
}

// tally counts figures in bins of a tenth in ln, which is finer than pumps of one series agree.
type tally struct {
	bins  [tallyBins]int32
	count int32
}

const (
	tallyBins  = 96
	tallyWidth = 0.1
	meritFrom  = -7.0 // ln: an efficiency of a thousandth of the usual
	speedFrom  = 0.0  // ln: specific speed 1
)

func (t *tally) add(x, from float64) {
	bin := int((x - from) / tallyWidth)
	t.bins[min(max(bin, 0), tallyBins-1)]++
	t.count++
}

// quantile is the figure below which a share of all lie, placed within its bin as if they lay evenly in it.
func (t *tally) quantile(share, from float64) float64 {
	rank, below := share*float64(t.count), 0.0
	for i, n := range t.bins {
		if n > 0 && below+float64(n) >= rank {
			return from + tallyWidth*(float64(i)+(rank-below)/float64(n))
		}
		below += float64(n)
	}
	return from + tallyWidth*tallyBins
}

// Neighbours speak when there are so many of them, and their figures are never taken to lie closer than so: sizes of one series
// differ a little in both.
const (
	fewestOfSeries    = 6
	fewestOfCatalogue = 40
	leastWidth        = 0.13
)

// middle is the median of a tally, and the width of a bell curve that has the same quartiles.
func (t *tally) middle(from float64) (middle, width float64) {
	const quartiles = 1.349 // between the quartiles of the bell curve, in standard deviations
	width = (t.quantile(0.75, from) - t.quantile(0.25, from)) / quartiles
	few := 1 + 4/float64(t.count) // a handful tells its own width badly
	return t.quantile(0.5, from), max(width, leastWidth) * few
}

func (k *sketch) add(f figures, power bool) {
	if !f.known {
		return
	}
	k.speeds.add(f.speed, speedFrom)
	if power && !math.IsInf(f.merit, 0) {
		k.merits.add(f.merit, meritFrom)
	}
}

// spread is what the neighbours have in common; nil where there are too few.
func (k *sketch) spread(fewest int32) *spread {
	if k.speeds.count < fewest {
		return nil
	}
	var made spread
	made.speed, made.speedWidth = k.speeds.middle(speedFrom)
	if made.power = k.merits.count >= fewest; made.power {
		made.merit, made.meritWidth = k.merits.middle(meritFrom)
	}
	return &made
}

// mostSeries bounds the series that are kept apart. Pumps of further ones are held against the catalogue as a whole.
const mostSeries = 4096

// neighbourhood is every sketch.
type neighbourhood struct {
	all    sketch
	series map[string]*sketch
}

func newNeighbourhood() neighbourhood { return neighbourhood{series: map[string]*sketch{}} }

func (n *neighbourhood) add(series string, f figures, power bool) {
	n.all.add(f, power)
	if series == "" {
		return
	}
	k := n.series[series]
	if k == nil {
		if len(n.series) >= mostSeries {
			return
		}
		k = new(sketch)
		n.series[series] = k
	}
	k.add(f, power)
}

// seriesOf is the series of a curve: the one that is given or, where none is, the item number without its last two characters, since
// merchants number their series through. Where that is no series, it is as mixed as the catalogue, and does no harm.
func seriesOf(c *Curve) string {
	const sizes = 2
	if c.Series != "" || len(c.Number) <= sizes {
		return c.Series
	}
	end := len(c.Number)
	for range sizes {
		if end == 0 { // fewer letters than that, of several bytes each
			return ""
		}
		end--
		for end > 0 && c.Number[end]&0xc0 == 0x80 { // inside a letter of several bytes
			end--
		}
	}
	return c.Number[:end]
}

// of are the neighbours of a curve: those of its series where they are enough.
func (n *neighbourhood) of(series string) *spread {
	if k := n.series[series]; series != "" && k != nil {
		if made := k.spread(fewestOfSeries); made != nil {
			return made
		}
	}
	return n.all.spread(fewestOfCatalogue)
}
