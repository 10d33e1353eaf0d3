package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// The last curves of a stream are kept in little, so that one that comes again is known. What is kept of each has one size, and so
// has the whole: the oldest make way.
const (
	mostKept    = 1 << 17
	keptPoints  = 8
	keptName    = 24      // letters of an item number
	kept16      = 60000.0 // 1 as a share in sixteen bits
	mostSeats   = 1024    // of a cell that are passed over
	mostAlike   = 128     // of those with a like shape, how many of the newest are compared
	rememberIDs = 1 << 17
)

// imprint is one curve in little: its points as shares of its greatest flow and head.
type imprint struct {
	place           int32
	points          uint8
	name            string
	flow, head, top float32 // L/h and m, greatest; W, greatest, 0 where unknown
	q, h            [keptPoints]uint16
}

// copies are the imprints kept, found by a coarse shape.
type copies struct {
	ring  []imprint
	next  int               // where the next goes, once the ring is full
	index map[uint32][]seat // by coarse shape, oldest first
	ids   map[string]int32  // item numbers and the place of each, of the last rememberIDs
	order []string
	oldID int
}

// seat is where an imprint is in the ring, with two more of its figures and the three of its cell, so that most of those that are not
// alike are passed over without a look at the ring.
type seat struct {
	at         int32
	q, h       uint16
	ha, hb, qa uint16
}

func newCopies() copies { return copies{index: map[uint32][]seat{}, ids: map[string]int32{}} }

// imprintOf takes the imprint of a sheet.
func (s *sheet) imprintOf(place int) imprint {
	m := imprint{place: int32(place), points: uint8(min(len(s.q), 255)), name: short(s.curve.Number), flow: float32(s.last), head: float32(s.top)}
	n := len(s.q)
	for i := range keptPoints {
		j := i
		if n > keptPoints {
			j = i * (n - 1) / (keptPoints - 1)
		} else if i >= n {
			break
		}
		m.q[i], m.h[i] = uint16(kept16*s.q[j]/s.last+0.5), uint16(kept16*s.h[j]/s.top+0.5)
	}
	for i := range s.p {
		m.top = max(m.top, float32(s.p[i]))
	}
	return m
}

func short(name string) string {
	letters := []rune(name)
	if len(letters) <= keptName {
		return name
	}
	return string(letters[:keptName-1]) + "…"
}

// coarse cells are so wide that a curve and its copy, rounded anew, are in one or in adjoining ones.
const (
	coarse = 1500 // of kept16: 2.5 %
)

// keys are the cells that a copy may be in: the one of the shape and, where it lies near a border, those beyond.
func (m *imprint) keys(apart, flowApart float64, each func(key uint32)) {
	a, b, c := m.middle()
	edge, flowEdge := int(2*apart*kept16)+2, int(2*flowApart*kept16)+2
	for x := (a - edge) / coarse; x <= (a+edge)/coarse; x++ {
		for y := (b - edge) / coarse; y <= (b+edge)/coarse; y++ {
			for z := (c - flowEdge) / coarse; z <= (c+flowEdge)/coarse; z++ {
				each(m.cell(x, y, z))
			}
		}
	}
}

func (m *imprint) key() uint32 {
	a, b, c := m.middle()
	return m.cell(a/coarse, b/coarse, c/coarse)
}

func (m *imprint) cell(x, y, z int) uint32 {
	return uint32(m.points)<<24 | uint32(x&0xff)<<16 | uint32(y&0xff)<<8 | uint32(z&0xff)
}

// inner are the two heads and the flow that tell shapes apart best.
func (m *imprint) inner() (ha, hb, qa uint16) {
	i := min(int(m.points), keptPoints)
	return m.h[i/2], m.h[i*3/4], m.q[i/2]
}

// middle is inner, shifted so that no border of a cell is below 0.
func (m *imprint) middle() (a, b, c int) {
	ha, hb, qa := m.inner()
	return int(ha) + coarse, int(hb) + coarse, int(qa) + coarse
}

// outer are a flow and a head that tell shapes of one middle apart.
func (m *imprint) outer() (q, h uint16) {
	i := min(int(m.points), keptPoints)
	return m.q[i*3/4], m.h[max(1, i/4)]
}

// keep adds an imprint.
func (c *copies) keep(m imprint) {
	at := int32(len(c.ring))
	if len(c.ring) < mostKept {
		c.ring = append(c.ring, m)
	} else {
		at = int32(c.next)
		old := &c.ring[at]
		key := old.key()
		if rest := c.index[key][1:]; len(rest) == 0 {
			delete(c.index, key)
		} else {
			c.index[key] = rest
		}
		*old = m
		c.next = (c.next + 1) % mostKept
	}
	key := m.key()
	q, h := m.outer()
	ha, hb, qa := m.inner()
	c.index[key] = append(c.index[key], seat{at, q, h, ha, hb, qa})
}

// How near two curves are to be one: rounding to the last digit printed, twice. Heads of small pumps are printed to few digits, so
// this is as wide as half a centimetre is of the greatest head, and never wider than six parts in a thousand.
const (
	leastApart = 0.0015
	mostApart  = 0.006
)

// kinship is how one curve came of another.
type kinship struct {
	of         imprint
	flow, head float64 // by what its flows and heads are multiplied
	kind       string
}

const (
	kinSame  = "same"
	kinSpeed = "speed"
	kinUnit  = "unit"
)

// find looks for a curve that this one is a copy of.
func (c *copies) find(m imprint, s *sheet) (kinship, bool) {
	var best kinship
	apart := min(mostApart, max(leastApart, 1.2*0.005/s.top))
	flowApart := min(mostApart, max(leastApart, 1.2*s.digits.q/2/s.last))
	q, h := m.outer()
	flowWidth, headWidth := uint16(2*flowApart*kept16)+2, uint16(2*apart*kept16)+2
	most := limits{flow: limit(2 * flowApart), head: limit(2 * apart)}
	ha, hb, qa := m.inner()
	m.keys(apart, flowApart, func(key uint32) {
		seats := c.index[key]
		compared := 0
		for i := len(seats) - 1; i >= max(0, len(seats)-mostSeats) && compared < mostAlike && best.kind != kinSame; i-- {
			seat := &seats[i]
			if seat.q-q+flowWidth > 2*flowWidth || seat.h-h+headWidth > 2*headWidth { // below 0, it wraps
				continue
			}
			compared++
			if off(seat.ha, ha) > most.head || off(seat.hb, hb) > most.head || off(seat.qa, qa) > most.flow {
				continue // kin would say so too
			}
			if k, ok := kin(&c.ring[seat.at], &m, apart, flowApart, most); ok && better(k, best) {
				best = k
			}
		}
	})
	return best, best.kind != ""
}

func better(k, than kinship) bool {
	return than.kind == "" || k.kind == kinSame || k.of.place > than.of.place && k.kind == than.kind
}

// kin compares two imprints: the same points, to within rounding, scaled by a factor each way that means something.
func kin(a, b *imprint, apart, flowApart float64, most limits) (kinship, bool) {
	if a.points != b.points {
		return kinship{}, false
	}
	n := min(int(a.points), keptPoints)
	for i := range n {
		if off(a.q[i], b.q[i]) > most.flow || off(a.h[i], b.h[i]) > most.head {
			return kinship{}, false
		}
	}
	k := kinship{of: *a, flow: float64(b.flow) / float64(a.flow), head: float64(b.head) / float64(a.head)}
	switch {
	case near(k.flow, 1, 2*flowApart) && near(k.head, 1, 2*apart):
		k.kind = kinSame
		return k, true
	case near(k.head, k.flow*k.flow, 2*apart+3*flowApart) && k.flow > 0.3 && k.flow < 3 && math.Abs(k.flow-1) > 0.015 && powerKin(a, b, k.flow, speaks(a, n, apart, flowApart)):
		k.kind = kinSpeed
		return k, true
	case n >= 5 && samePower(a, b):
		for _, c := range knownSlips {
			if c.power == 1 && near(k.flow*c.flow, 1, 2*flowApart) && near(k.head*c.head, 1, 2*apart) {
				k.kind = kinUnit
				return k, true
			}
		}
		if near(k.head, 1, 2*apart) && (near(k.flow, otherGallon, 2*flowApart) || near(k.flow, 1/otherGallon, 2*flowApart)) {
			k.kind = kinUnit
			return k, true
		}
	}
	return kinship{}, false
}

// otherGallon is a UK gallon in US gallons.
const otherGallon = 4.54609 / 3.785411784

// limits are how far two imprints may be apart at a point, in the shares that are kept.
type limits struct{ flow, head int }

// limit is the greatest number of kept shares that is not above a share.
func limit(share float64) int {
	n := int(share * kept16)
	if float64(n+1)/kept16 <= share { // the product was rounded down to below a whole number
		n++
	}
	return n
}

func off(a, b uint16) int {
	if a > b {
		return int(a - b)
	}
	return int(b - a)
}

// speaks is how unlikely it is, in ln, that two curves agree so well by chance: sound shapes of one middle differ by some 8 % of the
// greatest head at the other points, and uneven flows by as much of the greatest flow.
func speaks(a *imprint, n int, apart, flowApart float64) float64 {
	const differ = 0.08
	heads, flows := -math.Log(min(1, 4*apart/differ)), -math.Log(min(1, 4*flowApart/differ))
	spacing := float64(a.q[n-1]-a.q[0]) / float64(n-1)
	sum := 0.0
	for i := 1; i < n-1; i++ {
		sum += heads
		if int(a.points) > keptPoints || math.Abs(float64(a.q[i])-float64(a.q[0])-spacing*float64(i)) > 4*flowApart*kept16 {
			sum += flows
		}
	}
	return sum
}

// powerKin says whether power goes with the cube of speed, as it must, or was copied as it stood, and the curves agree well enough
// for that to mean something.
func powerKin(a, b *imprint, speed, speaks float64) bool {
	const enough, enoughForSame = 4.5, 9
	if a.top == 0 || b.top == 0 {
		return a.top == b.top && speaks > enoughForSame
	}
	ratio := float64(b.top / a.top)
	return near(ratio, speed*speed*speed, 0.08) && speaks > enough || near(ratio, 1, 0.004) && speaks > enoughForSame
}

func samePower(a, b *imprint) bool { return a.top > 0 && near(float64(b.top), float64(a.top), 0.004) }

// tellCopy says what a copy is a copy of. It is false where nothing was said.
func (s *sheet) tellCopy(k kinship) {
	twin := fmt.Sprintf("%q (place %d)", k.of.name, k.of.place)
	switch k.kind {
	case kinSame:
		s.add(SameCurveTwice, 0.97, source.Practice, "see whether the two are one article; if they are, sell it under one number",
			fmt.Sprintf("The curve is that of %s, point by point.", twin), of("place of the other", float64(k.of.place), "1"))
	case kinSpeed:
		note := "a copy at another speed, worked out and not measured"
		if near(k.flow, 1.2, 0.01) || near(k.flow, 1/1.2, 0.01) {
			note = "the curve of one mains frequency under the number of the other, or worked out from it"
		}
		s.add(ScaledCopy, 0.93, source.AffinityLaws, "see at which speed each was measured",
			fmt.Sprintf("The curve is that of %s with flows times %.3g and heads times %.3g, as a speed times %.3g makes it: %s.",
				twin, k.flow, k.head, k.flow, note),
			of("factor of the flows", k.flow, "1"), of("factor of the heads", k.head, "1"), of("place of the other", float64(k.of.place), "1"))
	}
}

// twinUnit says which unit makes a curve the same as its twin.
func (s *sheet) twinUnit(k kinship) {
	code, words := FlowOtherGallon, "the other gallon"
	factor := 1 / k.flow
	for _, c := range knownSlips {
		if c.power == 1 && near(k.flow*c.flow, 1, 0.012) && near(k.head*c.head, 1, 0.012) {
			code, words, factor = c.code, c.words, c.flow*c.head
		}
	}
	s.addAs(finding.Stop, code, 0.95, source.Definition, "see which of the two is right, and look up the unit of the other",
		fmt.Sprintf("The curve is that of %q (place %d) but for a factor that is one of %s: one of the two is in the wrong unit.", k.of.name, k.of.place, words),
		of("factor", factor, "1"), of("place of the other", float64(k.of.place), "1"))
}

// again remembers an item number, and says where it came before.
func (c *copies) again(number string, place int) (int32, bool) {
	if number == "" {
		return 0, false
	}
	if before, ok := c.ids[number]; ok {
		return before, true
	}
	if len(c.order) < rememberIDs {
		c.order = append(c.order, number)
	} else {
		delete(c.ids, c.order[c.oldID])
		c.order[c.oldID] = number
		c.oldID = (c.oldID + 1) % rememberIDs
	}
	c.ids[number] = int32(place)
	return 0, false
}
