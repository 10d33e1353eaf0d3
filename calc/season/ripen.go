package season

import (
	"errors"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// FilterInput is a filter that starts new on a day of the year.
type FilterInput struct {
	Built      int // day of the year, 0 for its first
	PH         float64
	Oxygen     unit.Concentration
	TapTAN     unit.Concentration
	TapNitrate unit.Concentration
	Seeded     bool
}

// A FilterStart is how it ripens.
type FilterStart struct {
	Water    unit.Temperature // on the day it starts
	Span     ripening.Span
	Followed int  // days
	FedDays  int  // before the expected run is ripe
	Wakes    bool // whether the water passes the limits again in the spring after the first season
}

// A filter counts as followed through its first season when the fish were fed for so many days and then not for so many.
const (
	seasonFed = 90
	seasonGap = 30
)

// Ripen follows a new filter from the day it is built through its first season, a year at most, in the water of the year, which
// comes again when it is over, with the fish in from the first day and fed as the water lets them. Workings are those of the
// expected run.
func (y *Year) Ripen(t *working.Trail, in Input, f FilterInput) (FilterStart, error) {
	n := len(y.Days)
	asked := ripening.Input{
		Pond: in.Shape.Full(), PH: f.PH, Oxygen: f.Oxygen, Exchange: in.Change, TapTAN: f.TapTAN, TapNitrate: f.TapNitrate,
		Start: ripening.NewFilter(), Until: unit.Days(float64(n)), Stop: in.Stop,
	}
	if f.Seeded {
		asked.Start = ripening.SeededFilter()
	}
	asked.Start.TAN, asked.Start.Nitrate = f.TapTAN, f.TapNitrate
	for i := range n {
		d := &y.Days[(f.Built+i)%n]
		asked.Year = append(asked.Year, min(d.Mean, 40))
		asked.Temperature = max(asked.Temperature, d.Mean, 1)
		asked.Load = append(asked.Load, ripening.LoadStep{From: unit.Days(float64(i)), TAN: d.TAN})
	}
	asked.Temperature = min(asked.Temperature, 35)
	followed := firstSeason(asked.Load)
	asked.Until = unit.Days(float64(followed))
	span, err := ripening.Forecast(t, asked)
	if errors.Is(err, ripening.ErrStopped) {
		return FilterStart{}, ErrStopped
	} else if err != nil {
		return FilterStart{}, err
	}
	made := FilterStart{Water: y.Days[f.Built%n].Mean, Span: span, Followed: followed}
	until := float64(followed)
	if span.Expected.Ripe {
		until = span.Expected.RipeAt.Days()
	}
	for i := range followed {
		if float64(i) < until && asked.Load[i].TAN > 0 {
			made.FedDays++
		}
	}
	if followed < n && span.Expected.Ripe {
		asked.Until = unit.Days(float64(n))
		year, err := ripening.Run(nil, asked)
		if errors.Is(err, ripening.ErrStopped) {
			return FilterStart{}, ErrStopped
		} else if err != nil {
			return FilterStart{}, err
		}
		made.Wakes = !year.Ripe || year.RipeAt.Days() > float64(followed)
	}
	return made, nil
}

// firstSeason is how many days it is until the fish have been fed for a season and then fast; all of them where they never do.
func firstSeason(load []ripening.LoadStep) int {
	fed, gap := 0, 0
	for i, l := range load {
		if l.TAN > 0 {
			fed, gap = fed+1, 0
			continue
		}
		if gap++; fed >= seasonFed && gap >= seasonGap {
			return i + 1
		}
	}
	return len(load)
}

// Findings are what is said of the start.
func (f FilterStart) Findings() []finding.Finding {
	found := f.Span.Findings()
	if !f.Wakes {
		return found
	}
	return append(slices.Clone(found), finding.Finding{
		Code: "FILTER_WAKES_LATE", Severity: finding.Caution, Subject: "filter",
		Sentence: "In the spring after its first season the filter lags behind the fish: most of its bacteria have died in the unfed cold, and ammonia or nitrite pass their limits again.",
		Change:   "Feed little when feeding begins, and test as with a new filter.", Source: source.MonodNitrification,
	})
}
