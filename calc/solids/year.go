package solids

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Input is a foam, the fish before it and the water of a year.
type Input struct {
	Foam      unit.Volume
	Clean     unit.Ratio // open share of the clean foam; 0 takes TypicalFoam
	HeadRatio unit.Ratio // head due for cleaning by head clean: 3 for three times
	Flush     unit.Volume
	Pond      unit.Volume
	Fish      []stock.Group
	Protein   unit.Ratio
	Months    [12]unit.Temperature // of the water, January first
}

// TypicalFoam is the open share of reticulated foam. Source: assumed, 3 % of solid.
const TypicalFoam = unit.Ratio(0.97)

// A Month is the cleaning of one month, for the fish as grown.
type Month struct {
	Solids                unit.MassRate // dry
	Early, Expected, Late unit.Time     // between cleanings, at most a year
	Flushes               float64       // at the expected interval
	Water                 unit.Volume   // thrown away
}

// A Year is twelve months and their sum.
type Year struct {
	Months   [12]Month
	Flushes  float64
	Water    unit.Volume
	Share    unit.Ratio // of the pond: what the flushes change of its water in the year
	Findings []finding.Finding
}

var daysOfMonth = [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// The three guesses at what nobody measures: dry matter in the dirt, share caught, unevenness.
var guesses = [3]struct {
	deposit         unit.Density
	capture, uneven unit.Ratio
}{{20.4, 0.6, 4}, {30.6, 0.45, 3}, {40.8, 0.3, 2}}

// OverYear gives the cleaning of each month. Problems of the input are in err, an input.Errors.
func OverYear(t *working.Trail, in Input) (Year, error) {
	if err := check(in); err != nil {
		return Year{}, err
	}
	var y Year
	if in.Clean == 0 {
		in.Clean = TypicalFoam
		y.Findings = append(y.Findings, foamAssumed)
	}
	full := Full.Run(t, FullInput{Clean: in.Clean, Ratio: in.HeadRatio})
	for i, T := range in.Months {
		_, grown, _, err := stock.Loads(nil, in.Fish, stock.Feeding{Temperature: T, Protein: in.Protein})
		if err != nil {
			return Year{}, err
		}
		m := month(t, in, full, grown.Solids, daysOfMonth[i])
		y.Months[i] = m
		y.Flushes += m.Flushes
		y.Water += m.Water
	}
	y.Share = unit.Ratio(float64(y.Water) / float64(in.Pond))
	y.Findings = append(y.Findings, verdicts(y)...)
	return y, nil
}

func month(t *working.Trail, in Input, full unit.Ratio, solids unit.MassRate, days float64) Month {
	m := Month{Solids: solids}
	for i, to := range []*unit.Time{&m.Early, &m.Expected, &m.Late} {
		g := guesses[i]
		*to = interval(t, IntervalInput{
			Clean: in.Clean, Full: full, Volume: in.Foam, Deposit: g.deposit, Solids: solids, Capture: g.capture, Uneven: g.uneven,
		})
	}
	m.Flushes = days / m.Expected.Days()
	q := FlushWater.Run(t, FlushInput{Each: in.Flush, Every: m.Expected})
	m.Water = unit.CubicMetres(float64(q) * unit.Days(days).Seconds())
	return m
}

func check(in Input) error {
	var problems input.Errors
	between := func(field string, v, low, high float64, change string) {
		if !(v >= low && v <= high) {
			problems.Add(field, change, "%g", v)
		}
	}
	between("foam_volume_l", in.Foam.Litres(), 0.1, 1e6, "give the volume of the foam")
	if in.Clean != 0 {
		between("clean_porosity", in.Clean.Float(), 0.3, 0.99, "give the open share of the clean foam, or nothing")
	}
	between("head_ratio", in.HeadRatio.Float(), 1.1, 100, "give the head due for cleaning by the head clean, 3 for three times")
	between("flush_l", in.Flush.Litres(), 0, 1e6, "give the water each cleaning throws away")
	between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	for i, T := range in.Months {
		between(fmt.Sprintf("water_temperature_c[%d]", i), T.Celsius(), -2, 40, "give the water temperature of the month")
	}
	if problems.Err() == nil {
		_, _, _, err := stock.Loads(nil, in.Fish, stock.Feeding{Temperature: in.Months[0], Protein: in.Protein})
		problems.AddUnder("", err)
	}
	return problems.Err()
}

var foamAssumed = finding.Finding{
	Code: "FOAM_POROSITY_ASSUMED", Severity: finding.Note, Subject: "filter",
	Sentence: "The open share of the foam was not given, so 97 % was taken.",
	Value:    finding.Of(TypicalFoam.Percent(), "%"), Change: "Ask for the porosity of the foam.", Source: source.Choice,
}

// cleanedTooOften is less time between cleanings than people keep up with.
const cleanedTooOften = unit.Time(7 * 86400)

func verdicts(y Year) []finding.Finding {
	shortest := y.Months[0].Expected
	for _, m := range y.Months {
		shortest = min(shortest, m.Expected)
	}
	if shortest >= cleanedTooOften {
		return nil
	}
	return []finding.Finding{{
		Code: "CLEANING_TOO_OFTEN", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("In the warmest month the foam is due about every %.1f days.", shortest.Days()),
		Value:    finding.Of(shortest.Days(), "days"), Limit: finding.Of(cleanedTooOften.Days(), "days"),
		Change: "Take out the coarse dirt before the foam, or take more foam. Rinse it in pond water: tap water kills what lives on it.", Source: source.SludgeDensity,
	}}
}
