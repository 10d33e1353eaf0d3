package defect

import (
	"fmt"
	"math"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/water"
)

// sheet is one curve on the bench: its points in the order of flow and in the units of a catalogue, in which its figures are
// as round as they were printed. One sheet serves many curves, so that a sound one costs no memory.
type sheet struct {
	curve   *Curve
	q, h, p []float64 // L/h, m, W: finite, in order of flow, each flow once; p is nil where power is not known at each point
	index   []int     // of the points in the curve given
	top     float64   // greatest head
	last    float64   // greatest flow
	digits  digits
	perUnit float64 // W that 1 L/h lifted by 1 m takes
	shape   figures
	found   []Defect

	turned      bool // flow and head had been swapped
	mixed       bool // two curves in one
	slip        slip // the unit it is in, where slipped
	slipped     bool
	off         int // the point that lies off the curve of the others, or nowhere
	offExpected float64

	store [4][]float64 // behind q, h, p and what a fit needs
	order []int
	fit   fit
}

// digits are the values of the last digit that each column was printed with.
type digits struct{ q, h, p float64 }

// figures are what tells one kind of pump from another.
type figures struct {
	best       int     // the point of greatest hydraulic power
	hydraulic  float64 // W there
	efficiency float64 // the greatest over the curve; 0 where power is not known
	merit      float64 // ln of efficiency by that of the average small circulator of the same hydraulic power
	speed      float64 // ln of the specific speed at the best point
	known      bool    // hydraulic power is above 0
}

// density of water at 20 °C, at which pumps are measured.
const density = 998.2 // kg/m³; IAPWS-95 gives 998.21 at 101.325 kPa, from memory

// ready makes the sheet of a curve. It is false where there is no curve to speak of, and says why.
func (s *sheet) ready(c *Curve) bool {
	s.curve, s.found = c, nil
	s.turned, s.mixed, s.slipped, s.off = false, false, false, nowhere
	s.q, s.h, s.p, s.index = s.store[0][:0], s.store[1][:0], nil, s.index[:0]
	s.shape = figures{}
	s.last, s.top = 0, 0
	s.perUnit = density * water.Gravity * litrePerHour
	if !s.enough(len(c.Points)) || !s.numbers() {
		return false
	}
	for i, p := range c.Points {
		s.q = append(s.q, p.Flow.LitresPerHour())
		s.h = append(s.h, p.Head.Metres())
		s.index = append(s.index, i)
	}
	s.store[0], s.store[1] = s.q, s.h
	s.powers()
	return true
}

// litrePerHour in m³/s.
const litrePerHour = 1e-3 / 3600

// powers takes over the power at each point, or the one of the pump.
func (s *sheet) powers() {
	given := 0
	for _, p := range s.curve.Points {
		if p.Power > 0 {
			given++
		}
	}
	switch {
	case given > 0 && given < len(s.curve.Points):
		s.found = append(s.found, Defect{
			Code: PowerIncomplete, Severity: severities[PowerIncomplete], Confidence: 1, Source: source.Definition,
			Sentence: fmt.Sprintf("Power is given at %d of %d points.", given, len(s.curve.Points)),
			Evidence: []Evidence{of("points with power", float64(given), "1")},
			Change:   "give power at every point, or at none and once for the pump",
		})
		return
	case given == 0 && !(s.curve.Power > 0):
		return
	}
	s.p = s.store[2][:0]
	for _, p := range s.curve.Points {
		w := p.Power.Watts()
		if given == 0 {
			w = s.curve.Power.Watts()
		}
		s.p = append(s.p, w)
	}
	s.store[2] = s.p
}

// measure finds greatest head and flow, the best point and what kind of pump it is.
func (s *sheet) measure() {
	s.last = s.q[len(s.q)-1]
	for i := range s.q {
		s.top = max(s.top, s.h[i])
		w := s.q[i] * s.h[i] * s.perUnit
		if w > s.shape.hydraulic {
			s.shape.hydraulic, s.shape.best = w, i
		}
		if s.p != nil {
			s.shape.efficiency = max(s.shape.efficiency, w/s.p[i])
		}
	}
	s.digits = digits{q: printed(s.q, s.last), h: printed(s.h, s.top)}
	if s.p != nil {
		s.digits.p = printed(s.p, slices.Max(s.p))
	}
	s.shape.known = s.shape.hydraulic > 0
	if !s.shape.known {
		return
	}
	b := s.shape.best
	s.shape.speed = math.Log(specificSpeed(s.q[b]*litrePerHour, s.h[b]))
	if s.p != nil {
		s.shape.merit = s.meritOf(s.shape.efficiency, s.shape.hydraulic)
	}
}

// meritOf compares an efficiency with that of the average small circulator. Power at the shaft is compared as if a motor of
// usual efficiency drove it.
func (s *sheet) meritOf(efficiency, hydraulic float64) float64 {
	if s.curve.AtShaft {
		efficiency *= usualMotor
	}
	return math.Log(efficiency / referenceEfficiency(hydraulic))
}

// flat is how far a head may rise from one point to the next and still be taken for level: half a per cent of the greatest
// head is what reading a chart or rounding to a centimetre does to the flat part of a curve near shut-off. Chosen here.
const flat = 0.005

func (s *sheet) add(code string, confidence float64, src source.Source, change, sentence string, evidence ...Evidence) {
	s.addAs(severities[code], code, confidence, src, change, sentence, evidence...)
}

func (s *sheet) addAs(severity finding.Severity, code string, confidence float64, src source.Source, change, sentence string, evidence ...Evidence) {
	s.found = append(s.found, Defect{
		Code: code, Severity: severity, Sentence: sentence, Confidence: confidence, Evidence: evidence, Change: change, Source: src,
	})
}

func (s *sheet) has(code string) bool { return Result{Defects: s.found}.Has(code) }

// litres writes a flow for a sentence.
func litres(q float64) string { return finding.Figures(q) + " L/h" }

func metres(h float64) string { return finding.Figures(h) + " m" }

func watts(p float64) string { return finding.Figures(p) + " W" }

// pointsOf makes a curve's points of flows in L/h and heads in m.
func pointsOf(like []pump.Point, index []int) []pump.Point {
	made := make([]pump.Point, len(index))
	for i, j := range index {
		made[i] = like[j]
	}
	return made
}
