package uv

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// InactivationInput is one pass through a unit and the organisms to hold it against.
type InactivationInput struct {
	Field     Field
	Flow      unit.Flow
	Tanks     int             // mixing.UsualTanks where not measured
	Responses []kill.Response // published
	D10       unit.Fluence    // the caller's own organism; 0 is none
}

// A RatioBand is a number with its width.
type RatioBand struct{ Low, Expected, High unit.Ratio }

// Reach is how the dose of one pass stands to a published one.
type Reach int

// Reaches.
const (
	Below  Reach = iota + 1 // even plug flow gives less
	Within                  // the low end gives less, plug flow as much or more
	Above                   // even the low end gives as much
)

// An Effect is one pass held against one published dose, or against the caller's own D10.
type Effect struct {
	Published *kill.Response // nil is the caller's own
	D10       unit.Fluence   // dose that leaves one in ten; 0 where no reduction was published
	Pass      Pass           // the parts of it that need no D10 where there is none
	Reach     Reach          // 0 for the caller's own
	Log       *RatioBand     // powers of ten taken, no more than was published; nil where no reduction was
	Share     *RatioBand
	AtLeast   bool // the dose is above the published one: Log is that of the published dose
}

// Inactivate holds one pass against published doses.
func Inactivate(t *working.Trail, in InactivationInput) ([]Effect, []finding.Finding, error) {
	errs := checkService(in.Flow, 0, 0)
	if in.Tanks < 1 || in.Tanks > 100 {
		errs.Add("tanks", "give 1 for a stirred chamber to 100 for plug flow", "%d tanks are not between 1 and 100", in.Tanks)
	}
	if d := in.D10.MillijoulesPerSquareCentimetre(); !(d >= 0 && d <= 1e5) {
		errs.Add("d10_mj_per_cm2", "give the dose that leaves one in ten", "%g mJ/cm² is not between 0 and 100000", d)
	}
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	dose, err := DoseFrom(t, in.Field, in.Flow, 0, 0)
	if err != nil {
		return nil, nil, err
	}
	effects := make([]Effect, 0, len(in.Responses)+1)
	for _, r := range in.Responses {
		t.About(r.Organism)
		effects = append(effects, in.published(t, dose, r))
	}
	if in.D10 > 0 {
		t.About("the organism asked for")
		e := Effect{D10: in.D10, Pass: passOf(t, in.Field, dose.Mean, in.D10, in.Tanks)}
		e.Log, e.Share = reduction(t, e.Pass.Band, in.D10)
		effects = append(effects, e)
	}
	return effects, killFindings(dose), nil
}

func (in InactivationInput) published(t *working.Trail, dose Dose, r kill.Response) Effect {
	e := Effect{Published: &r}
	if r.Log10 == 0 { // without a D10, tanks cannot be told; water in the mean light on the fastest path can
		e.Pass = Pass{
			Plug: dose.Mean, Fastest: dose.Fastest, Reason: "the fastest laminar water governs",
			Band: mixing.Band{Low: dose.Fastest, Expected: dose.Mean, High: dose.Mean},
		}
		e.Reach = reach(e.Pass.Band, r)
		return e
	}
	// From the upper end of a published range: the organism is taken to be as hard as it may be.
	e.D10 = kill.ImpliedD10.Run(t, kill.D10Input{Dose: r.High, Log: r.Log10})
	e.Pass = passOf(t, in.Field, dose.Mean, e.D10, in.Tanks)
	e.Reach = reach(e.Pass.Band, r)
	most := e.Pass.Band
	e.AtLeast = most.Low > r.High
	for _, d := range []*unit.Fluence{&most.Low, &most.Expected, &most.High} {
		*d = min(*d, r.High)
	}
	e.Log, e.Share = reduction(t, most, e.D10)
	return e
}

func reach(b mixing.Band, r kill.Response) Reach {
	switch {
	case b.Low >= r.High:
		return Above
	case b.High >= r.Low:
		return Within
	default:
		return Below
	}
}

func reduction(t *working.Trail, b mixing.Band, d10 unit.Fluence) (log, share *RatioBand) {
	log, share = new(RatioBand), new(RatioBand)
	for _, end := range []struct {
		dose       unit.Fluence
		log, share *unit.Ratio
	}{{b.Low, &log.Low, &share.Low}, {b.Expected, &log.Expected, &share.Expected}, {b.High, &log.High, &share.High}} {
		*end.log = kill.LogInactivation.Run(t, kill.LogInput{Dose: end.dose, D10: d10})
		*end.share = kill.Share.Run(t, kill.ShareInput{Log: *end.log})
	}
	return log, share
}

func killFindings(d Dose) []finding.Finding {
	mean := d.Mean.MillijoulesPerSquareCentimetre()
	green, _ := kill.Find("green-not-suppressed")
	least, most := green.Low.MillijoulesPerSquareCentimetre(), green.High.MillijoulesPerSquareCentimetre()
	return []finding.Finding{{
		Code: "NO_KILL_IN_ONE_PASS", Severity: finding.Caution, Subject: subject, Source: green.Source,
		Value: finding.Of(mean, "mJ/cm²"), Limit: finding.Of(most, "mJ/cm²"),
		Sentence: fmt.Sprintf("One pass gives %s mJ/cm²; three kinds of green cells showed no suppression at %.0f to %.0f.", finding.Figures(mean), least, most),
		Change:   "Do not count on one pass against green water; see what the pond gathers in a day.",
	}, {
		Code: "KILL_IN_A_STRAIGHT_LINE", Severity: finding.Note, Subject: subject, Source: source.Chick,
		Sentence: "Below a published dose kill is taken in proportion to dose, with no shoulder; above it no more is told than was published. The doses were given in clear thin layers, and particles, clumps and repair all lower what they do.",
		Change:   "Filter before the lamp.",
	}, {
		Code: "DRINKING_WATER_TABLE_ONLY_A_CHECK", Severity: finding.Note, Subject: subject, Source: source.UVDGM2006,
		Sentence: "The drinking-water table stands here to check the arithmetic of dose, read at the mean dose of one pass. A garden unit is not validated, its least dose is lower, and pond water is never fit to drink.",
		Change:   "Go by the low end of the dose.",
	}}
}

// Published finds published responses by their keys, all of them where none is named.
func Published(keys []string) ([]kill.Response, error) {
	if len(keys) == 0 {
		return kill.Responses(), nil
	}
	var errs input.Errors
	found := make([]kill.Response, 0, len(keys))
	for i, key := range keys {
		r, ok := kill.Find(key)
		if !ok {
			errs.Add(fmt.Sprintf("organisms[%d]", i), "list the published doses to see their keys", "no published dose has the key %q", key)
		}
		found = append(found, r)
	}
	return found, errs.Err()
}
