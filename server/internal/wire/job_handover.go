package wire

import (
	"cmp"
	"slices"
	"time"

	"example.com/pondwright/calc/calendar"
	"example.com/pondwright/calc/handover"
	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Checks turns checks into messages.
func Checks(checks []handover.Check) []*pb.CommissionCheck {
	made := make([]*pb.CommissionCheck, len(checks))
	for i, c := range checks {
		made[i] = &pb.CommissionCheck{
			Check: c.ID, Name: c.Name, How: c.How, Expected: quantity(c.Expected), Low: quantity(c.Low), High: quantity(c.High), Source: Source(c.Source),
		}
	}
	return made
}

// DoseRows works out how much of a product makes each dose in a pond whose volume may be off.
func DoseRows(t *working.Trail, volume unit.Volume, uncertain unit.Ratio) []*pb.DoseRow {
	var made []*pb.DoseRow
	for _, d := range treat.Doses() {
		t.About("dose " + d.Reading)
		amount := treat.MassInWater.Run(t, treat.MassInput{Volume: volume, Concentration: d.Concentration}).Grams()
		made = append(made, &pb.DoseRow{
			DoseMgPerL: d.Concentration.MilligramsPerLitre(), AmountG: amount,
			LeastG: amount * (1 - uncertain.Float()), MostG: amount * (1 + uncertain.Float()), Reading: d.Reading,
		})
	}
	return made
}

// WhatIfs turns what an owner does into messages.
func WhatIfs(all []handover.WhatIf) []*pb.WhatIf {
	made := make([]*pb.WhatIf, len(all))
	for i, w := range all {
		made[i] = &pb.WhatIf{Happens: w.Happens, DoNow: w.Now, Then: w.Then}
	}
	return made
}

// Entries turns the jobs of a year into messages.
func Entries(entries []calendar.Entry) []*pb.CalendarEntry {
	made := make([]*pb.CalendarEntry, len(entries))
	for i, e := range entries {
		made[i] = &pb.CalendarEntry{
			Entry: e.ID, Name: e.Name, Sentence: e.Sentence, AtWaterC: new(e.At.Celsius()), Warming: e.Warming, Day: dayOfYear(e.Day), Source: Source(e.Source),
		}
	}
	return made
}

// DateBySeason dates what a year that was followed day by day says better than the means of its months.
func DateBySeason(entries []*pb.CalendarEntry, s *pb.SimulateYearResponse) {
	after := func(day string) string { // the day after
		at, err := time.Parse(time.DateOnly, day)
		if err != nil {
			return ""
		}
		return at.AddDate(0, 0, 1).Format(time.DateOnly)
	}
	days := map[string]string{
		"feed_begins": s.GetFeeding().GetFirstDay(), "feed_stops": after(s.GetFeeding().GetLastDay()), "lamp_on": s.GetLamp().GetFirstDay(),
		"lamp_off": after(s.GetLamp().GetLastDay()), "pump_winter": s.GetWinterPlace().GetFirstDay(), "pump_back": after(s.GetWinterPlace().GetLastDay()),
	}
	for _, e := range entries {
		if day, said := days[e.GetEntry()]; said {
			// By algae, feed and cold of the day, and not by a temperature of the mean.
			e.AtWaterC, e.Day = nil, ""
			if len(day) == len(time.DateOnly) {
				e.Day = day[5:]
			}
		}
	}
	slices.SortStableFunc(entries, func(a, b *pb.CalendarEntry) int {
		if (a.Day == "") != (b.Day == "") {
			return cmp.Compare(b.Day, a.Day)
		}
		return cmp.Compare(a.Day, b.Day)
	})
}

// dayOfYear is a day of a common year as 04-12; nothing for 0.
func dayOfYear(day int) string {
	if day == 0 {
		return ""
	}
	const common = 2027
	return time.Date(common, time.January, day, 0, 0, 0, 0, time.UTC).Format("01-02")
}
