package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// slip is one way a column comes to be in another unit than it says: what the numbers are to be multiplied by.
type slip struct {
	code       string
	flow, head float64
	power      float64
	inverse    bool // numbers that were in the right unit were turned once too often
	words      string
	odds       float64 // ln of how likely it is before the curve is looked at, against no slip
}

// slips are the units a catalogue of garden pumps meets. Those of everyday come first.
func slips() []slip {
	l := unit.LitresPerHour(1)
	metre := 1.0
	kilopascal := 1 / kilopascalsPerMetre
	flow := func(code string, one unit.Flow, words string, odds float64) slip {
		return slip{code: code, flow: float64(one / l), head: 1, power: 1, words: words, odds: odds}
	}
	head := func(code string, one float64, words string, odds float64) slip {
		return slip{code: code, flow: 1, head: one / metre, power: 1, words: words, odds: odds}
	}
	all := []slip{
		flow(FlowLitresPerMinute, unit.LitresPerMinute(1), "litres a minute", 0),
		flow(FlowCubicMetres, unit.CubicMetresPerHour(1), "cubic metres an hour", 0),
		flow(FlowUSGallons, unit.USGallonsPerHour(1), "US gallons an hour", 0),
		flow(FlowUKGallons, unit.UKGallonsPerHour(1), "UK gallons an hour", -0.3),
		flow(FlowLitresPerSecond, unit.LitresPerSecond(1), "litres a second", -2.5),
		flow(FlowUSGallonsPerMin, unit.USGallonsPerMinute(1), "US gallons a minute", -2.5),
		head(HeadFeet, unit.Feet(1).Metres(), "feet", 0),
		head(HeadKilopascals, kilopascal, "kilopascals", 0),
		head(HeadBars, 100*kilopascal, "bars", 0),
		head(HeadPSI, psi*kilopascal, "pounds a square inch", -1),
		{code: PowerUnit, flow: 1, head: 1, power: 1000, words: "kilowatts", odds: 0},
	}
	for _, s := range all[:9] {
		if s.code == FlowLitresPerSecond {
			continue
		}
		s.flow, s.head, s.inverse, s.odds = 1/s.flow, 1/s.head, true, s.odds-2
		all = append(all, s)
	}
	return all
}

const (
	// A metre of water as a unit of pressure is conventional: water of 1000 kg/m³ under standard gravity.
	// Source: NIST Special Publication 811, appendix B (conventional metre of water), from memory.
	kilopascalsPerMetre = 9.80665
	psi                 = 6.894757 // kPa; NIST Special Publication 811, appendix B, from memory
)

// spread is what figures of sound curves lie round: a middle and a width of each.
type spread struct {
	merit, meritWidth float64
	speed, speedWidth float64
	power             bool // merit is known
}

// anywhere is what is known of garden pumps before any catalogue is seen: half as efficient as the average circulator, and of
// specific speed 55, each within a factor of four either way. From the demo of the trade's common sizes; assumed.
var anywhere = spread{merit: -0.8, meritWidth: 0.75, speed: 4.0, speedWidth: 0.65, power: true}

// size is how large garden pumps are, in ln of L/h and of m: the middle, and a width below and above it. Large ones exist, so the
// width above is the greater.
const (
	flowMiddle, flowBelow, flowAbove = 8.6, 1.25, 1.9
	headMiddle, headBelow, headAbove = 1.1, 0.85, 1.3
)

// tails is how heavy the tails are: as those of Student's t with so many degrees of freedom, since pumps that are unlike the
// others are far commoner than the bell curve has them.
const tails = 6

func heavy(squares, dimensions float64) float64 {
	return -(tails + dimensions) / 2 * math.Log1p(squares/tails)
}

func square(x, middle, width float64) float64 { d := (x - middle) / width; return d * d }

func lopsided(x, middle, below, above float64) float64 {
	if x < middle {
		return square(x, middle, below)
	}
	return square(x, middle, above)
}

// likely is ln of how likely figures are among all garden pumps, up to a constant.
func (s *sheet) likely(f figures, flow, head float64) float64 {
	squares := square(f.speed, anywhere.speed, anywhere.speedWidth) +
		lopsided(math.Log(flow), flowMiddle, flowBelow, flowAbove) + lopsided(math.Log(head), headMiddle, headBelow, headAbove)
	dimensions := 3.0
	if s.p != nil {
		squares += square(f.merit, anywhere.merit, anywhere.meritWidth)
		dimensions++
	}
	return heavy(squares, dimensions)
}

// alike is ln of how likely figures are among the neighbours, up to a constant.
func (n spread) alike(f figures, power bool) float64 {
	squares, dimensions := square(f.speed, n.speed, n.speedWidth), 1.0
	if power && n.power {
		squares += square(f.merit, n.merit, n.meritWidth)
		dimensions++
	}
	return heavy(squares, dimensions)
}

// after are the figures of a curve whose numbers are multiplied by those of a slip.
func (s *sheet) after(c slip) figures {
	f := s.shape
	k := c.flow * c.head
	f.hydraulic *= k
	f.speed += 0.5*math.Log(c.flow) - 0.75*math.Log(c.head)
	if s.p != nil {
		f.efficiency *= k / c.power
		f.merit = s.meritOf(f.efficiency, f.hydraulic)
	}
	return f
}

// What it takes to call a unit wrong: how much more likely the curve is in the other unit, in ln, among all garden pumps and among
// its neighbours. Held to the labelled set.
const (
	surePrior     = 3.6
	sureNeighbour = 3.8
	worthALook    = -3.5 // a curve this likely as it stands cannot come to be called wrong, since no other is likelier than 0
	labelSpeaks   = 9    // of a label that is off by the very factor of the unit
	labelStands   = 3    // of a label that agrees with the numbers as they are: it may have been turned with them
	roundSpeaks   = 9    // at most, of numbers that are round in the other unit only
	wrongPower    = -3   // odds that power itself is wrong, against all units
)

// units looks for a wrong unit. Neighbours may be nil. It is true where one was found, which is then taken as mended in what follows.
func (s *sheet) units(neighbours *spread) (slip, bool) {
	if !s.shape.known {
		return slip{}, false
	}
	asIs := s.likely(s.shape, s.last, s.top)
	asNeighbour := 0.0
	if neighbours != nil {
		asNeighbour = neighbours.alike(s.shape, s.p != nil)
	}
	labelFlow, labelHead := s.curve.LabelFlow.LitresPerHour()/s.last, s.curve.LabelHead.Metres()/s.top
	roundFlow, roundHead := s.roundElsewhere()
	impossible := s.shape.efficiency > 1 || s.p != nil && s.shape.merit < math.Log(underReference)
	speaks := offLabel(labelFlow) || offLabel(labelHead) || roundFlow || roundHead || impossible
	if asIs > worthALook && asNeighbour > worthALook && !speaks {
		return slip{}, false
	}
	var best slip
	bestScore, bestPrior, second := math.Inf(-1), 0.0, math.Inf(-1)
	for _, c := range s.slips() {
		f := s.after(c)
		likely := s.likely(f, s.last*c.flow, s.top*c.head)
		if likely < -7 || f.efficiency > 1 {
			continue
		}
		prior := likely - asIs + c.odds
		score := prior - surePrior
		if neighbours != nil {
			near := neighbours.alike(f, s.p != nil) - asNeighbour + c.odds
			score = max(score, near-sureNeighbour)
			if near > prior {
				prior = near
			}
		}
		if c.flow != 1 && near(labelFlow, c.flow, 0.035) || labelHead > 0 && c.head != 1 && near(labelHead, c.head, 0.035+0.055/s.curve.LabelHead.Metres()) {
			score += labelSpeaks
			if c.code == HeadPSI { // a box may be as wrong as that
				score -= labelSpeaks / 2
			}
		}
		if c.flow != 1 && near(labelFlow, 1, labelOff) || c.head != 1 && near(labelHead, 1, labelOff) {
			score -= labelStands
		}
		if roundFlow && c.flow != 1 && !c.inverse {
			score += roundIn(s.q, c.flow, s.digits.q)
		}
		if roundHead && c.head != 1 && !c.inverse {
			score += roundIn(s.h, c.head, s.digits.h)
		}
		if score > bestScore {
			best, bestScore, bestPrior, second = c, score, prior, bestScore
		} else {
			second = max(second, score)
		}
	}
	if bestScore < 0 {
		return slip{}, false
	}
	// Power may be what is wrong, which leaves the specific speed as it is.
	if s.p != nil && best.power == 1 && bestScore < labelSpeaks-3 {
		f := s.shape
		f.merit = anywhere.merit
		alone := s.likely(f, s.last, s.top) - asIs + wrongPower
		if neighbours != nil && neighbours.power {
			f.merit = neighbours.merit
			alone = max(alone, neighbours.alike(f, true)-asNeighbour+wrongPower)
		}
		if alone > bestPrior {
			return slip{}, false
		}
	}
	s.tellUnit(best, bestScore, bestScore-second)
	return best, true
}

func (s *sheet) slips() []slip { return knownSlips }

// roundElsewhere says of each column whether it is rounder in another unit than in its own.
func (s *sheet) roundElsewhere() (flow, head bool) {
	needFlow, needHead := needsUnit(s.q, s.last, s.digits.q), needsUnit(s.h, s.top, s.digits.h)
	for i := range knownSlips {
		c := &knownSlips[i]
		if c.inverse {
			break // these come last
		}
		flow = flow || needFlow && c.flow != 1 && roundIn(s.q, c.flow, s.digits.q) > 0
		head = head || needHead && c.head != 1 && roundIn(s.h, c.head, s.digits.h) > 0
	}
	return flow, head
}

// knownSlips is slips, made once.
var knownSlips = slips()

func offLabel(ratio float64) bool { return ratio > 0 && math.Abs(ratio-1) > 0.15 }

func near(x, y, within float64) bool { return math.Abs(x/y-1) <= within }

func (s *sheet) tellUnit(c slip, score, lead float64) {
	sure := 1 - 1/(1+math.Exp(min(score, lead)))
	confidence := min(0.99, 0.5+0.5*max(0, 2*sure-1))
	column, have, mean := "flows", litres(s.last), litres(s.last*c.flow)
	factor := c.flow
	switch {
	case c.head != 1:
		column, have, mean, factor = "heads", metres(s.top), metres(s.top*c.head), c.head
	case c.power != 1:
		column, have, mean, factor = "powers", watts(s.p[s.shape.best]), watts(s.p[s.shape.best]*c.power), c.power
	}
	sentence := fmt.Sprintf("The %s look like %s: the greatest is %s as given and would be %s.", column, c.words, have, mean)
	if c.inverse {
		sentence = fmt.Sprintf("The %s look as if they had been turned from %s once too often: the greatest is %s as given and would be %s.",
			column, c.words, have, mean)
	}
	severity := finding.Stop
	if confidence < 0.75 {
		severity = finding.Caution
	}
	evidence := []Evidence{of("factor", factor, "1"), of("specific speed as given", math.Exp(s.shape.speed), "1"),
		of("specific speed in that unit", math.Exp(s.after(c).speed), "1")}
	if s.p != nil {
		evidence = append(evidence, of("efficiency as given", 100*s.shape.efficiency, "%"), of("efficiency in that unit", 100*s.after(c).efficiency, "%"))
	}
	s.addAs(severity, c.code, confidence, source.CirculatorReference, "look up the unit of the "+column, sentence, evidence...)
}
