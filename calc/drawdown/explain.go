package drawdown

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// How is where the evaporation of a drop is from.
type How int

// From worst to best.
const (
	ByClimate How = iota + 1 // the usual weather of that day of the year
	ByWeather                // the weather there was
	ByBucket                 // measured in a bucket of pond water
)

// String is the way in plain words.
func (h How) String() string {
	return map[How]string{ByClimate: "by the climate", ByWeather: "by the weather given", ByBucket: "by the bucket"}[h]
}

// own is how far the evaporation of one day alone may be off, as a share: warmth that the water takes up or gives, and for
// the climate that no day is the usual one. Assumptions.
func (h How) own() float64 {
	switch h {
	case ByClimate:
		return 0.35
	case ByWeather:
		return 0.15
	default:
		return 0
	}
}

// BucketShare is how far a bucket's evaporation is from the pond's, as a standard uncertainty. It is an assumption.
const BucketShare = unit.Ratio(0.10)

// A Drop is the level read twice.
type Drop struct {
	Time    unit.Time
	Fall    unit.Length // of the level; negative where it rose
	Reading unit.Length // standard uncertainty of each reading
	Rain    unit.Length
	Filled  unit.Volume
	FallsOn bool
	How     How
	Penman  unit.Velocity // mean over the time; not read for a bucket
	Shallow unit.Velocity
	Bucket  unit.Length // fall in the bucket, rain and all
}

// Input is a pond and its drops.
type Input struct {
	Surface  unit.Area
	WetStone unit.Area // while the falls run
	Drops    []Drop
}

// A Band is a value with the bounds that hold 95 of 100 cases: two standard uncertainties to either side.
type Band struct{ Low, Expected, High unit.Flow }

func band(value, u float64) *Band {
	return &Band{unit.Flow(value - coverage*u), unit.Flow(value), unit.Flow(value + coverage*u)}
}

// coverage is the factor for 95 % (GUM, from memory).
const coverage = 2

// An Explained is one drop, part by part.
type Explained struct {
	Drop       Drop
	Evaporated unit.Length   // as fall of the level, wet stone and all
	Width      unit.Length   // its standard uncertainty
	Gained     unit.Length   // by rain and filling
	Rate       unit.Velocity // of evaporation
	Rest       Band
}

// A Verdict is what the drops say together.
type Verdict int

// The verdicts.
const (
	SunAlone Verdict = iota + 1
	PondLeaks
	StreamLoses
	PondAndStreamLose
	CannotTell
	DoesNotAddUp
)

// An Answer is what is left when the sun has had its part.
type Answer struct {
	Surface  unit.Area
	Verdict  Verdict
	Summary  string
	Leak     *Band     // with the falls off; nil where they never were
	Stream   *Band     // what running falls lose more; nil where they were not both on and off
	Together *Band     // where the falls were never off
	Smallest unit.Flow // leak that these readings could show
	Drops    []Explained
	Findings []finding.Finding
}

// Check says what is wrong with the input, as an input.Errors.
func (in Input) Check() error {
	var problems input.Errors
	problems.Between("pond.surface_m2", in.Surface.SquareMetres(), 0.05, 1e6, "give the open water in square metres")
	problems.Between("wet_stone_m2", in.WetStone.SquareMetres(), 0, 1e4, "give the stone that the falls keep wet")
	if len(in.Drops) == 0 {
		problems.Add("drops", "read the level twice, a day or more apart", "no drop was read")
	}
	for i, d := range in.Drops {
		path := fmt.Sprintf("drops[%d].", i)
		problems.Between(path+"hours", d.Time.Hours(), 3, 1440, "give the hours between the readings")
		problems.Between(path+"drop_mm", d.Fall.Millimetres(), -500, 2000, "give the fall of the level")
		problems.Between(path+"reading_uncertainty_mm", d.Reading.Millimetres(), 0.05, 50, "give how well the level could be read")
		problems.Between(path+"rain_mm", d.Rain.Millimetres(), 0, 1000, "give the rain, or none")
		problems.Between(path+"filled_l", d.Filled.Litres(), 0, 1e6, "give what was filled in, or nothing")
		if d.How == ByBucket {
			problems.Between(path+"bucket_drop_mm", d.Bucket.Millimetres(), -500, 500, "give the fall of the level in the bucket")
		}
	}
	return problems.Err()
}

// Explain takes the drops apart one by one and then together. Together the evaporation of all drops may be off by one common
// share, each drop by its own, and readings by chance; leak and stream are what fits best by generalised least squares (GUM,
// from memory), so that more readings of the same kind narrow chance but never the common share. Problems of the input are in
// err, an input.Errors.
func Explain(t *working.Trail, in Input) (Answer, error) {
	if err := in.Check(); err != nil {
		return Answer{}, err
	}
	a := Answer{Surface: in.Surface}
	var rows []row
	for i, d := range in.Drops {
		t.About(fmt.Sprintf("drop %d", i+1))
		one, r := in.apart(t, d)
		a.Drops, rows = append(a.Drops, one), append(rows, r)
	}
	t.About("")
	on, off := false, false
	for _, d := range in.Drops {
		on, off = on || d.FallsOn, off || !d.FallsOn
	}
	fit := together(rows, on && off)
	u := fit.leakWidth
	if off {
		a.Leak = band(fit.leak, u)
	} else {
		a.Together = band(fit.leak, u)
	}
	if on && off {
		a.Stream = band(fit.stream, fit.streamWidth)
	}
	a.Smallest = unit.Flow(coverage * u)
	a.judge(fit, rows)
	return a, nil
}

// row is one drop for the fit, in m³ and days.
type row struct {
	days, rest, evaporated float64
	common                 float64 // share that evaporation may be off with all drops of its kind
	chance                 float64 // m³
	bucket, on             bool
}

// apart takes one drop apart.
func (in Input) apart(t *working.Trail, d Drop) (Explained, row) {
	stone := unit.Area(0)
	if d.FallsOn {
		stone = in.WetStone
	}
	rate, reading, common := d.Penman, d.Reading, unit.Ratio(0)
	if d.How == ByBucket {
		rate = unit.Velocity((d.Bucket + d.Rain).Metres() / d.Time.Seconds())
		reading, common = unit.Length(math.Sqrt2)*d.Reading, BucketShare // two levels are read twice
	} else {
		common = Roads.Run(t, RoadsInput{Penman: d.Penman, Shallow: d.Shallow})
	}
	own := unit.Ratio(d.How.own() / math.Sqrt(max(1, d.Time.Days())))
	lost := Lost.Run(t, LostInput{Drop: d.Fall, Rain: d.Rain, Surface: in.Surface, Filled: d.Filled})
	evaporated := Evaporated.Run(t, EvaporatedInput{Rate: rate, Time: d.Time, Surface: in.Surface, WetStone: stone})
	rest := Rest.Run(t, RestInput{Lost: lost, Evaporated: evaporated, Time: d.Time})
	u := Width.Run(t, WidthInput{Reading: reading, Surface: in.Surface, Evaporated: evaporated, Common: common, Own: own, Time: d.Time})
	A := in.Surface.SquareMetres()
	made := Explained{
		Drop: d, Rate: rate, Rest: *band(float64(rest), float64(u)),
		Evaporated: unit.Metres(evaporated.CubicMetres() / A), Gained: d.Rain + unit.Metres(d.Filled.CubicMetres()/A),
		Width: unit.Metres(math.Hypot(common.Float(), own.Float()) * math.Abs(evaporated.CubicMetres()) / A),
	}
	return made, row{
		days: d.Time.Days(), rest: (lost - evaporated).CubicMetres(), evaporated: evaporated.CubicMetres(), common: common.Float(),
		chance: math.Hypot(math.Sqrt2*reading.Metres()*A, own.Float()*evaporated.CubicMetres()), bucket: d.How == ByBucket, on: d.FallsOn,
	}
}

// fit is what all drops say together, in m³/s.
type fit struct{ leak, leakWidth, stream, streamWidth float64 }

// together solves for leak and stream, with the common errors of weather and bucket as unknowns that lie about nothing with a
// width of one: rest = leak t + stream t + c V_e k ± chance.
func together(rows []row, both bool) fit {
	const leak, stream, weather, bucket = 0, 1, 2, 3
	var n [4][4]float64
	var b [4]float64
	n[weather][weather], n[bucket][bucket] = 1, 1
	if !both {
		n[stream][stream] = 1 // not asked for: held at nothing
	}
	for _, r := range rows {
		var x [4]float64
		x[leak] = r.days
		if both && r.on {
			x[stream] = r.days
		}
		kind := weather
		if r.bucket {
			kind = bucket
		}
		x[kind] = r.common * r.evaporated
		weight := 1 / (r.chance * r.chance)
		for i := range x {
			b[i] += weight * x[i] * r.rest
			for j := range x {
				n[i][j] += weight * x[i] * x[j]
			}
		}
	}
	inverse := invert(n)
	var solved [4]float64
	for i := range solved {
		for j := range b {
			solved[i] += inverse[i][j] * b[j]
		}
	}
	perSecond := func(perDay float64) float64 { return perDay / unit.Days(1).Seconds() }
	made := fit{leak: perSecond(solved[leak]), leakWidth: perSecond(math.Sqrt(inverse[leak][leak]))}
	if both {
		made.stream, made.streamWidth = perSecond(solved[stream]), perSecond(math.Sqrt(inverse[stream][stream]))
	}
	return made
}

// invert turns a symmetric matrix that is positive definite round, by Gauss and Jordan.
func invert(a [4][4]float64) (inverse [4][4]float64) {
	for i := range inverse {
		inverse[i][i] = 1
	}
	for i := range a {
		pivot := a[i][i]
		for j := range a {
			a[i][j] /= pivot
			inverse[i][j] /= pivot
		}
		for r := range a {
			if r == i {
				continue
			}
			f := a[r][i]
			for j := range a {
				a[r][j] -= f * a[i][j]
				inverse[r][j] -= f * inverse[i][j]
			}
		}
	}
	return inverse
}
