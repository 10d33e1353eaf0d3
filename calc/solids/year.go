package solids

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Input is a bed of media, the fish before it and the water of a year.
type Input struct {
	Medium    filter.Medium
	Volume    unit.Volume // of the media
	Clean     unit.Ratio  // open share of the clean bed; 0 takes what is typical
	HeadRatio unit.Ratio  // head due for cleaning by head clean; 0 takes filter.DueRatio
	Flush     unit.Volume // thrown away by each cleaning; 0 where it is not known
	Pond      unit.Volume
	Fish      []stock.Group
	Protein   unit.Ratio
	Months    [12]unit.Temperature // of the water, January first
}

// A Month is the cleaning of one month, for the fish as grown.
type Month struct {
	Solids                unit.MassRate // dry
	Early, Expected, Late unit.Time     // between cleanings, at most a year
	Flushes               float64       // at the expected interval
	Water                 unit.Volume   // thrown away
	WeeklyShare           unit.Ratio    // of the pond, changed each week by that
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

// OverYear gives the cleaning of each month. Problems of the input are in err, an input.Errors.
func OverYear(t *working.Trail, in Input) (Year, error) {
	if err := check(in); err != nil {
		return Year{}, err
	}
	var y Year
	var found []finding.Finding
	in, y.Findings = assume(in)
	full := Full.Run(t, FullInput{Clean: in.Clean, Ratio: in.HeadRatio})
	warmest := slices.Max(in.Months[:])
	for i, T := range in.Months {
		_, grown, assumed, err := stock.Loads(nil, in.Fish, stock.Feeding{Temperature: T, Protein: in.Protein})
		if err != nil {
			return Year{}, err
		}
		if T == warmest {
			found = assumed // the same in every month, but for the temperature
		}
		m := month(t, in, full, grown.Solids, daysOfMonth[i])
		y.Months[i] = m
		y.Flushes += m.Flushes
		y.Water += m.Water
	}
	y.Share = unit.Ratio(float64(y.Water) / float64(in.Pond))
	y.Findings = slices.Concat(found, y.Findings, verdicts(in, y))
	return y, nil
}

func month(t *working.Trail, in Input, full unit.Ratio, solids unit.MassRate, days float64) Month {
	m := Month{Solids: solids}
	guesses := beds[in.Medium].guesses
	for i, to := range []*unit.Time{&m.Early, &m.Expected, &m.Late} {
		g := guesses[i]
		*to = interval(t, IntervalInput{
			Clean: in.Clean, Full: full, Volume: in.Volume, Deposit: g.deposit, Solids: solids, Capture: g.capture, Uneven: g.uneven,
		})
	}
	m.Flushes = days / m.Expected.Days()
	q := FlushWater.Run(t, FlushInput{Each: in.Flush, Every: m.Expected})
	m.Water = unit.CubicMetres(float64(q) * unit.Days(days).Seconds())
	m.WeeklyShare = unit.Ratio(float64(q) * unit.Days(7).Seconds() / float64(in.Pond))
	return m
}

func check(in Input) error {
	var problems input.Errors
	if _, ok := beds[in.Medium]; !ok {
		problems.Add("filter.medium", "plan the cleaning of the foam, matting, beads or sand that stands before them", "%s hold next to no dirt", in.Medium)
	}
	problems.Between("filter.medium_l", in.Volume.Litres(), 0.1, 1e6, "give the volume of the media")
	if in.Clean != 0 {
		problems.Between("open_percent", in.Clean.Percent(), 30, 99, "give the open share of the clean media, or nothing")
	}
	if in.HeadRatio != 0 {
		problems.Between("head_ratio", in.HeadRatio.Float(), 1.1, 100, "give the head due for cleaning by the head clean, or nothing")
	}
	problems.Between("filter.flush_l", in.Flush.Litres(), 0, 1e6, "give the water each cleaning throws away, or nothing")
	problems.Between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	for i, T := range in.Months {
		problems.Between(fmt.Sprintf("water_temperatures_c[%d]", i), T.Celsius(), -2, 40, "give the water temperature of the month")
	}
	if problems.Err() == nil {
		_, _, _, err := stock.Loads(nil, in.Fish, stock.Feeding{Temperature: in.Months[0], Protein: in.Protein})
		problems.AddUnder("stock", err)
	}
	return problems.Err()
}
